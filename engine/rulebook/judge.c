// SPDX-License-Identifier: MIT
// Judging: one rule on one entity becomes one outcome.
#include <assert.h>
#include <lua.h>
#include <math.h>
#include <string.h>

#include "rulebook/accept.h"
#include "rulebook/fix.h"
#include "rulebook/guess.h"
#include "rulebook/run.h"
#include "units/compare.h"

enum truth { TRUTH_NO, TRUTH_YES, TRUTH_UNKNOWN };

// ---- reading and comparing -----------------------------------------------------------------------------------------

double run_read(struct run *run, int entity, enum row_id row, double *scale) {
  double value = evaluation_number(run->ev, entity, row);
  if (!isnan(value) && guess_is(run, entity, row)) value = guess_replaced(run, entity, row);
  *scale = isnan(value) ? 0 : evaluation_scale(run->ev, entity, row);
  return value;
}

int run_add_comparison(struct run *run, struct comparison comparison) {
  run->comparisons = arena_grow(run->arena, run->comparisons, run->count, &run->room, sizeof *run->comparisons);
  run->comparisons[run->count] = comparison;
  return (int)run->count++;
}

int run_add_bound(struct run *run, struct comparison start, double scale) {
  bool least = start.sense == SENSE_AT_LEAST;
  enum standing standing = compare(start.value, start.limit, scale);
  start.satisfied = standing == STANDS_AT || standing == (least ? STANDS_ABOVE : STANDS_BELOW);
  start.margin = least ? start.value - start.limit : start.limit - start.value;
  return run_add_comparison(run, start);
}

// ---- when, as data -------------------------------------------------------------------------------------------------

static enum truth truth_of(bool holds) { return holds ? TRUTH_YES : TRUTH_NO; }

static enum truth unset(struct run *run, const struct spot *spot) {
  if (spot->lacks != KIND_COUNT)
    run->because = text_phrase(run->arena, "the design has no %s", catalogue_kind(spot->lacks)->name);
  return TRUTH_UNKNOWN;
}

static bool one_of(enum word word, const char *const *words, size_t count) {
  for (size_t i = 0; i < count; i++) {
    if (strcmp(catalogue_word(word)->word, words[i]) == 0) return true;
  }
  return false;
}

static enum truth holds(struct run *run, const struct requirement *requirement) {
  struct spot spot;
  double scale;
  enum arrival arrival = path_follow(&requirement->path, run->ev, run->entity, &spot);
  if (arrival == PATH_ABSENT) return TRUTH_NO;
  if (arrival == PATH_UNSET) return unset(run, &spot);
  if (requirement->sort == WHEN_WORD) {
    enum word word = evaluation_choice(run->ev, spot.entity, spot.row);
    return word == WORD_COUNT ? TRUTH_UNKNOWN : truth_of(one_of(word, requirement->words, requirement->word_count));
  }
  double value = run_read(run, spot.entity, spot.row, &scale);
  if (isnan(value)) return TRUTH_UNKNOWN;
  enum standing standing = compare(value, requirement->bound, scale);
  return truth_of(standing == STANDS_AT ||
                  standing == (requirement->sort == WHEN_AT_LEAST ? STANDS_ABOVE : STANDS_BELOW));
}

// One that surely does not hold settles it, whatever the answer to an open one would be.
static enum truth all_hold(struct run *run) {
  enum truth all = TRUTH_YES;
  for (size_t i = 0; i < run->rule->when_count; i++) {
    enum truth one = holds(run, &run->rule->when[i]);
    if (one == TRUTH_NO) return TRUTH_NO;
    if (one == TRUTH_UNKNOWN) all = TRUTH_UNKNOWN;
  }
  return all;
}

// ---- data rules ----------------------------------------------------------------------------------------------------

static void judge_word(struct run *run, const struct spot *spot, struct outcome *outcome) {
  enum word word = evaluation_choice(run->ev, spot->entity, spot->row);
  if (word == WORD_COUNT) return;
  outcome->sort = OUTCOME_CLEAR;
  for (size_t i = 0; i < run->limits->count; i++) {
    const struct limit *limit = &run->limits->list[i];
    run_add_comparison(run, (struct comparison){.sense = SENSE_IS,
                                                .satisfied = one_of(word, limit->words, limit->word_count),
                                                .entity = spot->entity,
                                                .row = spot->row,
                                                .dimension = DIMENSION_COUNT,
                                                .severity = limit->severity,
                                                .words = catalogue_word(word)->word,
                                                .asked = limit->text});
  }
}

static void compare_number(struct run *run, const struct spot *spot, double value, double scale) {
  for (size_t i = 0; i < run->limits->count; i++) {
    const struct limit *limit = &run->limits->list[i];
    run_add_bound(run,
                  (struct comparison){.sense = limit->sense,
                                      .entity = spot->entity,
                                      .row = spot->row,
                                      .dimension = catalogue_row(spot->row)->dimension,
                                      .value = value,
                                      .limit = limit->value,
                                      .severity = limit->severity},
                  scale);
  }
}

static void judge_number(struct run *run, const struct spot *spot, struct outcome *outcome) {
  double scale, value = run_read(run, spot->entity, spot->row, &scale);
  if (isnan(value)) return;
  outcome->sort = OUTCOME_CLEAR;
  compare_number(run, spot, value, scale);
  if (guess_is(run, spot->entity, spot->row))  // a guess that is worse than what is worked out is heeded
    compare_number(run, spot, evaluation_number(run->ev, spot->entity, spot->row), scale);
}

// The worst of the limits that are not met; among equals the first.
static int worst_broken(const struct run *run) {
  int worst = -1;
  for (size_t i = 0; i < run->count; i++) {
    if (run->comparisons[i].satisfied) continue;
    if (worst < 0 || run->comparisons[i].severity > run->comparisons[worst].severity) worst = (int)i;
  }
  return worst;
}

static void judge_data(struct run *run, struct outcome *outcome) {
  struct spot spot;
  enum arrival arrival = path_follow(&run->rule->judges, run->ev, run->entity, &spot);
  if (arrival == PATH_ABSENT) outcome->sort = OUTCOME_NOT_APPLICABLE;
  if (arrival == PATH_UNSET) unset(run, &spot);
  if (arrival != PATH_ARRIVED) return;
  if (run->rule->judges.sort == SORT_CHOICE)
    judge_word(run, &spot, outcome);
  else
    judge_number(run, &spot, outcome);
  outcome->judged = worst_broken(run);
  if (outcome->judged >= 0) outcome->sort = OUTCOME_FLAGGED;
}

// ---- function rules ------------------------------------------------------------------------------------------------

enum answer { ANSWER_NOTHING, ANSWER_YES, ANSWER_NO, ANSWER_FINDING, ANSWER_NONSENSE, ANSWER_FAILED };

struct call {
  struct run *run;
  int function;
};

static int push_call(lua_State *L) {
  struct call *call = lua_touserdata(L, 1);
  lua_rawgeti(L, LUA_REGISTRYINDEX, call->function);
  entity_push(L, call->run->book, call->run->entity);
  lua_rawgeti(L, LUA_REGISTRYINDEX, call->run->limit_table);
  return 3;
}

static enum answer answer_of(lua_State *L, int *finding) {
  if (lua_isnil(L, -1)) return ANSWER_NOTHING;
  if (lua_isboolean(L, -1)) return lua_toboolean(L, -1) ? ANSWER_YES : ANSWER_NO;
  return words_finding(L, -1, finding) ? ANSWER_FINDING : ANSWER_NONSENSE;
}

bool run_call(struct run *run, int function, struct script_failure *failure) {
  struct rulebook *book = run->book;
  struct call call = {run, function};
  book->run = run;
  bool called = script_protect(book->script, push_call, &call, 0, 3, failure) &&
                script_call(book->script, 2, 1, book->budget.rule_instructions, failure);
  book->run = NULL;
  if (!called && script_starved(book->script)) arena_give_up(run->arena);
  return called;
}

static enum answer ask(struct run *run, int function, int *finding, struct script_failure *failure) {
  struct rulebook *book = run->book;
  if (!run_call(run, function, failure)) return ANSWER_FAILED;
  enum answer answer = answer_of(script_lua(book->script), finding);
  lua_pop(script_lua(book->script), 1);
  return answer;
}

const char *run_failure(struct run *run, const struct script_failure *failure) {
  struct text text = text_in(run->arena);
  struct problem problem = script_problem(failure, NULL);
  if (!problem.at.file) problem.at = run->rule->facts.at;
  problem_write(&text, &problem);
  return text_end(&text);
}

static void fail(struct run *run, struct outcome *outcome, const struct script_failure *failure) {
  if (failure->kind == SCRIPT_MISSING) return;  // stays unanswered
  outcome->sort = OUTCOME_BROKEN;
  outcome->because = run_failure(run, failure);
  if (failure->kind == SCRIPT_STOPPED) run->stopped = outcome->because;
}

// At the line of the key that holds the function.
static void nonsense(struct run *run, struct outcome *outcome, const char *key, const char *said) {
  const struct value *function = value_member(run->rule->table, key);
  const struct place *at = &run->rule->facts.at;
  outcome->sort = OUTCOME_BROKEN;
  outcome->because = text_phrase(run->arena, "%s:%d: %s", at->file, function ? function->line : at->line, said);
}

// True: goes on to the check.
static bool ask_when(struct run *run, struct outcome *outcome) {
  struct script_failure failure;
  int finding;
  enum answer answer = ask(run, run->rule->when_function, &finding, &failure);
  if (answer == ANSWER_YES) return true;
  if (answer == ANSWER_NO)
    outcome->sort = OUTCOME_NOT_APPLICABLE;
  else if (answer == ANSWER_FAILED)
    fail(run, outcome, &failure);
  else
    nonsense(run, outcome, "when",
             "`when` returns neither true nor false; write a comparison such as basin.depth >= q\"4 ft\"");
  return false;
}

static void ask_check(struct run *run, struct outcome *outcome) {
  struct script_failure failure;
  enum answer answer = ask(run, run->rule->check, &outcome->judged, &failure);
  if (answer == ANSWER_NOTHING)
    outcome->sort = OUTCOME_CLEAR;
  else if (answer == ANSWER_FINDING)
    outcome->sort = OUTCOME_FLAGGED;
  else if (answer == ANSWER_FAILED)
    fail(run, outcome, &failure);
  else
    nonsense(run, outcome, "check",
             "`check` returns something else than what at_least, at_most, within, must or is give back; "
             "return one of these, several joined by `or`, or nothing");
}

// ---- the outcome ---------------------------------------------------------------------------------------------------

static bool is_bound(const struct comparison *comparison) {
  return comparison->sense == SENSE_AT_LEAST || comparison->sense == SENSE_AT_MOST;
}

static double tightness(const struct comparison *comparison) {
  double limit = fabs(comparison->limit);
  return limit > 0 ? comparison->margin / limit : comparison->margin;
}

static bool is_tighter(const struct comparison *one, const struct comparison *other) {
  if (is_bound(one) != is_bound(other)) return is_bound(one);
  return is_bound(one) && tightness(one) < tightness(other);
}

// Of a clear outcome: the bound that is nearest to being broken; without bounds the first comparison.
static int tightest(const struct run *run) {
  int tight = -1;
  for (size_t i = 0; i < run->count; i++) {
    if (!run->comparisons[i].satisfied) continue;
    if (tight < 0 || is_tighter(&run->comparisons[i], &run->comparisons[tight])) tight = (int)i;
  }
  return tight;
}

static void explain_unanswered(struct run *run, struct outcome *outcome) {
  int *roots = NULL;
  outcome->severity = run->rule->facts.severity;
  outcome->counts_as_held = outcome->severity == SEVERITY_HOLD || run->rule->facts.life_safety;
  outcome->root_count = evaluation_roots(run->ev, run->reader.reads, run->reader.count, &roots);
  outcome->roots = roots;
  outcome->because = run->because;
  if (run->reader.impossible) outcome->because = "what is given contradicts itself: see the problems";
}

static void finish(struct run *run, struct outcome *outcome) {
  outcome->reads = run->reader.reads;
  outcome->read_count = run->reader.count;
  outcome->in_doubt = run->reader.outside;
  if (outcome->sort == OUTCOME_CLEAR && guess_underlies(run)) outcome->sort = OUTCOME_UNANSWERED;
  if (outcome->sort == OUTCOME_CLEAR) outcome->judged = tightest(run);
  if (outcome->sort == OUTCOME_UNANSWERED) explain_unanswered(run, outcome);
  if (outcome->sort == OUTCOME_FLAGGED) outcome->severity = run->comparisons[outcome->judged].severity;
  if (outcome->sort != OUTCOME_CLEAR && outcome->sort != OUTCOME_FLAGGED) outcome->judged = -1;
  struct comparison *kept = arena_array(run->arena, run->count + 1, sizeof *kept);
  for (size_t i = 0; i < run->count; i++) kept[i] = run->comparisons[i];
  outcome->comparisons = kept;
  outcome->comparison_count = run->count;
}

static void take_fix(struct run *run, struct outcome *outcome) {
  outcome->fix = run_fix(run);
  outcome->try_words = outcome->fix ? outcome->fix->words : NULL;
}

// Until something is known the outcome is unanswered.
void run_judge(struct run *run, struct outcome *outcome) {
  assert(evaluation_arena(run->ev) == run->arena);
  outcome->sort = OUTCOME_UNANSWERED;
  outcome->judged = -1;
  run->reader = (struct reader){0};
  run->count = 0;
  run->word = run->because = NULL;
  evaluation_begin(run->ev, &run->reader);
  enum truth applies = all_hold(run);
  if (applies == TRUTH_NO) outcome->sort = OUTCOME_NOT_APPLICABLE;
  if (applies == TRUTH_YES && (run->rule->when_function == NO_REF || ask_when(run, outcome))) {
    if (run->rule->judges.count)
      judge_data(run, outcome);
    else
      ask_check(run, outcome);
  }
  if (outcome->sort == OUTCOME_FLAGGED && run->rule->fix != NO_REF) take_fix(run, outcome);
  evaluation_end(run->ev);
  finish(run, outcome);
}

// ---- the review ----------------------------------------------------------------------------------------------------

struct judging {
  struct run run;
  struct review *review;
  struct rulebook_watch watch;
  struct text name;
  struct outcome *outcomes;
  size_t count, room;
};

static void tell(struct judging *judging, int entity) {
  if (!judging->watch.tell) return;
  judging->name.length = 0;
  store_describe_entity(&judging->name, judging->review->design, entity);
  judging->watch.tell(judging->watch.with, judging->run.rule->facts.id, text_end(&judging->name));
}

static void judge_entity(struct judging *judging, size_t rule, int entity) {
  struct review *review = judging->review;
  judging->outcomes =
      arena_grow(review->arena, judging->outcomes, judging->count, &judging->room, sizeof *judging->outcomes);
  struct outcome *outcome = &judging->outcomes[judging->count++];
  *outcome = (struct outcome){.rule = rule, .entity = entity};
  if (judging->run.stopped) {  // once is enough: a whole budget for each entity could use up the time of all rules
    outcome->sort = OUTCOME_BROKEN;
    outcome->because = judging->run.stopped;
    outcome->judged = -1;
    return;
  }
  tell(judging, entity);
  judging->run.entity = entity;
  run_judge(&judging->run, outcome);
}

static void judge_all(struct judging *judging, size_t number) {
  const struct rulebook *book = judging->run.book;
  const struct store *design = judging->review->design;
  const struct rule *rule = book->in_force[number];
  if (rule->facts.broken) return;
  judging->run.rule = rule;
  judging->run.stopped = NULL;
  judging->run.limits = &rule->now;
  judging->run.limit_table = rule->limit_now;
  for (size_t entity = 0; entity < design->entity_count; entity++) {
    if (kinds_hold(rule->kinds, design->entities[entity].kind)) judge_entity(judging, number, (int)entity);
  }
}

void rulebook_judge(struct rulebook *book, struct evaluation *evaluation, struct review *review,
                    struct rulebook_watch watch) {
  assert(!review->problems || review->problems->arena == review->arena);
  struct judging *judging = arena_alloc(review->arena, sizeof *judging);
  book->generation++;
  review->design = evaluation_design(evaluation);
  review->evaluation = evaluation;
  review->rules = book->facts;
  review->rule_count = book->fact_count;
  review->retired_count = book->retired_count;
  review->unusable = &book->problems;
  *judging = (struct judging){.run = {.book = book, .ev = evaluation, .arena = review->arena},
                              .review = review,
                              .watch = watch,
                              .name = text_in(review->arena)};
  for (size_t i = 0; i < book->fact_count; i++) judge_all(judging, i);
  review->outcomes = judging->outcomes;
  review->outcome_count = judging->count;
  rulebook_accept(book, review, judging->outcomes);
  rulebook_judge_alone(book, review, watch);
}
