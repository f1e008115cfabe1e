// SPDX-License-Identifier: MIT
// Run the text, look at what it called, turn that into what was written, fill the store.
#include "design/read_lua.h"

#include "design/read.h"

static void release(void *what) {
  struct lua_reader *reader = what;
  script_free(reader->script);
  reader->script = NULL;
}

static bool slipped(void *with, const struct script_slip *slip) {
  struct lua_reader *reader = with;
  if (reader->problems->count - reader->problems_before >= MOST_PROBLEMS_READ) return false;
  problem_add(reader->problems,
              (struct problem){.at = slip->at, .said = slip->said, .read = slip->read, .right = slip->right});
  return true;
}

static bool fail(struct lua_reader *reader, const struct script_failure *failure) {
  if (script_starved(reader->script)) arena_give_up(reader->arena);
  struct problem problem = script_problem(failure, NULL);
  if (!problem.at.file) problem.at.file = reader->file;
  problem_add(reader->problems, problem);
  return false;
}

static struct lua_reader *new_reader(struct arena *arena, const struct file_bytes *file, struct problems *problems) {
  struct lua_reader *reader = arena_alloc(arena, sizeof *reader);
  *reader =
      (struct lua_reader){.arena = arena, .problems = problems, .file = file->name, .problems_before = problems->count};
  arena_at_free(arena, release, reader);
  reader->script = script_new(
      (struct script_budget){0},
      (struct script_owner){.profile = SCRIPT_DATA, .slipped = slipped, .with = reader, .arena = problems->arena});
  if (!reader->script) arena_give_up(arena);
  return reader;
}

// The scan comes after the load: what is no Lua has no places, and after its one error nothing else is told.
static bool run(struct lua_reader *reader, const struct file_bytes *file) {
  struct script_failure failure;
  if (!script_protect(reader->script, lua_design_words, reader, 0, 1, &failure) ||
      !script_load(reader->script, file->name, file->bytes, file->length, &failure)) {
    return fail(reader, &failure);
  }
  reader->places = places_of_lua(reader->arena, file->name, file->bytes, file->length, reader->problems);
  if (!script_call(reader->script, 0, 0, 0, &failure)) return fail(reader, &failure);
  if (!script_protect(reader->script, lua_design_tables, reader, 0, 0, &failure)) return fail(reader, &failure);
  return true;
}

static void check_record(struct lua_reader *reader, const struct record *record) {
  if (record->has_table) return;
  struct text where = text_in(reader->arena);
  text_printf(&where, "%s \"%s\"", catalogue_kind(record->kind)->name, record->name);
  problem_add(reader->problems, (struct problem){.at = {reader->file, record->line},
                                                 .where = text_end(&where),
                                                 .said = "has no table of givens",
                                                 .right = "{ ... } behind its name"});
}

static void check_values(struct lua_reader *reader) {
  if (reader->values <= MOST_VALUES) return;
  struct text said = text_in(reader->arena);
  text_printf(&said, "holds more than %d values", MOST_VALUES);
  problem_add(reader->problems,
              (struct problem){.at = {reader->file, 0}, .said = text_end(&said), .right = "a smaller design"});
}

struct store *design_read_lua(struct arena *arena, const struct file_bytes *file, struct overlays overlays,
                              struct problems *problems) {
  size_t before = problems->count;
  if (!read_is_text(file, problems)) return NULL;
  struct lua_reader *reader = new_reader(arena, file, problems);
  bool ran = run(reader, file);
  release(reader);
  if (!ran) return NULL;
  struct filling filling = {store_in(arena, file->name), problems};
  check_values(reader);
  for (size_t i = 0; i < reader->count; i++) {
    check_record(reader, &reader->records[i]);
    fill_entity(&filling, reader->records[i].kind, &reader->written[i]);
  }
  return read_finish(&filling, overlays, before);
}
