// SPDX-License-Identifier: MIT
#define _XOPEN_SOURCE 700  // realpath, lstat
#include "base/file.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/number.h"

static void add(struct problems *problems, const char *path, const char *said, int cause) {
  problem_add(problems, (struct problem){.at = {.file = path}, .said = said, .cause = cause ? strerror(cause) : NULL});
}

// ---- reading ----

static void add_too_large(struct problems *problems, const char *path, double size, size_t most) {
  const double mega = 1024.0 * 1024.0;
  struct text said = text_in(problems->arena);
  text_add(&said, "the file is too large: ");
  number_write(&said, size / mega, 1, true);
  text_add(&said, " MB, at most ");
  number_write_short(&said, (double)most / mega, 3, true);
  text_add(&said, " MB is read");
  add(problems, path, text_end(&said), 0);
}

// Opens without waiting, so that a pipe nobody writes to is refused instead of waited for.
static int open_plain(struct problems *problems, const char *path) {
  int file = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
  if (file < 0) {
    add(problems, path, "the file cannot be opened", errno);
    return -1;
  }
  struct stat status;
  int cause = fstat(file, &status) == 0 ? 0 : errno;
  if (!cause && S_ISREG(status.st_mode)) return file;
  close(file);
  bool folder = !cause && S_ISDIR(status.st_mode);
  add(problems, path,
      cause    ? "the file cannot be looked at"
      : folder ? "this is a folder, a file is asked for"
               : "this is not a plain file",
      cause);
  return -1;
}

// Reads up to `room` bytes; the error number, 0 when all went well.
static int read_all(int file, char *bytes, size_t room, size_t *length) {
  *length = 0;
  while (*length < room) {
    ssize_t got = read(file, bytes + *length, room - *length);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return errno;
    if (got == 0) break;
    *length += (size_t)got;
  }
  return 0;
}

bool file_read(struct problems *problems, const char *path, size_t most, struct file_bytes *file) {
  // All memory is asked for before the file is open: running out of it must not leave the file open.
  const char *name = arena_words(problems->arena, path);
  struct stat status;
  bool plain = stat(path, &status) == 0 && S_ISREG(status.st_mode);
  if (plain && (uintmax_t)status.st_size > most) {
    add_too_large(problems, path, (double)status.st_size, most);
    return false;
  }
  size_t expected = plain ? (size_t)status.st_size : 0, length = 0;
  char *bytes = arena_alloc(problems->arena, expected + 1);
  int opened = open_plain(problems, path);
  if (opened < 0) return false;
  // One byte more than expected: it is read only when the file has grown meanwhile.
  int cause = read_all(opened, bytes, expected + 1, &length);
  close(opened);
  if (cause || length > expected) {
    add(problems, path, cause ? "the file cannot be read" : "the file grew while it was read; try again", cause);
    return false;
  }
  bytes[length] = '\0';
  *file = (struct file_bytes){.name = name, .bytes = bytes, .length = length};
  return true;
}

// ---- writing ----

static int write_all(int file, const char *bytes, size_t length) {
  while (length > 0) {
    ssize_t put = write(file, bytes, length);
    if (put < 0 && errno == EINTR) continue;
    if (put < 0) return errno;
    bytes += put;
    length -= (size_t)put;
  }
  return 0;
}

// A pipe or a device: there is no old content to keep.
static int write_directly(const char *path, const char *bytes, size_t length) {
  int file = open(path, O_WRONLY | O_CLOEXEC | O_NOCTTY);
  if (file < 0) return errno;
  int cause = write_all(file, bytes, length);
  if (close(file) != 0 && !cause) cause = errno;
  return cause;
}

static int fill_beside(int file, const struct stat *old, const char *bytes, size_t length) {
  int cause = old && fchmod(file, old->st_mode & 07777) != 0 ? errno : 0;
  if (!cause) cause = write_all(file, bytes, length);
  // Without this a power cut after the rename could leave an empty file where the old one was.
  if (!cause && fsync(file) != 0) cause = errno;
  if (close(file) != 0 && !cause) cause = errno;
  return cause;
}

static int write_beside(const char *path, const char *beside, const struct stat *old, const char *bytes,
                        size_t length) {
  int file = open(beside, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
  if (file < 0) return errno;
  int cause = fill_beside(file, old, bytes, length);
  if (!cause && rename(beside, path) != 0) cause = errno;
  if (cause) unlink(beside);
  return cause;
}

static const char *file_name_of(const char *path) {
  const char *slash = strrchr(path, '/');
  return slash ? slash + 1 : path;
}

static const char *name_beside(struct arena *arena, const char *path) {
  struct text name = text_in(arena);
  for (int i = 0; i < 1000; i++) {
    struct stat status;
    name.length = 0;
    text_add_bytes(&name, path, (size_t)(file_name_of(path) - path));  // the name itself may be as long as names can be
    text_printf(&name, ".new-%ld-%d", (long)getpid(), i);
    if (lstat(text_end(&name), &status) != 0) break;
  }
  return text_end(&name);
}

bool file_write(struct problems *problems, const char *path, const char *bytes, size_t length) {
  struct stat old;
  bool exists = stat(path, &old) == 0;
  int cause = 0;
  if (exists && S_ISDIR(old.st_mode)) {
    cause = EISDIR;
  } else if (exists && !S_ISREG(old.st_mode)) {
    cause = write_directly(path, bytes, length);
  } else if (exists && access(path, W_OK) != 0) {
    cause = errno;  // a rename would replace it all the same
  } else {
    // Through a link the file it leads to is renewed, not the link.
    char real[PATH_MAX];
    const char *target = exists && realpath(path, real) ? real : path;
    const char *beside = name_beside(problems->arena, target);
    cause = write_beside(target, beside, exists ? &old : NULL, bytes, length);
  }
  if (cause) add(problems, path, "the file cannot be written", cause);
  return cause == 0;
}

// ---- folders ----

bool file_is_folder(const char *path) {
  struct stat status;
  return stat(path, &status) == 0 && S_ISDIR(status.st_mode);
}

struct listing {
  struct problems *problems;
  bool whole;
  DIR *open;
  const char *folder, *ending;
  const char **names;
  size_t count, room;
};

static bool ends_in(const char *name, const char *ending) {
  size_t length = strlen(name), end = strlen(ending);
  return length >= end && strcmp(name + length - end, ending) == 0;
}

static void list_one(struct listing *listing, const char *name) {
  if (name[0] == '.' || !ends_in(name, listing->ending)) return;
  struct text path = text_in(listing->problems->arena);
  text_add(&path, listing->folder);
  if (!ends_in(listing->folder, "/")) text_add_char(&path, '/');
  text_add(&path, name);
  struct stat status;
  int cause = stat(text_end(&path), &status) != 0 ? errno : 0;
  if (cause || !S_ISREG(status.st_mode)) {
    add(listing->problems, text_end(&path), "is no plain file, so it was not read", cause);
    listing->whole = false;
    return;
  }
  listing->names =
      arena_grow(listing->problems->arena, listing->names, listing->count, &listing->room, sizeof *listing->names);
  listing->names[listing->count++] = text_end(&path);
}

static void list_all(void *with) {
  struct listing *listing = with;
  for (struct dirent *entry; (entry = readdir(listing->open));) list_one(listing, entry->d_name);
}

static int by_bytes(const void *a, const void *b) { return strcmp(*(const char *const *)a, *(const char *const *)b); }

bool file_list(struct problems *problems, const char *folder, const char *ending, const char ***names, size_t *count,
               bool *whole) {
  struct listing listing = {
      .problems = problems, .whole = true, .open = opendir(folder), .folder = folder, .ending = ending};
  if (!listing.open) {
    add(problems, folder, "the folder cannot be opened", errno);
    return false;
  }
  // An attempt of its own, so that the folder is closed when memory runs out.
  bool done = arena_try(problems->arena, list_all, &listing);
  closedir(listing.open);
  if (!done) arena_give_up(problems->arena);
  if (listing.count) qsort(listing.names, listing.count, sizeof *listing.names, by_bytes);
  *names = listing.names;
  *count = listing.count;
  if (whole) *whole = listing.whole;
  return true;
}
