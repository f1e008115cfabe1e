// SPDX-License-Identifier: MIT
// A fix, as data and in words: from a table when a rule is read, from a function's answer when it flagged something.
#include "rulebook/fix.h"

#include <lua.h>
#include <math.h>
#include <string.h>

#include "rulebook/read_rule.h"
#include "rulebook/run.h"
#include "units/read.h"
#include "units/write.h"

static const char *const verbs[] = {
    [FIX_RAISE] = "raise", [FIX_LOWER] = "lower", [FIX_SET] = "set", [FIX_CHOOSE] = "choose"};
enum amount { AMOUNT_BY, AMOUNT_TO, AMOUNT_MOST, AMOUNT_LEAST, AMOUNTS };
static const struct {
  const char *key, *words;
} amounts[AMOUNTS] = {
    [AMOUNT_BY] = {"by", " by "},
    [AMOUNT_TO] = {"to", " to "},
    [AMOUNT_MOST] = {"to_no_more_than", ", to no more than "},
    [AMOUNT_LEAST] = {"to_no_less_than", ", to no less than "},
};
enum { VERBS = 4, MOST_PARTS = 4 };

// One part while it is read.
struct reading_fix {
  struct reading_rule *at;
  const struct rule *rule;
  enum unit_system system;
  struct text words;
  struct rule_fix parts[MOST_PARTS];
  size_t count;
};

static const struct value *verb_of(const struct value *fix, enum fix_verb *verb) {
  const struct value *found = NULL;
  for (int i = 0; i < VERBS; i++) {
    const struct value *value = value_member(fix, verbs[i]);
    if (!value) continue;
    if (found) return NULL;
    found = value;
    *verb = (enum fix_verb)i;
  }
  return found;
}

static bool known_key(const char *key) {
  for (int i = 0; i < VERBS; i++) {
    if (strcmp(key, verbs[i]) == 0) return true;
  }
  for (int i = 0; i < AMOUNTS; i++) {
    if (strcmp(key, amounts[i].key) == 0) return true;
  }
  return strcmp(key, "advise") == 0;
}

static void check_fix_keys(struct reading_rule *at, const struct value *fix) {
  static const char *const names[] = {"raise",           "lower",           "set",   "choose", "by", "to",
                                      "to_no_more_than", "to_no_less_than", "advise"};
  for (const struct value *member = fix->first; member; member = member->next) {
    if (member->key && known_key(member->key)) continue;
    rule_complain(at, member->line, "fix",
                  text_phrase(at->arena, "has no `%s`", member->key ? member->key : value_shown(at->arena, member)),
                  NULL,
                  member->key ? rule_nearest(at->arena, member->key, names, sizeof names / sizeof *names)
                              : "raise, lower, set, choose or advise");
  }
}

// "valve_open (how far the valve is open) of from.pipes_in"
static void add_target(struct text *text, const struct path *path) {
  const char *dot = strrchr(path->text, '.');
  text_add(text, dot ? dot + 1 : path->text);
  if (path->says && *path->says) text_printf(text, " (%s)", path->says);
  if (!dot) return;
  text_add(text, " of ");
  text_add_bytes(text, path->text, (size_t)(dot - path->text));
}

// What a function worked out: of the given's dimension, a difference for a height.
static const char *worked_out_amount(const struct reading_fix *reading, const struct path *path,
                                     const struct value *value, double *number) {
  struct reading_rule *at = reading->at;
  struct text text = text_in(at->arena);
  enum dimension dimension = dimension_of_powers(value->powers);
  bool fits = dimension == path->dimension || (path->dimension == DIM_ELEVATION && dimension == DIM_LENGTH);
  if (path->sort == SORT_NUMBER && fits) {
    unit_write(&text, value->number, dimension, (struct write_style){.system = reading->system});
    *number = value->number;
    return text_end(&text);
  }
  rule_complain(at, value->line, "fix", "an amount is not of the sort of what it changes", NULL, NULL);
  return NULL;
}

// A value of the given's sort, or one of its words.
static const char *amount_text(const struct reading_fix *fix, const struct path *path, const struct value *value,
                               double *number) {
  struct reading_rule *at = fix->at;
  struct text wrong = text_in(at->arena), right = text_in(at->arena);
  struct reading reading;
  const char *const *words;
  size_t count;
  if (value->sort == VALUE_QUANTITY) return worked_out_amount(fix, path, value, number);
  if (path->sort == SORT_CHOICE)
    return rule_read_words(at, path, "fix", value, &words, &count) && count == 1 ? words[0] : NULL;
  const char *text = rule_text(at, value);
  if (!text || path->sort != SORT_NUMBER) return text;
  if (unit_read(text, strlen(text), path->dimension, &reading, &wrong, &right)) {
    *number = reading.value;
    return text;
  }
  rule_complain(at, value->line, "fix", text_end(&wrong), text, right.length ? text_end(&right) : NULL);
  return NULL;
}

static void read_amounts(struct reading_fix *reading, const struct value *fix, struct rule_fix *part) {
  double *const numbers[AMOUNTS] = {&part->by, &part->to, &part->most, &part->least};
  for (int i = 0; i < AMOUNTS; i++) {
    const struct value *value = value_member(fix, amounts[i].key);
    *numbers[i] = NAN;
    const char *amount = value ? amount_text(reading, &part->path, value, numbers[i]) : NULL;
    // A `by` that is written is a step to try with, which nobody should take for enough; one worked out is the amount.
    bool step = amount && i == AMOUNT_BY && value->sort != VALUE_QUANTITY;
    if (amount && i == AMOUNT_BY) part->amount = !step;
    if (amount && i == AMOUNT_TO) part->text = amount;
    if (!amount || step) continue;
    text_add(&reading->words, amounts[i].words);
    text_add(&reading->words, amount);
  }
}

static bool is_list(enum row_sort sort) {
  return sort == SORT_PARTS || sort == SORT_BACK || sort == SORT_REFERENCES || sort == SORT_SHAPE;
}

static bool is_changed_so(struct reading_rule *at, enum fix_verb verb, const struct path *path,
                          const struct value *target) {
  bool moves = verb == FIX_RAISE || verb == FIX_LOWER;
  if (moves && path->sort != SORT_NUMBER) {
    rule_complain(at, target->line, "fix", "is no value that can be raised or lowered", path->text,
                  "set = \"...\", to = \"...\"");
    return false;
  }
  if (is_list(path->sort)) {
    rule_complain(at, target->line, "fix", "is a list, which no fix writes", path->text,
                  "a given of what stands in it");
    return false;
  }
  return true;
}

static bool read_path(struct reading_fix *reading, struct path *path, const struct value *target) {
  struct reading_rule *at = reading->at;
  const char *said, *right, *name = rule_text(at, target);
  if (!name) return false;
  if (!path_read(path, at->arena, name, reading->rule->kinds, true, &said, &right)) {
    rule_complain(at, target->line, "fix", said, name, right);
    return false;
  }
  if (path->given) return true;
  rule_complain(at, target->line, "fix", "is worked out, so nobody can write it", name,
                "a given that it is worked out from");
  return false;
}

// What no change could come of, or two of one given.
static void check_part(struct reading_fix *reading, const struct value *fix, const struct rule_fix *part) {
  struct reading_rule *at = reading->at;
  const struct value *by = value_member(fix, "by");
  if (by && by->sort != VALUE_QUANTITY && part->by <= 0)
    rule_complain(at, by->line, "fix", "is a step of nothing, or backwards", value_shown(at->arena, by),
                  "a step above 0; raise or lower says which way");
  if (part->verb == FIX_SET && !value_member(fix, "to"))
    rule_complain(at, fix->line, "fix", "does not say to what it is set", NULL, "to = \"...\"");
  for (size_t i = 0; i < reading->count; i++) {
    if (strcmp(reading->parts[i].path.text, part->path.text) == 0)
      rule_complain(at, fix->line, "fix", "changes one given twice", part->path.text, "it once");
  }
}

static void read_part(struct reading_fix *reading, const struct value *fix) {
  struct reading_rule *at = reading->at;
  struct rule_fix *part = &reading->parts[reading->count];
  *part = (struct rule_fix){.by = NAN, .to = NAN, .most = NAN, .least = NAN};
  check_fix_keys(at, fix);
  const struct value *target = verb_of(fix, &part->verb);
  if (!target || value_member(fix, "advise")) {
    rule_complain(at, fix->line, "fix", "does not say one thing to do", NULL,
                  "one of raise, lower, set, choose, advise");
    return;
  }
  if (!read_path(reading, &part->path, target) || !is_changed_so(at, part->verb, &part->path, target)) return;
  const char *verb = verbs[part->verb];
  text_printf(&reading->words, reading->count ? ", and %c%s " : "%c%s ", verb[0] - (reading->count ? 0 : 'a' - 'A'),
              verb + 1);
  add_target(&reading->words, &part->path);
  read_amounts(reading, fix, part);
  check_part(reading, fix, part);
  reading->count++;
}

// { { raise = ... }, { set = ... } }: changes that go together.
static void read_parts(struct reading_fix *reading, const struct value *fix) {
  struct reading_rule *at = reading->at;
  for (const struct value *member = fix->first; member; member = member->next) {
    if (member->key || member->sort != VALUE_TABLE) {
      rule_complain(at, member->line, "fix", "is neither one change nor a list of changes",
                    member->key ? member->key : value_shown(at->arena, member),
                    "{ { raise = \"...\" }, { set = \"...\", to = \"...\" } }");
    } else if (reading->count == MOST_PARTS) {
      rule_complain(at, member->line, "fix", "changes more than four givens at once", NULL, "fewer of them");
      return;
    } else {
      read_part(reading, member);
    }
  }
}

static struct rule_fixes *finish_fix(struct reading_fix *reading) {
  struct arena *arena = reading->at->arena;
  struct rule_fixes *fixes = arena_alloc(arena, sizeof *fixes);
  struct rule_fix *list = arena_array(arena, reading->count + 1, sizeof *list);
  for (size_t i = 0; i < reading->count; i++) list[i] = reading->parts[i];
  text_add_char(&reading->words, '.');
  *fixes = (struct rule_fixes){.words = text_end(&reading->words), .list = list, .count = reading->count};
  return fixes;
}

static const struct rule_fixes *only_words(struct reading_rule *at, const struct value *value) {
  const char *words = rule_text(at, value);
  if (!words) return NULL;
  struct rule_fixes *fixes = arena_alloc(at->arena, sizeof *fixes);
  fixes->words = words;
  return fixes;
}

const struct rule_fixes *rule_read_fix(struct reading_rule *at, const struct rule *rule, const struct value *fix,
                                       enum unit_system system) {
  if (fix->sort == VALUE_TEXT) return only_words(at, fix);
  if (fix->sort != VALUE_TABLE) {
    rule_complain(at, fix->line, "fix", "is neither words, a table nor a function", value_shown(at->arena, fix),
                  "{ raise = \"...\", by = \"...\" }");
    return NULL;
  }
  const struct value *advice = value_member(fix, "advise");
  if (advice && fix->count == 1) return only_words(at, advice);
  struct reading_fix *reading = arena_alloc(at->arena, sizeof *reading);
  *reading = (struct reading_fix){.at = at, .rule = rule, .system = system, .words = text_in(at->arena)};
  if (fix->first && fix->first->sort == VALUE_TABLE && !fix->first->key)
    read_parts(reading, fix);
  else
    read_part(reading, fix);
  return reading->count ? finish_fix(reading) : NULL;
}

// ---- a fix function ------------------------------------------------------------------------------------------------

struct taking_answer {
  struct arena *arena;
  struct value *answer;
};

// (taking, the answer)
static int take_answer(lua_State *L) {
  struct taking_answer *taking = lua_touserdata(L, 1);
  if (!lua_isnil(L, 2)) taking->answer = value_take(L, taking->arena, NULL);
  return 0;
}

static enum unit_system units_of(struct evaluation *ev) {
  const struct store *design = evaluation_design(ev);
  if (store_count(design, KIND_project) == 0) return UNITS_US;
  const struct slot *units = store_at(design, store_of_kind(design, KIND_project, 0), ROW_project_units);
  return units->value == (double)WORD_units_si ? UNITS_SI : UNITS_US;
}

static const struct rule_fixes *words_alone(struct arena *arena, const char *words) {
  struct rule_fixes *fixes = arena_alloc(arena, sizeof *fixes);
  fixes->words = words;
  return fixes;
}

static const struct rule_fixes *say_fix(struct run *run, const struct value *answer) {
  struct problems problems = problems_in(run->arena);
  const struct rule *rule = run->rule;
  struct reading_rule at = {run->book, run->arena, &problems, rule->file, "rule", rule->facts.id, NULL, false};
  const struct rule_fixes *fixes = rule_read_fix(&at, rule, answer, units_of(run->ev));
  if (!at.wrong) return fixes;
  return words_alone(run->arena, text_phrase(run->arena, "the fix could not be worked out: %s",
                                             problems.count ? problems.list[0].said : "an unknown name"));
}

// The finding stands whatever becomes of its fix.
const struct rule_fixes *run_fix(struct run *run) {
  struct taking_answer taking = {.arena = run->arena};
  struct script_failure failure;
  bool answered = run_call(run, run->rule->fix, &failure) &&
                  script_protect(run->book->script, take_answer, &taking, 1, 0, &failure);
  if (!answered && script_starved(run->book->script)) arena_give_up(run->arena);
  if (answered) return taking.answer ? say_fix(run, taking.answer) : NULL;
  if (failure.kind == SCRIPT_MISSING)
    return words_alone(run->arena, "the fix cannot be worked out until what it reads is stated");
  return words_alone(run->arena,
                     text_phrase(run->arena, "the fix could not be worked out: %s", run_failure(run, &failure)));
}
