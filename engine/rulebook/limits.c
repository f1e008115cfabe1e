// SPDX-License-Identifier: MIT
// Limits: texts to values when a rule is read, and the table of them that a rule's functions are given.
#include <lauxlib.h>
#include <lua.h>
#include <math.h>
#include <string.h>

#include "base/number.h"
#include "rulebook/limits.h"
#include "rulebook/read_rule.h"
#include "script/freeze.h"
#include "script/quantity.h"
#include "units/compare.h"
#include "units/read.h"

struct limit *limits_add(struct arena *arena, struct limits *limits) {
  limits->list = arena_grow(arena, limits->list, limits->count, &limits->room, sizeof *limits->list);
  struct limit *limit = &limits->list[limits->count++];
  *limit = (struct limit){0};
  return limit;
}

static struct limit *new_limit(struct reading_rule *at, const struct value *value, const char *name,
                               enum severity severity, struct limits *limits) {
  struct limit *limit = limits_add(at->arena, limits);
  limit->name = name;
  limit->severity = severity;
  limit->layer = at->file->layer;
  limit->at = (struct place){at->file->name, value->line};
  return limit;
}

// The text of a number without quotes, where that is right; NULL with a complaint otherwise.
static const char *limit_text(struct reading_rule *at, const struct value *value, const char *key,
                              enum dimension dimension) {
  struct arena *arena = at->arena;
  bool bare = dimension == DIMENSION_COUNT || dimension_may_be_bare(dimension);
  if (value->sort == VALUE_TEXT || (value->sort == VALUE_NUMBER && bare)) return value_shown(arena, value);
  at->wrong = true;
  if (value->sort == VALUE_UNKNOWN) return NULL;
  const char *example = dimension == DIMENSION_COUNT ? "40 gal/h/in" : dimension_row(dimension)->example;
  rule_complain(at, value->line, key, value->sort == VALUE_NUMBER ? "has no unit" : "is not a value in quotes",
                value_shown(arena, value), text_phrase(arena, "a text with its unit, such as \"%s\"", example));
  return NULL;
}

static bool read_number(struct reading_rule *at, const struct value *value, const char *key, enum dimension dimension,
                        double *number, const char **shown) {
  struct text wrong = text_in(at->arena), right = text_in(at->arena);
  struct reading reading;
  const char *text = limit_text(at, value, key, dimension);
  if (!text) return false;
  *shown = text;
  bool read = unit_read(text, strlen(text), dimension, &reading, &wrong, &right);
  *number = reading.value;
  if (read && !isnan(reading.tolerance)) {
    rule_complain(at, value->line, key, "a limit has no tolerance", text, "the value alone");
    return false;
  }
  if (!read) rule_complain(at, value->line, key, text_end(&wrong), text, right.length ? text_end(&right) : NULL);
  return read;
}

typedef void take_limit(struct reading_rule *at, const struct value *value, const char *key, struct limit *limit);

// One value, or one by severity.
static void read_by_severity(struct reading_rule *at, const struct value *value, struct limit start, take_limit *take,
                             struct limits *limits) {
  struct arena *arena = at->arena;
  if (value->sort != VALUE_TABLE) {
    struct limit *limit = new_limit(at, value, start.name, start.severity, limits);
    limit->sense = start.sense;
    limit->powers = start.powers;
    take(at, value, start.name, limit);
    return;
  }
  if (!value->first)
    rule_complain(at, value->line, start.name, "is empty", "{ }", "{ revise = \"...\", hold = \"...\" }");
  for (const struct value *member = value->first; member; member = member->next) {
    enum severity severity;
    if (!member->key || !rule_read_severity(member->key, &severity)) {
      rule_complain(at, member->line, start.name, "is neither one value nor one for each severity", member->key,
                    "{ revise = \"...\", hold = \"...\" }");
      continue;
    }
    struct limit *limit = new_limit(at, member, start.name, severity, limits);
    limit->by_severity = true;
    limit->sense = start.sense;
    limit->powers = start.powers;
    take(at, member, text_phrase(arena, "%s.%s", start.name, member->key), limit);
  }
}

// ---- data rules ----------------------------------------------------------------------------------------------------

static void take_number(struct reading_rule *at, const struct value *value, const char *key, struct limit *limit) {
  enum dimension dimension = dimension_of_powers(limit->powers);
  read_number(at, value, key, dimension, &limit->value, &limit->text);
}

static void read_within(struct reading_rule *at, const struct value *value, struct limit start, struct limits *limits) {
  const struct value *ends[2] = {0};
  if (value->sort == VALUE_TABLE && value->count == 2) {
    const struct value *from = value_member(value, "from"), *to = value_member(value, "to");
    ends[0] = from ? from : value->first;
    ends[1] = to ? to : value->first->next;
    if ((from == NULL) != (to == NULL) || (!from && value->first->key)) ends[0] = NULL;
  }
  if (!ends[0]) {
    rule_complain(at, value->line, "within", "does not say from where to where", value_shown(at->arena, value),
                  "{ from = \"...\", to = \"...\" }");
    return;
  }
  for (int i = 0; i < 2; i++) {
    struct limit *limit = new_limit(at, ends[i], start.name, start.severity, limits);
    limit->sense = i == 0 ? SENSE_AT_LEAST : SENSE_AT_MOST;
    limit->powers = start.powers;
    take_number(at, ends[i], i == 0 ? "within.from" : "within.to", limit);
  }
}

static bool is_word_of(const struct path *path, const char *word) {
  const struct path_step *last = &path->steps[path->count - 1];
  for (int kind = 0; kind < KIND_COUNT; kind++) {
    if (!kinds_hold(path->last_rows_of, (enum kind)kind)) continue;
    const struct row *row = catalogue_row((enum row_id)last->rows[kind]);
    if (catalogue_word_named(row->words, word, strlen(word)) != WORD_COUNT) return true;
  }
  return false;
}

static const char *right_words(struct arena *arena, const struct path *path) {
  const struct path_step *last = &path->steps[path->count - 1];
  struct text text = text_in(arena);
  for (int word = 0; word < WORD_COUNT; word++) {
    const struct word_row *row = catalogue_word((enum word)word);
    bool fits = false;
    for (int kind = 0; kind < KIND_COUNT; kind++)
      fits = fits || (kinds_hold(path->last_rows_of, (enum kind)kind) &&
                      catalogue_row((enum row_id)last->rows[kind])->words == row->set);
    if (fits) text_printf(&text, "%s\"%s\"", text.length ? " or " : "", row->word);
  }
  return text_end(&text);
}

static bool take_word(struct reading_rule *at, const struct path *path, const char *key, const struct value *value,
                      const char **word) {
  *word = rule_text(at, value);
  if (!*word) return false;
  if (is_word_of(path, *word)) return true;
  rule_complain(at, value->line, key, text_phrase(at->arena, "`%s` has no such word", path->text), *word,
                right_words(at->arena, path));
  return false;
}

bool rule_read_words(struct reading_rule *at, const struct path *path, const char *key, const struct value *value,
                     const char *const **words, size_t *count) {
  size_t most = value->sort == VALUE_TABLE ? value->count : 1;
  const char **list = arena_array(at->arena, most + 1, sizeof *list);
  bool good = true;
  *words = list;
  *count = most;
  if (value->sort != VALUE_TABLE) return take_word(at, path, key, value, &list[0]);
  for (const struct value *member = value->first; member; member = member->next)
    good = take_word(at, path, key, member, list++) && good;
  if (!value->first) rule_complain(at, value->line, key, "names no word", "{ }", right_words(at->arena, path));
  return good && value->first;
}

static void read_is(struct reading_rule *at, const struct path *path, const struct value *value, struct limit start,
                    struct limits *limits) {
  struct limit *limit = new_limit(at, value, start.name, start.severity, limits);
  limit->sense = SENSE_IS;
  if (!rule_read_words(at, path, "is", value, &limit->words, &limit->word_count)) return;
  struct text text = text_in(at->arena);
  for (size_t i = 0; i < limit->word_count; i++) text_printf(&text, "%s%s", i ? " or " : "", limit->words[i]);
  limit->text = text_end(&text);
}

bool limits_read_bound(struct reading_rule *at, const struct rule *rule, const struct value *value,
                       struct limits *limits) {
  static const char *const names[] = {"at_least", "at_most", "within", "is"};
  int which = 0;
  while (which < 4 && (!value->key || strcmp(names[which], value->key) != 0)) which++;
  if (which == 4) return false;
  bool words = rule->judges.sort == SORT_CHOICE;
  if (words != (which == 3)) {
    rule_complain(at, value->line, value->key,
                  text_phrase(at->arena, "`%s` is %s", rule->judges.text, words ? "a choice of words" : "a value"),
                  NULL, words ? "is = \"...\"" : "at_least, at_most or within");
    return true;
  }
  struct limit start = {
      .name = names[which], .severity = rule->severity, .sense = which == 0 ? SENSE_AT_LEAST : SENSE_AT_MOST};
  if (!words) start.powers = dimension_row(rule->judges.dimension)->powers;
  if (which == 3)
    read_is(at, &rule->judges, value, start, limits);
  else if (which == 2)
    read_within(at, value, start, limits);
  else
    read_by_severity(at, value, start, take_number, limits);
  return true;
}

// ---- function rules ------------------------------------------------------------------------------------------------

static bool has_digit(const char *text) { return strpbrk(text, "0123456789") != NULL; }

// A text without a digit that is no value stays a text: a word to compare with.
static void take_named(struct reading_rule *at, const struct value *value, const char *key, struct limit *limit) {
  struct text wrong = text_in(at->arena), right = text_in(at->arena);
  struct reading reading;
  limit->text = limit_text(at, value, key, DIMENSION_COUNT);
  if (!limit->text) return;
  limit->value = value->number;
  if (value->sort == VALUE_NUMBER) return;
  size_t length = strlen(limit->text);
  bool bare = unit_read(limit->text, length, DIM_RATIO, &reading, &wrong, &right);
  wrong.length = right.length = 0;
  if (bare || unit_read_any(limit->text, length, &reading, &wrong, &right)) {
    if (!isnan(reading.tolerance))
      rule_complain(at, value->line, key, "a limit has no tolerance", limit->text, "the value alone");
    limit->value = reading.value;
    limit->powers = dimension_row(reading.dimension)->powers;
    return;
  }
  const char **word = arena_alloc(at->arena, sizeof *word);
  *word = limit->text;
  limit->words = word;
  limit->word_count = 1;
  if (has_digit(limit->text))
    rule_complain(at, value->line, key, text_end(&wrong), limit->text, right.length ? text_end(&right) : NULL);
}

void limits_read_named(struct reading_rule *at, enum severity plain, const struct value *table, struct limits *limits) {
  for (const struct value *member = table->first; member; member = member->next) {
    if (member->key)
      read_by_severity(at, member, (struct limit){.name = member->key, .severity = plain, .sense = SENSE_MUST},
                       take_named, limits);
    else
      rule_complain(at, member->line, "limit", "a limit has no name before it", value_shown(at->arena, member),
                    "least = \"...\"");
  }
}

// ---- as a whole ----------------------------------------------------------------------------------------------------

enum severity limits_worst(const struct limits *limits, enum severity plain) {
  enum severity worst = plain;
  for (size_t i = 0; i < limits->count; i++) {
    if (limits->list[i].by_severity && limits->list[i].severity > worst) worst = limits->list[i].severity;
  }
  return worst;
}

// A milder limit beyond a graver one would never be seen, nor would a range that ends before it begins be met.
static const char *disagreement(const struct limit *a, const struct limit *b) {
  enum standing standing = compare(a->value, b->value, 0);
  bool least = a->sense == SENSE_AT_LEAST;
  if (least && b->sense == SENSE_AT_MOST && standing == STANDS_ABOVE)
    return "the least that is asked is more than the most that is allowed";
  if (a->sense != b->sense || strcmp(a->name, b->name) != 0 || a->severity >= b->severity) return NULL;
  bool beyond = least ? standing != STANDS_ABOVE : standing != STANDS_BELOW;
  return beyond ? "the limit of the milder severity is never reached before that of the graver one" : NULL;
}

void limits_check(struct reading_rule *at, const struct limits *limits, int line) {
  if (at->wrong) return;
  for (size_t i = 0; i < limits->count; i++) {
    for (size_t k = 0; k < limits->count; k++) {
      const struct limit *a = &limits->list[i], *b = &limits->list[k];
      bool bounds = a->sense <= SENSE_AT_MOST && b->sense <= SENSE_AT_MOST;
      const char *said = i != k && bounds ? disagreement(a, b) : NULL;
      if (said)
        rule_complain(at, a->at.line ? a->at.line : line, a->name, said,
                      text_phrase(at->arena, "%s and %s", a->text, b->text), NULL);
      if (said) return;
    }
  }
}

// ---- for functions -------------------------------------------------------------------------------------------------

static void push_limit(lua_State *L, const struct limit *limit) {
  if (limit->words)
    lua_pushstring(L, limit->words[0]);
  else
    script_push_quantity(L, limit->value, limit->powers);
}

// Pushes the table of one name's limits by severity, and returns how many entries of the list it took.
static size_t push_by_severity(lua_State *L, const struct limits *limits, size_t from) {
  size_t to = from;
  lua_newtable(L);
  for (; to < limits->count && limits->list[to].by_severity &&
         strcmp(limits->list[to].name, limits->list[from].name) == 0;
       to++) {
    push_limit(L, &limits->list[to]);
    lua_setfield(L, -2, severity_name(limits->list[to].severity));
  }
  script_push_read_only(L, -1, "limit");
  lua_remove(L, -2);
  return to - from;
}

struct table_job {
  const struct limits *limits;
  int ref;
};

static int make_table(lua_State *L) {
  struct table_job *job = lua_touserdata(L, 1);
  lua_newtable(L);
  for (size_t i = 0; i < job->limits->count;) {
    const struct limit *limit = &job->limits->list[i];
    if (limit->by_severity) {
      i += push_by_severity(L, job->limits, i);
    } else {
      push_limit(L, limit);
      i++;
    }
    lua_setfield(L, -2, limit->name);
  }
  script_push_read_only(L, -1, "limit");
  job->ref = luaL_ref(L, LUA_REGISTRYINDEX);
  return 0;
}

int limits_push_table(struct rulebook *book, const struct limits *limits) {
  struct table_job job = {limits, NO_REF};
  struct script_failure failure;
  if (!script_protect(book->script, make_table, &job, 0, 0, &failure)) {
    if (script_starved(book->script)) arena_give_up(book->arena);
    return NO_REF;
  }
  return job.ref;
}
