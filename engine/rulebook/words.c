// SPDX-License-Identifier: MIT
// The words that rules compare by. Each notes what it compared, also when it was satisfied, and gives back nothing
// then, so that checks chain with `or`; otherwise a finding.
#include <assert.h>
#include <lauxlib.h>
#include <lua.h>
#include <string.h>

#include "rulebook/run.h"
#include "script/quantity.h"

enum { TAG_FINDING = SCRIPT_TAG_OWNER + 1, COMPARISONS_MOST = 1000, ASKED_MOST = 20 };

struct finding {
  struct script_header header;
  int comparison;
};

bool words_finding(lua_State *L, int index, int *comparison) {
  const struct finding *finding = script_tagged(L, index, TAG_FINDING);
  if (finding) *comparison = finding->comparison;
  return finding != NULL;
}

static int push_finding(lua_State *L, int comparison) {
  struct finding *finding = lua_newuserdatauv(L, sizeof *finding, 0);
  *finding = (struct finding){{TAG_FINDING}, comparison};
  return 1;
}

static struct run *run_of(lua_State *L, const char *word) {
  struct rulebook *book = lua_touserdata(L, lua_upvalueindex(1));
  if (!book->run)
    script_misuse(L, "it inside of check = function(...) ... end", "`%s` compares while a rule runs", word);
  return book->run;
}

struct noting {
  struct run *run;
  struct comparison comparison;
  double scale;
  const char *words;
  int index;
};

static void note_bound(void *with) {
  struct noting *noting = with;
  noting->index = run_add_bound(noting->run, noting->comparison, noting->scale);
}

static void note_words(void *with) {
  struct noting *noting = with;
  if (noting->comparison.sense == SENSE_MUST)
    noting->comparison.words = arena_words(noting->run->arena, noting->words);
  else
    noting->comparison.asked = arena_words(noting->run->arena, noting->words);
  noting->index = run_add_comparison(noting->run, noting->comparison);
}

static const struct comparison *note(lua_State *L, struct noting *noting, void (*work)(void *with)) {
  struct run *run = noting->run;
  assert(run);  // run_of raised an error otherwise
  if (run->count >= COMPARISONS_MOST) script_misuse(L, "fewer", "the check compares more than 1,000 times");
  script_in_arena(L, run->arena, work, noting);
  return &run->comparisons[noting->index];
}

// ---- bounds --------------------------------------------------------------------------------------------------------

// The index of the comparison, or -1 when it is satisfied.
static int bound(lua_State *L, struct run *run, enum sense sense, int limit, enum severity severity) {
  struct script_quantity pair[2];
  script_quantity_pair(L, 1, limit, "compared with", pair);
  struct noting noting = {.run = run, .scale = pair[0].scale > pair[1].scale ? pair[0].scale : pair[1].scale};
  bool slot = pair[0].entity >= 0 && pair[0].row >= 0;
  noting.comparison = (struct comparison){.sense = sense,
                                          .entity = slot ? pair[0].entity : -1,
                                          .row = slot ? (enum row_id)pair[0].row : ROW_COUNT,
                                          .dimension = dimension_of_powers(pair[0].powers),
                                          .value = pair[0].value,
                                          .limit = pair[1].value,
                                          .severity = severity};
  return note(L, &noting, note_bound)->satisfied ? -1 : noting.index;
}

// What a rule has no answer to counts by the worst that it declares: a graver limit, written in the function, would
// escape that.
static void check_declared(lua_State *L, const struct run *run, int limit) {
  for (int severity = SEVERITY_HOLD; severity > (int)run->rule->facts.severity; severity--) {
    if (lua_getfield(L, limit, severity_name((enum severity)severity)) != LUA_TNIL)
      script_misuse(L, "the limits under `limit`, or a graver `severity`", "`%s` is graver than this rule declares",
                    severity_name((enum severity)severity));
    lua_pop(L, 1);
  }
}

// A limit by severity: every one is compared, the worst broken one counts.
static int bound_by_severity(lua_State *L, struct run *run, enum sense sense, int limit) {
  check_declared(L, run, limit);
  int worst = -1, compared = 0;
  for (int severity = SEVERITY_HOLD; severity >= SEVERITY_ADVISE; severity--) {
    if (lua_getfield(L, limit, severity_name((enum severity)severity)) != LUA_TNIL) {
      int broken = bound(L, run, sense, lua_gettop(L), (enum severity)severity);
      if (worst < 0) worst = broken;
      compared++;
    }
    lua_pop(L, 1);
  }
  if (!compared) script_misuse(L, "{ revise = ..., hold = ... }", "the table is no limit by severity");
  return worst;
}

static int judge_bound(lua_State *L, struct run *run, enum sense sense, int limit) {
  int broken = lua_istable(L, limit) ? bound_by_severity(L, run, sense, limit)
                                     : bound(L, run, sense, limit, run->rule->severity);
  if (broken < 0) return 0;
  return push_finding(L, broken);
}

static int nil_or(lua_State *L, int pushed) {
  if (!pushed) lua_pushnil(L);
  return 1;
}

static int word_at_least(lua_State *L) {
  lua_settop(L, 2);
  return nil_or(L, judge_bound(L, run_of(L, "at_least"), SENSE_AT_LEAST, 2));
}

static int word_at_most(lua_State *L) {
  lua_settop(L, 2);
  return nil_or(L, judge_bound(L, run_of(L, "at_most"), SENSE_AT_MOST, 2));
}

static int word_within(lua_State *L) {
  lua_settop(L, 3);
  struct run *run = run_of(L, "within");
  int low = judge_bound(L, run, SENSE_AT_LEAST, 2), high = judge_bound(L, run, SENSE_AT_MOST, 3);
  if (low && high) lua_pop(L, 1);
  return nil_or(L, low + high);
}

// ---- words ---------------------------------------------------------------------------------------------------------

static int word_must(lua_State *L) {
  lua_settop(L, 2);
  struct run *run = run_of(L, "must");
  size_t length = 0;
  const char *words = lua_type(L, 2) == LUA_TSTRING ? lua_tolstring(L, 2, &length) : "";
  if (!lua_isboolean(L, 1)) return script_misuse(L, "a comparison", "must asks for a condition that is true or false");
  if (!length || strlen(words) != length || !text_is_utf8(words, length))
    return script_misuse(L, "must(condition, \"what is asked\")", "must needs words after its condition");
  struct noting noting = {.run = run, .words = words};
  noting.comparison = (struct comparison){.sense = SENSE_MUST,
                                          .satisfied = lua_toboolean(L, 1),
                                          .entity = -1,
                                          .row = ROW_COUNT,
                                          .dimension = DIMENSION_COUNT,
                                          .severity = run->rule->severity};
  if (note(L, &noting, note_words)->satisfied) return nil_or(L, 0);
  return push_finding(L, noting.index);
}

// A word that no choice has would silently never be met.
static const char *checked_word(lua_State *L, int index) {
  const char *word = lua_type(L, index) == LUA_TSTRING ? lua_tostring(L, index) : "";
  for (int i = 0; i < WORD_COUNT; i++) {
    if (strcmp(catalogue_word((enum word)i)->word, word) == 0) return catalogue_word((enum word)i)->word;
  }
  if (*word)
    script_misuse(L, "one of the words of that given", "no given has the word \"%.60s\"", word);
  else
    script_misuse(L, "is(entity.given, \"word\")", "is compares words, and something else is given to it");
  return "";
}

static bool from_last_read(const struct run *run, const char *word) {
  return run->word && strcmp(run->word, word) == 0;
}

static int word_is(lua_State *L) {
  struct run *run = run_of(L, "is");
  char asked[512] = "";
  const char *found = checked_word(L, 1);
  int count = lua_gettop(L);
  bool satisfied = false;
  if (count < 2 || count > ASKED_MOST)
    return script_misuse(L, "is(entity.given, \"word\")", "is needs the words that are asked");
  for (int i = 2; i <= count; i++) {
    const char *word = checked_word(L, i);
    satisfied = satisfied || strcmp(word, found) == 0;
    if (i > 2) strncat(asked, " or ", sizeof asked - strlen(asked) - 1);
    strncat(asked, word, sizeof asked - strlen(asked) - 1);
  }
  struct noting noting = {.run = run, .words = asked};
  bool read = from_last_read(run, found);
  noting.comparison = (struct comparison){.sense = SENSE_IS,
                                          .satisfied = satisfied,
                                          .entity = read ? run->word_entity : -1,
                                          .row = read ? run->word_row : ROW_COUNT,
                                          .dimension = DIMENSION_COUNT,
                                          .severity = run->rule->severity,
                                          .words = found};
  if (note(L, &noting, note_words)->satisfied) return nil_or(L, 0);
  return push_finding(L, noting.index);
}

static int word_count(lua_State *L) {
  if (lua_type(L, 1) != LUA_TTABLE) return script_misuse(L, "count(basin.spills_out)", "count needs a list");
  lua_pushinteger(L, (lua_Integer)lua_rawlen(L, 1));
  return 1;
}

static const luaL_Reg rule_words[] = {{"at_least", word_at_least}, {"at_most", word_at_most}, {"within", word_within},
                                      {"must", word_must},         {"is", word_is},           {"count", word_count}};

void words_set(lua_State *L, struct rulebook *book, int environment) {
  for (size_t i = 0; i < sizeof rule_words / sizeof *rule_words; i++) {
    lua_pushlightuserdata(L, book);
    lua_pushcclosure(L, rule_words[i].func, 1);
    script_set_word(L, environment, rule_words[i].name);
  }
}
