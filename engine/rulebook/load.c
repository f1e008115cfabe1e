// SPDX-License-Identifier: MIT
// Reading rule files. While a file runs, `rule "id" { ... }` and its like only note what was said; it is then taken out
// of Lua as plain data (value.h) and read from there.
#include <lauxlib.h>
#include <lua.h>
#include <string.h>

#include "rulebook/read_rule.h"
#include "rulebook/read_stock.h"
#include "rulebook/run.h"

_Static_assert(NO_REF == LUA_NOREF, "rule.h knows no Lua, and says its word for no reference itself");

static const uint64_t DEFAULT_FILE = 10000000, DEFAULT_RULE = 1000000;
enum { RULES_MOST = 2000 };

// ---- the words of a rule file --------------------------------------------------------------------------------------

static struct rulebook *book_of(lua_State *L) { return lua_touserdata(L, lua_upvalueindex(1)); }

// What follows a slip, such as the table after a wrong name: the file goes on behind it.
static int swallow(lua_State *L) {
  lua_pushcfunction(L, swallow);
  return 1;
}

// Told at its line, and the file goes on: one bad declaration takes no other with it.
static int slip(lua_State *L, const char *said, const char *right) {
  script_slip(L, said, NULL, right);
  return swallow(L);
}

// (table): upvalue 2 is the note that waits for it. Note: {verb, id, line, table}; false for a table: it was told.
static int take_body(lua_State *L) {
  bool first = lua_rawgeti(L, lua_upvalueindex(2), 4) == LUA_TNIL;
  lua_settop(L, 1);
  if (!first) return slip(L, "a second table follows the same name", "one table in { } after each name");
  if (lua_type(L, 1) != LUA_TTABLE && !script_is_stand_in(L, 1)) {
    lua_pushboolean(L, 0);
    lua_rawseti(L, lua_upvalueindex(2), 4);
    return slip(L, "after its name a rule needs a table in { }", "rule \"its-name\" { ... }");
  }
  lua_pushvalue(L, 1);
  lua_rawseti(L, lua_upvalueindex(2), 4);
  return 0;
}

static void check_reading(lua_State *L, const char *verb) {
  if (!book_of(L)->reading) script_misuse(L, "it outside of all rules", "`%s` is used while a rule runs", verb);
}

// Leaves the note on the stack, among the others of this file: {verb, id, line}.
static void push_note(lua_State *L, const char *verb, const char *id) {
  lua_rawgeti(L, LUA_REGISTRYINDEX, book_of(L)->pending);
  lua_Integer count = (lua_Integer)lua_rawlen(L, -1);
  if (count >= RULES_MOST) script_misuse(L, "fewer", "one file holds more than 2,000 rules");
  lua_createtable(L, 4, 0);  // pending note
  lua_pushstring(L, verb);
  lua_rawseti(L, -2, 1);
  lua_pushstring(L, id);
  lua_rawseti(L, -2, 2);
  lua_pushinteger(L, script_place(L).line);
  lua_rawseti(L, -2, 3);
  lua_pushvalue(L, -1);
  lua_rawseti(L, -3, count + 1);
  lua_remove(L, -2);  // note
}

// (table)
static int note_stock(lua_State *L) {
  check_reading(L, "stock");
  if (lua_type(L, 1) != LUA_TTABLE && !script_is_stand_in(L, 1))
    return slip(L, "`stock` needs a table in { }, and has no name", "stock { pumps = { ... } }");
  lua_settop(L, 1);
  push_note(L, "stock", "");
  lua_pushvalue(L, 1);
  lua_rawseti(L, -2, 4);
  return 0;
}

// (id): upvalue 2 is the verb.
static int note_rule(lua_State *L) {
  struct rulebook *book = book_of(L);
  check_reading(L, lua_tostring(L, lua_upvalueindex(2)));
  if (script_is_stand_in(L, 1)) return swallow(L);
  if (lua_type(L, 1) != LUA_TSTRING) {
    const char *verb = lua_tostring(L, lua_upvalueindex(2));
    const char *said = lua_pushfstring(L, "`%s` needs the rule's name in quotes", verb);
    return slip(L, said, lua_pushfstring(L, "%s \"its-name\" { ... }", verb));
  }
  push_note(L, lua_tostring(L, lua_upvalueindex(2)), lua_tostring(L, 1));
  lua_pushlightuserdata(L, book);
  lua_insert(L, -2);
  lua_pushcclosure(L, take_body, 2);
  return 1;
}

static int push_file_environment(lua_State *L) {
  static const char *const verbs[] = {"rule", "adjust", "retire"};
  struct rulebook *book = lua_touserdata(L, 1);
  lua_newtable(L);
  lua_rawseti(L, LUA_REGISTRYINDEX, book->pending);
  script_push_environment(L);
  for (size_t i = 0; i < sizeof verbs / sizeof *verbs; i++) {
    lua_pushlightuserdata(L, book);
    lua_pushstring(L, verbs[i]);
    lua_pushcclosure(L, note_rule, 2);
    script_set_word(L, -2, verbs[i]);
  }
  lua_pushlightuserdata(L, book);
  lua_pushcclosure(L, note_stock, 1);
  script_set_word(L, -2, "stock");
  words_set(L, book, lua_gettop(L));
  script_freeze_environment(L, -1);
  return 1;
}

// ---- from notes to rules -------------------------------------------------------------------------------------------

struct note {
  struct rulebook *book;
  int number;
  const char *verb, *id;  // in the arena; verb NULL: there are no more notes
  int line;
  struct value *table;  // NULL: none followed
  bool told;            // what followed is no table, and that was said
};

static void keep_names(void *with) {
  struct note *note = with;
  note->verb = arena_words(note->book->arena, note->verb);
  note->id = arena_words(note->book->arena, note->id);
}

static int take_note(lua_State *L) {
  struct note *note = lua_touserdata(L, 1);
  note->verb = NULL;
  lua_rawgeti(L, LUA_REGISTRYINDEX, note->book->pending);
  if (lua_rawgeti(L, -1, note->number) != LUA_TTABLE) return 0;
  for (int i = 1; i <= 4; i++) lua_rawgeti(L, -i, i);  // note verb id line table
  note->verb = lua_tostring(L, -4);
  note->id = lua_tostring(L, -3);
  note->line = (int)lua_tointeger(L, -2);
  script_in_arena(L, note->book->arena, keep_names, note);
  note->table = NULL;
  note->told = lua_isboolean(L, -1);
  if (lua_istable(L, -1)) note->table = value_take(L, note->book->arena, "examples");
  return 0;
}

static bool is_letter(char c) { return c >= 'a' && c <= 'z'; }
static bool is_digit(char c) { return c >= '0' && c <= '9'; }

// Small letters and digits in groups with one hyphen between them.
bool rulebook_is_name(const char *id) {
  enum { NAME_MOST = 60 };
  if (!is_letter(*id) || strlen(id) > NAME_MOST) return false;
  for (; *id; id++) {
    if (*id == '-' && !is_letter(id[1]) && !is_digit(id[1])) return false;
    if (*id != '-' && !is_letter(*id) && !is_digit(*id)) return false;
  }
  return true;
}

static void add_change(struct rulebook *book, struct rule_file *file, const struct note *note) {
  book->changes = arena_grow(book->arena, book->changes, book->change_count, &book->change_room, sizeof *book->changes);
  book->changes[book->change_count++] = (struct change){.retires = strcmp(note->verb, "retire") == 0,
                                                        .id = note->id,
                                                        .table = note->table,
                                                        .file = file,
                                                        .line = note->line};
}

static void read_stock(struct rulebook *book, struct rule_file *file, const struct note *note) {
  if (!note->table) return;  // an unknown name, which was told
  value_place(note->table, file->places, note->verb, NULL, note->line);
  stock_read(book, file, note->table, note->line);
}

static void read_note(struct rulebook *book, struct rule_file *file, struct note *note) {
  struct reading_rule at = {.book = book,
                            .arena = book->arena,
                            .problems = &book->problems,
                            .file = file,
                            .verb = note->verb,
                            .id = note->id};
  if (strcmp(note->verb, "stock") == 0) {
    read_stock(book, file, note);
    return;
  }
  if (!rulebook_is_name(note->id)) {
    rule_complain(&at, note->line, NULL, "is not a name for a rule", note->id,
                  "small letters, digits and hyphens, as in sheet-breaks-up");
    return;
  }
  if (note->told) return;
  if (!note->table) {
    rule_complain(&at, note->line, NULL, "has no table in { } after its name", NULL, "its contents in { }");
    return;
  }
  value_place(note->table, file->places, note->verb, note->id, note->line);
  if (strcmp(note->verb, "rule") == 0)
    rule_read(book, file, note->id, note->table, note->line);
  else
    add_change(book, file, note);
}

static void add_failure(struct rulebook *book, const struct rule_file *file, const struct script_failure *failure) {
  if (script_starved(book->script)) arena_give_up(book->arena);
  struct problem problem = script_problem(failure, NULL);
  if (!problem.at.file) problem.at.file = file->name;
  problem_add(&book->problems, problem);
}

static bool read_notes(struct rulebook *book, struct rule_file *file) {
  struct script_failure failure;
  struct note note = {.book = book};
  for (note.number = 1;; note.number++) {
    if (!script_protect(book->script, take_note, &note, 0, 0, &failure)) {
      failure.line = note.verb ? note.line : 0;
      add_failure(book, file, &failure);
      if (!note.verb) return false;
      continue;
    }
    if (!note.verb) return true;
    read_note(book, file, &note);
  }
}

// ---- files ---------------------------------------------------------------------------------------------------------

// Runs within the script: must stay in the rulebook's own arena.
static bool take_slip(void *with, const struct script_slip *slip) {
  struct rulebook *book = with;
  if (!book->reading) return false;
  problem_add(&book->problems,
              (struct problem){.at = slip->at, .said = slip->said, .read = slip->read, .right = slip->right});
  return true;
}

// "spills" of "rules/trade/spills.lua".
static const char *discipline_of(struct arena *arena, const char *name) {
  const char *slash = strrchr(name, '/');
  const char *last = slash ? slash + 1 : name;
  const char *dot = strrchr(last, '.');
  return arena_copy(arena, last, dot && dot != last ? (size_t)(dot - last) : strlen(last));
}

static struct rule_file *new_file(struct rulebook *book, const char *layer, const struct file_bytes *bytes) {
  struct rule_file *file = arena_alloc(book->arena, sizeof *file);
  file->name = arena_words(book->arena, bytes->name);
  file->layer = arena_words(book->arena, layer);
  file->discipline = discipline_of(book->arena, file->name);
  file->bytes = *bytes;
  book->files = arena_grow(book->arena, book->files, book->file_count, &book->file_room, sizeof(struct rule_file *));
  book->files[book->file_count++] = file;
  return file;
}

// began: it is Lua, and whatever stands before the place where it broke off was declared.
static bool run_file(struct rulebook *book, struct rule_file *file, const struct file_bytes *bytes, bool *began) {
  struct script_failure failure;
  *began = script_protect(book->script, push_file_environment, book, 0, 1, &failure) &&
           script_load(book->script, file->name, bytes->bytes, bytes->length, &failure);
  bool ran = *began && script_call(book->script, 0, 0, book->budget.file_instructions, &failure);
  if (!ran) add_failure(book, file, &failure);
  return ran;
}

static void hand_over(const struct rulebook *book, size_t from, struct problems *problems) {
  for (size_t i = from; i < book->problems.count; i++) problem_add(problems, book->problems.list[i]);
}

static bool read_whole_file(struct rulebook *book, struct rule_file *file, const struct file_bytes *bytes) {
  if (!text_is_utf8(bytes->bytes, bytes->length)) {
    problem_add(
        &book->problems,
        (struct problem){.at = {file->name, 0}, .said = "is not a text in UTF-8", .right = "the file saved as UTF-8"});
    return false;
  }
  book->reading = file;
  bool began, ran = run_file(book, file, bytes, &began);
  book->reading = NULL;
  if (!began) return false;
  file->first_problem = book->problems.count;
  file->places = places_of_rules(book->arena, file->name, bytes->bytes, bytes->length, &book->problems);
  file->problem_count = book->problems.count - file->first_problem;
  return read_notes(book, file) && ran;  // what was declared before it broke off is in force
}

// Files of one layer come one after another.
static void note_layer(struct rulebook *book, const char *layer) {
  if (book->last_layer && strcmp(book->last_layer, layer) == 0) return;
  book->last_layer = arena_words(book->arena, layer);
  if (book->layer_count++ == 0) book->first_layer = book->last_layer;
}

bool rulebook_read_file(struct rulebook *book, const char *layer, const struct file_bytes *bytes,
                        struct problems *problems) {
  size_t before = book->problems.count;
  note_layer(book, layer);
  struct rule_file *file = new_file(book, layer, bytes);
  file->usable = read_whole_file(book, file, bytes);
  hand_over(book, before, problems);
  return file->usable;
}

void rulebook_finish(struct rulebook *book, struct problems *problems) {
  size_t before = book->problems.count;
  rulebook_apply_changes(book);
  hand_over(book, before, problems);
}

static void free_script(void *what) { script_free(what); }

static int open_pending(lua_State *L) {
  struct rulebook *book = lua_touserdata(L, 1);
  lua_newtable(L);
  book->pending = luaL_ref(L, LUA_REGISTRYINDEX);
  entity_open(L, book);
  return 0;
}

struct rulebook *rulebook_in(struct arena *arena, struct rulebook_budget budget) {
  struct rulebook *book = arena_alloc(arena, sizeof *book);
  if (!budget.file_instructions) budget.file_instructions = DEFAULT_FILE;
  if (!budget.rule_instructions) budget.rule_instructions = DEFAULT_RULE;
  *book = (struct rulebook){.arena = arena, .budget = budget, .problems = problems_in(arena)};
  book->script =
      script_new((struct script_budget){.memory = budget.memory},
                 (struct script_owner){.profile = SCRIPT_RULES, .slipped = take_slip, .with = book, .arena = arena});
  struct script_failure failure;
  if (!book->script) arena_give_up(arena);
  arena_at_free(arena, free_script, book->script);
  if (!script_protect(book->script, open_pending, book, 0, 0, &failure)) arena_give_up(arena);
  return book;
}

bool rulebook_whole(const struct rulebook *book) { return book->problems.count == 0; }
const struct problems *rulebook_problems(const struct rulebook *book) { return &book->problems; }
