// SPDX-License-Identifier: MIT
#define _XOPEN_SOURCE 700
#include "base/file.h"

#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

// cmocka.h asks for the others before it.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

struct bench {
  struct arena *arena;
  struct problems problems;
  char folder[64];
};

static int start(void **state) {
  static struct bench bench;
  bench.arena = arena_new();
  bench.problems = problems_in(bench.arena);
  snprintf(bench.folder, sizeof bench.folder, "/tmp/forebay-file-test-XXXXXX");
  *state = &bench;
  return mkdtemp(bench.folder) == NULL;
}

static int finish(void **state) {
  struct bench *bench = *state;
  char command[200];
  snprintf(command, sizeof command, "chmod -R u+w '%s' && rm -r '%s'", bench->folder, bench->folder);
  arena_free(bench->arena);
  return system(command);
}

static const char *in_folder(struct bench *bench, const char *name) {
  struct text path = text_in(bench->arena);
  text_printf(&path, "%s/%s", bench->folder, name);
  return text_end(&path);
}

// Written and read with the C library alone, so that nothing here rests on what is tested.
static const char *put(struct bench *bench, const char *name, const char *content) {
  const char *path = in_folder(bench, name);
  FILE *file = fopen(path, "wb");
  assert_non_null(file);
  fputs(content, file);
  fclose(file);
  return path;
}

static void assert_holds(const char *path, const char *content) {
  char found[200] = "";
  FILE *file = fopen(path, "rb");
  if (!file) fail_msg("%s is not there", path);
  found[fread(found, 1, sizeof found - 1, file)] = '\0';
  fclose(file);
  assert_string_equal(found, content);
}

static int count_entries(struct bench *bench) {
  char command[200], line[20] = "";
  snprintf(command, sizeof command, "ls -A '%s' | wc -l", bench->folder);
  FILE *list = popen(command, "r");
  assert_non_null(fgets(line, sizeof line, list));
  pclose(list);
  return (int)strtol(line, NULL, 10);
}

static void assert_said(struct bench *bench, const char *said, const char *cause) {
  assert_int_equal(bench->problems.count, 1);
  assert_string_equal(bench->problems.list[0].said, said);
  assert_int_equal(bench->problems.list[0].cause != NULL, cause != NULL);
  if (cause) assert_string_equal(bench->problems.list[0].cause, cause);
}

// ---- reading ----

static void reads_a_whole_file(void **state) {
  struct bench *bench = *state;
  const char *path = put(bench, "design.lua", "basin \"lower\" {}\n");
  struct file_bytes file;
  assert_true(file_read(&bench->problems, path, 1000, &file));
  assert_string_equal(file.bytes, "basin \"lower\" {}\n");
  assert_int_equal(file.length, 17);
  assert_string_equal(file.name, path);
  assert_int_equal(bench->problems.count, 0);
}

static void reads_an_empty_one_and_one_at_the_limit(void **state) {
  struct bench *bench = *state;
  struct file_bytes file;
  assert_true(file_read(&bench->problems, put(bench, "empty", ""), 10, &file));
  assert_int_equal(file.length, 0);
  assert_string_equal(file.bytes, "");
  assert_true(file_read(&bench->problems, put(bench, "ten", "0123456789"), 10, &file));
  assert_string_equal(file.bytes, "0123456789");
}

static void refuses_large_files(void **state) {
  struct bench *bench = *state;
  struct file_bytes file;
  const char *path = put(bench, "large", "");
  assert_int_equal(truncate(path, 10 * 1024 * 1024), 0);
  assert_false(file_read(&bench->problems, path, 1024 * 1024, &file));
  assert_said(bench, "the file is too large: 10.0 MB, at most 1 MB is read", NULL);
}

static void refuses_what_is_no_file(void **state) {
  struct bench *bench = *state;
  struct file_bytes file;
  assert_false(file_read(&bench->problems, in_folder(bench, "none"), 100, &file));
  assert_said(bench, "the file cannot be opened", "No such file or directory");
  bench->problems.count = 0;
  assert_false(file_read(&bench->problems, bench->folder, 100, &file));
  assert_said(bench, "this is a folder, a file is asked for", NULL);
  bench->problems.count = 0;
  assert_false(file_read(&bench->problems, "/dev/zero", 100, &file));
  assert_said(bench, "this is not a plain file", NULL);
  bench->problems.count = 0;
  const char *pipe = in_folder(bench, "pipe");
  assert_int_equal(mkfifo(pipe, 0600), 0);
  assert_false(file_read(&bench->problems, pipe, 100, &file));  // and does not wait for a writer
  assert_said(bench, "this is not a plain file", NULL);
}

// ---- writing ----

static void writes_a_new_file(void **state) {
  struct bench *bench = *state;
  const char *path = in_folder(bench, "report.txt");
  assert_true(file_write(&bench->problems, path, "held\n", 5));
  assert_holds(path, "held\n");
  assert_int_equal(count_entries(bench), 1);
}

static void writes_over_and_keeps_the_mode(void **state) {
  struct bench *bench = *state;
  const char *path = put(bench, "report.txt", "a longer old report\n");
  assert_int_equal(chmod(path, 0640), 0);
  assert_true(file_write(&bench->problems, path, "new\n", 4));
  assert_holds(path, "new\n");
  struct stat status;
  assert_int_equal(stat(path, &status), 0);
  assert_int_equal(status.st_mode & 07777, 0640);
  assert_int_equal(count_entries(bench), 1);
}

static void writes_through_a_link(void **state) {
  struct bench *bench = *state;
  const char *path = put(bench, "real.txt", "old\n"), *link = in_folder(bench, "link.txt");
  assert_int_equal(symlink("real.txt", link), 0);
  assert_true(file_write(&bench->problems, link, "new\n", 4));
  assert_holds(path, "new\n");
  struct stat status;
  assert_int_equal(lstat(link, &status), 0);
  assert_true(S_ISLNK(status.st_mode));
}

static void writes_to_a_device(void **state) {
  struct bench *bench = *state;
  assert_true(file_write(&bench->problems, "/dev/null", "gone", 4));
  assert_false(file_write(&bench->problems, "/dev/full", "lost", 4));
  assert_said(bench, "the file cannot be written", "No space left on device");
}

static void writes_to_a_pipe(void **state) {
  struct bench *bench = *state;
  const char *pipe = in_folder(bench, "pipe");
  assert_int_equal(mkfifo(pipe, 0600), 0);
  int reader = open(pipe, O_RDONLY | O_NONBLOCK);
  assert_true(file_write(&bench->problems, pipe, "held\n", 5));
  char found[10] = "";
  assert_int_equal(read(reader, found, sizeof found), 5);
  assert_string_equal(found, "held\n");
  close(reader);
}

static void refuses_folders(void **state) {
  struct bench *bench = *state;
  assert_false(file_write(&bench->problems, bench->folder, "x", 1));
  assert_said(bench, "the file cannot be written", "Is a directory");
  bench->problems.count = 0;
  assert_false(file_write(&bench->problems, in_folder(bench, "none/report.txt"), "x", 1));
  assert_said(bench, "the file cannot be written", "No such file or directory");
  assert_int_equal(count_entries(bench), 0);
}

// A disk that fills up while writing, played by the limit on the size of files.
static void keeps_the_old_file_when_the_disk_is_full(void **state) {
  struct bench *bench = *state;
  const char *path = put(bench, "report.txt", "old\n");
  static char large[100000];
  struct rlimit old_limit;
  assert_int_equal(getrlimit(RLIMIT_FSIZE, &old_limit), 0);
  void (*old_handler)(int) = signal(SIGXFSZ, SIG_IGN);
  struct rlimit small = {.rlim_cur = 4096, .rlim_max = old_limit.rlim_max};
  assert_int_equal(setrlimit(RLIMIT_FSIZE, &small), 0);
  bool done = file_write(&bench->problems, path, large, sizeof large);
  setrlimit(RLIMIT_FSIZE, &old_limit);
  signal(SIGXFSZ, old_handler);
  assert_false(done);
  assert_said(bench, "the file cannot be written", "File too large");
  assert_holds(path, "old\n");
  assert_int_equal(count_entries(bench), 1);
}

// Root may write anywhere, so a child without rights tries: into a folder closed to it, and over a file that is.
static int try_without_rights(struct bench *bench, const char *path) {
  pid_t child = fork();
  if (child == 0) {
    if (geteuid() == 0 && setuid(65534) != 0) _exit(9);
    _exit(file_write(&bench->problems, path, "new\n", 4) ? 1 : 0);
  }
  int status;
  waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : 99;
}

static void keeps_the_old_file_without_rights(void **state) {
  struct bench *bench = *state;
  const char *path = put(bench, "report.txt", "old\n");
  assert_int_equal(chmod(path, 0666), 0);
  assert_int_equal(chmod(bench->folder, 0555), 0);
  assert_int_equal(try_without_rights(bench, path), 0);
  assert_holds(path, "old\n");
  assert_int_equal(chmod(path, 0444), 0);
  assert_int_equal(chmod(bench->folder, 0777), 0);
  assert_int_equal(try_without_rights(bench, path), 0);
  assert_holds(path, "old\n");
  assert_int_equal(count_entries(bench), 1);
}

// ---- folders ----

static void lists_sorted(void **state) {
  struct bench *bench = *state;
  put(bench, "b.lua", "");
  put(bench, "a.lua", "");
  put(bench, "Z.lua", "");
  put(bench, ".hidden.lua", "");
  put(bench, "notes.txt", "");
  assert_int_equal(mkdir(in_folder(bench, "folder.lua"), 0700), 0);
  const char **names;
  size_t count;
  bool whole = true;
  assert_true(file_list(&bench->problems, bench->folder, ".lua", &names, &count, &whole));
  assert_int_equal(whole, false);
  assert_said(bench, "is no plain file, so it was not read", NULL);
  bench->problems.count = 0;
  assert_int_equal(count, 3);
  assert_string_equal(names[0], in_folder(bench, "Z.lua"));
  assert_string_equal(names[1], in_folder(bench, "a.lua"));
  assert_string_equal(names[2], in_folder(bench, "b.lua"));
  assert_true(file_list(&bench->problems, bench->folder, ".json", &names, &count, NULL));
  assert_int_equal(count, 0);
  assert_false(file_list(&bench->problems, in_folder(bench, "none"), ".lua", &names, &count, NULL));
  assert_said(bench, "the folder cannot be opened", "No such file or directory");
}

static void tells_folders(void **state) {
  struct bench *bench = *state;
  assert_true(file_is_folder(bench->folder));
  assert_false(file_is_folder(put(bench, "file", "")));
  assert_false(file_is_folder(in_folder(bench, "none")));
}

// ---- memory ----

struct round {
  const char *folder, *path;
  struct arena *arena;
};

static void read_list_write(void *with) {
  struct round *round = with;
  struct problems problems = problems_in(round->arena);
  struct file_bytes file;
  const char **names;
  size_t count;
  file_read(&problems, round->path, 100, &file);
  arena_alloc(round->arena, 3000);  // fill the first block, so that what follows asks for memory of its own
  file_list(&problems, round->folder, ".lua", &names, &count, NULL);
  arena_alloc(round->arena, 7000);
  file_write(&problems, round->path, "new", 3);
}

static int open_files(void) {
  int count = 0;
  for (int file = 3; file < 256; file++) count += fcntl(file, F_GETFD) != -1;
  return count;
}

static void each_allocation_may_fail(void **state) {
  struct bench *bench = *state;
  for (int i = 0; i < 200; i++) {
    struct text name = text_in(bench->arena);
    text_printf(&name, "file-with-a-rather-long-name-%d.lua", i);
    put(bench, text_end(&name), "old");
  }
  struct round round = {bench->folder, put(bench, "x.lua", "old"), NULL};
  int before = open_files();
  long n = 1;
  for (bool done = false; !done && n < 100; n++) {
    arena_fail_nth(n);
    round.arena = arena_new();
    done = round.arena && arena_try(round.arena, read_list_write, &round);
    arena_fail_nth(0);
    arena_free(round.arena);
    assert_int_equal(open_files(), before);
    assert_holds(round.path, done ? "new" : "old");
  }
  assert_in_range(n, 5, 99);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(reads_a_whole_file, start, finish),
      cmocka_unit_test_setup_teardown(reads_an_empty_one_and_one_at_the_limit, start, finish),
      cmocka_unit_test_setup_teardown(refuses_large_files, start, finish),
      cmocka_unit_test_setup_teardown(refuses_what_is_no_file, start, finish),
      cmocka_unit_test_setup_teardown(writes_a_new_file, start, finish),
      cmocka_unit_test_setup_teardown(writes_over_and_keeps_the_mode, start, finish),
      cmocka_unit_test_setup_teardown(writes_through_a_link, start, finish),
      cmocka_unit_test_setup_teardown(writes_to_a_device, start, finish),
      cmocka_unit_test_setup_teardown(writes_to_a_pipe, start, finish),
      cmocka_unit_test_setup_teardown(refuses_folders, start, finish),
      cmocka_unit_test_setup_teardown(keeps_the_old_file_when_the_disk_is_full, start, finish),
      cmocka_unit_test_setup_teardown(keeps_the_old_file_without_rights, start, finish),
      cmocka_unit_test_setup_teardown(lists_sorted, start, finish),
      cmocka_unit_test_setup_teardown(tells_folders, start, finish),
      cmocka_unit_test_setup_teardown(each_allocation_may_fail, start, finish),
  };
  return cmocka_run_group_tests_name("base/file", tests, NULL, NULL);
}
