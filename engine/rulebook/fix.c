// SPDX-License-Identifier: MIT
// The fix in words: from a table when a rule is read, from a function's answer when it flagged something.
#include <lua.h>
#include <string.h>

#include "rulebook/read_rule.h"
#include "rulebook/run.h"
#include "units/read.h"
#include "units/write.h"

static const char *const verbs[] = {"raise", "lower", "set", "choose"};
static const char *const amounts[] = {"by", "to", "to_no_more_than", "to_no_less_than"};
static const char *const amount_words[] = {" by ", " to ", ", to no more than ", ", to no less than "};
enum { VERBS = 4, AMOUNTS = 4 };

static const struct value *verb_of(const struct value *fix, const char **verb) {
  const struct value *found = NULL;
  for (int i = 0; i < VERBS; i++) {
    const struct value *value = value_member(fix, verbs[i]);
    if (!value) continue;
    if (found) return NULL;
    found = value;
    *verb = verbs[i];
  }
  return found;
}

static bool known_key(const char *key) {
  for (int i = 0; i < VERBS; i++) {
    if (strcmp(key, verbs[i]) == 0) return true;
  }
  for (int i = 0; i < AMOUNTS; i++) {
    if (strcmp(key, amounts[i]) == 0) return true;
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
static const char *worked_out_amount(struct reading_rule *at, const struct path *path, const struct value *value,
                                     enum unit_system system) {
  struct text text = text_in(at->arena);
  enum dimension dimension = dimension_of_powers(value->powers);
  bool fits = dimension == path->dimension || (path->dimension == DIM_ELEVATION && dimension == DIM_LENGTH);
  if (path->sort == SORT_NUMBER && fits) {
    unit_write(&text, value->number, dimension, (struct write_style){.system = system});
    return text_end(&text);
  }
  rule_complain(at, value->line, "fix", "an amount is not of the sort of what it changes", NULL, NULL);
  return NULL;
}

// A value of the given's sort, or one of its words.
static const char *amount_text(struct reading_rule *at, const struct path *path, const struct value *value,
                               enum unit_system system) {
  struct text wrong = text_in(at->arena), right = text_in(at->arena);
  struct reading reading;
  const char *const *words;
  size_t count;
  if (value->sort == VALUE_QUANTITY) return worked_out_amount(at, path, value, system);
  if (path->sort == SORT_CHOICE)
    return rule_read_words(at, path, "fix", value, &words, &count) && count == 1 ? words[0] : NULL;
  const char *text = rule_text(at, value);
  if (!text || path->sort != SORT_NUMBER) return text;
  if (unit_read(text, strlen(text), path->dimension, &reading, &wrong, &right)) return text;
  rule_complain(at, value->line, "fix", text_end(&wrong), text, right.length ? text_end(&right) : NULL);
  return NULL;
}

static void add_amounts(struct reading_rule *at, struct text *text, const struct value *fix, const struct path *path,
                        enum unit_system system) {
  for (int i = 0; i < AMOUNTS; i++) {
    const struct value *value = value_member(fix, amounts[i]);
    const char *amount = value ? amount_text(at, path, value, system) : NULL;
    // A `by` that is written is a step to try with, which nobody should take for enough; one worked out is the amount.
    bool step = amount && i == 0 && value->sort != VALUE_QUANTITY;
    if (!amount || step) continue;
    text_add(text, amount_words[i]);
    text_add(text, amount);
  }
}

static const char *describe_fix(struct reading_rule *at, const struct rule *rule, const struct value *fix,
                                enum unit_system system) {
  struct path path = {0};
  const char *verb = NULL, *said, *right;
  const struct value *target = verb_of(fix, &verb);
  const struct value *advice = value_member(fix, "advise");
  if (!target && advice && fix->count == 1) return rule_text(at, advice);
  if (!target || advice) {
    rule_complain(at, fix->line, "fix", "does not say one thing to do", NULL,
                  "one of raise, lower, set, choose, advise");
    return NULL;
  }
  const char *name = rule_text(at, target);
  if (!name) return NULL;
  if (!path_read(&path, at->arena, name, rule->kinds, true, &said, &right)) {
    rule_complain(at, target->line, "fix", said, name, right);
    return NULL;
  }
  if (!path.given) {
    rule_complain(at, target->line, "fix", "is worked out, so nobody can write it", name,
                  "a given that it is worked out from");
    return NULL;
  }
  struct text text = text_in(at->arena);
  text_printf(&text, "%c%s ", verb[0] - 'a' + 'A', verb + 1);
  add_target(&text, &path);
  add_amounts(at, &text, fix, &path, system);
  text_add_char(&text, '.');
  return text_end(&text);
}

const char *rule_read_fix(struct reading_rule *at, const struct rule *rule, const struct value *fix,
                          enum unit_system system) {
  if (fix->sort == VALUE_TEXT) return rule_text(at, fix);
  if (fix->sort != VALUE_TABLE) {
    rule_complain(at, fix->line, "fix", "is neither words, a table nor a function", value_shown(at->arena, fix),
                  "{ raise = \"...\", by = \"...\" }");
    return NULL;
  }
  check_fix_keys(at, fix);
  return describe_fix(at, rule, fix, system);
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

static const char *say_fix(struct run *run, const struct value *answer) {
  struct problems problems = problems_in(run->arena);
  const struct rule *rule = run->rule;
  struct reading_rule at = {run->book, run->arena, &problems, rule->file, "rule", rule->facts.id, NULL, false};
  const char *words = rule_read_fix(&at, rule, answer, units_of(run->ev));
  if (!at.wrong) return words;
  return text_phrase(run->arena, "the fix could not be worked out: %s",
                     problems.count ? problems.list[0].said : "an unknown name");
}

// The finding stands whatever becomes of its fix.
const char *run_fix(struct run *run) {
  struct taking_answer taking = {.arena = run->arena};
  struct script_failure failure;
  bool answered = run_call(run, run->rule->fix, &failure) &&
                  script_protect(run->book->script, take_answer, &taking, 1, 0, &failure);
  if (!answered && script_starved(run->book->script)) arena_give_up(run->arena);
  if (answered) return taking.answer ? say_fix(run, taking.answer) : NULL;
  if (failure.kind == SCRIPT_MISSING) return "the fix cannot be worked out until what it reads is stated";
  return text_phrase(run->arena, "the fix could not be worked out: %s", run_failure(run, &failure));
}
