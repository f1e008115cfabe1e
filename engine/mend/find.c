// SPDX-License-Identifier: MIT
// The best fix of one finding, and the next best.
#include <math.h>

#include "mend/mend_inside.h"
#include "rulebook/fix.h"

enum {
  MOST_REPAIRED = 2,
  FARTHEST = 16,
  MOST_KEPT = 6,
  MOST_SHORTS = 4,
  MOST_SCREENS = 24,
  MOST_TRIALS_FOR_OTHERS = 150
};
static const double worth_telling = 0.25;  // of what is missing: less is no way to mend it

struct tried {
  struct mend mend;
  struct answer *answers;  // of the whole design
  enum mend_rank rank;
  bool own;
  const struct candidate *of;
  size_t worsened;  // findings that stand before and after, and are farther from their limits then
};

struct finding_search {
  struct mending *m;
  const struct mend_base *base;
  const struct outcome *finding;
  struct tried kept[MOST_KEPT];
  size_t count, screens, proven;
  struct short_of {  // what was not enough, the best first
    const struct candidate *candidate;
    struct search found;
    double done;  // of what is missing
  } shorts[MOST_SHORTS];
  size_t short_count;
};

static enum severity worst_of(const struct mend *mend) {
  enum severity worst = SEVERITY_ADVISE;
  for (size_t i = 0; i < mend->raised_count; i++) {
    if (mend->raised[i].severity > worst) worst = mend->raised[i].severity;
  }
  return worst;
}

// Proven before what raises something else; of these what raises the least. Then in a builder's order, and the rule's
// own first.
static bool is_better(const struct tried *a, const struct tried *b) {
  if (a->mend.standing != b->mend.standing) return a->mend.standing < b->mend.standing;
  if (worst_of(&a->mend) != worst_of(&b->mend)) return worst_of(&a->mend) < worst_of(&b->mend);
  if (a->mend.raised_count != b->mend.raised_count) return a->mend.raised_count < b->mend.raised_count;
  if (a->worsened != b->worsened) return a->worsened < b->worsened;
  if (a->mend.count != b->mend.count && a->mend.standing == MEND_PROVEN) return a->mend.count < b->mend.count;
  return a->rank != b->rank ? a->rank < b->rank : a->own && !b->own;
}

static void keep(struct finding_search *s, const struct tried *tried) {
  if (s->count == MOST_KEPT && !is_better(tried, &s->kept[MOST_KEPT - 1])) return;
  size_t at = s->count < MOST_KEPT ? s->count++ : MOST_KEPT - 1;
  for (; at > 0 && is_better(tried, &s->kept[at - 1]); at--) s->kept[at] = s->kept[at - 1];
  s->kept[at] = *tried;
}

static struct changes changes_at(struct finding_search *s, const struct candidate *candidate, long step) {
  struct mend_change *list = arena_array(s->m->arena, MOST_CHANGES, sizeof *list);
  size_t count = candidate_at(s->m, s->base, candidate, step, list);
  return (struct changes){list, count};
}

static const double noticed = 0.1;  // of the limit

static size_t count_worsened(const struct finding_search *s, const struct answer *now) {
  size_t count = 0;
  for (size_t i = 0; i < s->base->review->outcome_count; i++) {
    const struct answer *was = &s->base->answers[i];
    if (was->sort != OUTCOME_FLAGGED || now[i].sort != OUTCOME_FLAGGED || was->row != now[i].row) continue;
    count += now[i].margin < was->margin - noticed * fabs(was->limit);
  }
  return count;
}

// Changes that clear the finding, held against all the rest. False: the finding stands.
static bool hold_against_all(struct finding_search *s, struct changes changes, const struct candidate *candidate,
                             struct tried *tried) {
  size_t number = (size_t)(s->finding - s->base->review->outcomes);
  *tried = (struct tried){.own = candidate->own, .rank = candidate->rank, .of = candidate};
  tried->answers = arena_array(s->m->arena, s->base->review->outcome_count + 1, sizeof *tried->answers);
  s->screens++;
  if (changes.count == 0 || !mend_try_all(s->m, s->base, changes, tried->answers, NULL)) return false;
  tried->mend = (struct mend){.changes = changes.list, .count = changes.count, .price = candidate->price};
  tried->mend.raised_count = mend_compare(s->m, s->base->review, s->base->answers, tried->answers, &tried->mend.raised);
  tried->mend.standing = tried->mend.raised_count ? MEND_RAISES : MEND_PROVEN;
  tried->worsened = count_worsened(s, tried->answers);
  tried->mend.at_limit = answer_is_at_limit(&tried->answers[number]);
  return answer_clears(&tried->answers[number], candidate);
}

static bool look_round(struct finding_search *s, const struct candidate *candidate, long step, struct tried *tried) {
  return hold_against_all(s, changes_at(s, candidate, step), candidate, tried);
}

// What just clears one rule may fall short of the next: a few steps farther may satisfy both.
static void go_on(struct finding_search *s, const struct candidate *candidate, long cleared, struct tried *least) {
  struct tried tried;
  long low = cleared, high = 0;
  for (long more = 1; more <= FARTHEST && !high && s->screens < MOST_SCREENS; more *= 2) {
    if (!look_round(s, candidate, cleared + more, &tried)) return;
    if (tried.mend.standing == MEND_PROVEN) high = cleared + more;
    if (!high) low = cleared + more;
  }
  if (!high) return;
  *least = tried;
  while (high - low > 1 && s->screens < MOST_SCREENS) {
    long middle = low + (high - low) / 2;
    bool proven = look_round(s, candidate, middle, &tried) && tried.mend.standing == MEND_PROVEN;
    if (proven) *least = tried;
    *(proven ? &high : &low) = middle;
  }
}

static void screen(struct finding_search *s, const struct candidate *candidate, long step) {
  struct tried tried;
  if (!look_round(s, candidate, step, &tried)) return;
  if (tried.mend.standing == MEND_RAISES && candidate_is_ladder(candidate)) go_on(s, candidate, step, &tried);
  s->proven += tried.mend.standing == MEND_PROVEN && tried.worsened == 0;
  keep(s, &tried);
}

static double share_done(const struct finding_search *s, const struct search *found) {
  const struct comparison *judged = &s->finding->comparisons[s->finding->judged];
  return fabs(found->at_best.value - judged->value) / -judged->margin;
}

static void note_short(struct finding_search *s, const struct candidate *candidate, const struct search *found) {
  struct short_of now = {candidate, *found, share_done(s, found)};
  if (!isfinite(now.done) || (!candidate->own && now.done < worth_telling)) return;
  size_t at = s->short_count < MOST_SHORTS ? s->short_count++ : MOST_SHORTS - 1;
  for (; at > 0 && s->shorts[at - 1].done < now.done; at--) s->shorts[at] = s->shorts[at - 1];
  s->shorts[at] = now;
}

static bool is_enough(const struct finding_search *s) {
  size_t wanted = s->m->work < MOST_WORK / 2 ? MEND_OTHERS + 1 : 1;
  if (s->proven >= wanted || s->screens >= MOST_SCREENS || mending_is_spent(s->m)) return true;
  return s->proven > 0 && s->m->trials >= MOST_TRIALS_FOR_OTHERS;
}

static void try_one(struct finding_search *s, const struct candidate *candidate) {
  struct search found = mend_search(s->m, s->base, candidate, s->finding);
  if (found.cleared) {
    screen(s, candidate, found.cleared);
  } else if (found.best) {
    note_short(s, candidate, &found);
  }
}

static bool moves_same(const struct candidate *a, const struct candidate *b) {
  return a->moves[0].entity == b->moves[0].entity && a->moves[0].row == b->moves[0].row;
}

// Two that each fall short, together.
static void try_pairs(struct finding_search *s) {
  size_t count = s->short_count;
  for (size_t i = 0; i < count; i++) {
    for (size_t k = i + 1; k < count && s->proven == 0 && !mending_is_spent(s->m); k++) {
      const struct candidate *a = s->shorts[i].candidate, *b = s->shorts[k].candidate;
      if (a->count > 1 || b->count > 1 || moves_same(a, b)) continue;
      struct candidate *pair = arena_alloc(s->m->arena, sizeof *pair);
      *pair =
          (struct candidate){.moves = {a->moves[0], b->moves[0]}, .count = 2, .own = a->own && b->own, .price = NAN};
      pair->rank = a->rank > b->rank ? a->rank : b->rank;
      struct search found = mend_search(s->m, s->base, pair, s->finding);
      if (found.cleared) screen(s, pair, found.cleared);
    }
  }
}

static void try_candidates(struct finding_search *s) {
  const struct candidate *list;
  size_t count = candidates_of(s->m, s->base, s->finding, &list);
  for (size_t i = 0; i < count && !is_enough(s); i++) try_one(s, &list[i]);
  if (s->count == 0 || s->kept[0].mend.standing != MEND_PROVEN) try_pairs(s);
}

// ---- what a change raises, mended in its turn ----

struct repairing {
  struct finding_search *s;
  struct changes changes, more;
  const struct mend_raised *raised;
  struct arena *arena;
};

static const struct outcome *raised_in(const struct mend_base *base, const struct mend_raised *raised) {
  for (size_t i = 0; i < base->review->outcome_count; i++) {
    const struct outcome *outcome = &base->review->outcomes[i];
    if (outcome->rule == raised->rule && outcome->entity == raised->entity) return outcome;
  }
  return NULL;
}

static void mend_raised(void *with) {
  struct repairing *r = with;
  struct mending *m = r->s->m;
  struct mend_base *base = arena_alloc(r->arena, sizeof *base);
  if (!mend_go_on_from(m, r->s->base, r->changes, r->arena, base)) return;
  struct mend_finding found = {.finding = raised_in(base, r->raised)};
  if (!found.finding || found.finding->sort != OUTCOME_FLAGGED) return;
  const char *entity = m->entity;
  size_t trials = m->trials;
  mend_find(m, base, &found);
  m->entity = entity;
  m->trials += trials;
  if (found.best.standing == MEND_PROVEN)
    r->more = changes_joined(m->arena, r->changes, (struct changes){found.best.changes, found.best.count});
}

// Where nothing clears the finding without raising another one: what mends that, with it.
static void repair(struct finding_search *s) {
  struct tried from[MOST_REPAIRED], both;
  size_t count = s->count < MOST_REPAIRED ? s->count : MOST_REPAIRED;
  for (size_t i = 0; i < count; i++) from[i] = s->kept[i];
  for (size_t i = 0; i < count && s->proven == 0 && !mending_is_spent(s->m); i++) {
    struct repairing r = {.s = s, .changes = {from[i].mend.changes, from[i].mend.count}};
    if (from[i].mend.standing != MEND_RAISES || from[i].mend.raised_count != 1) continue;
    r.raised = &from[i].mend.raised[0];
    mending_aside(s->m, mend_raised, &r, &r.arena);
    if (r.more.count == 0 || !hold_against_all(s, r.more, from[i].of, &both)) continue;
    s->proven += both.mend.standing == MEND_PROVEN;
    if (both.mend.standing == MEND_PROVEN) keep(s, &both);
  }
}

// ---- the best of them ----

static bool same_given(const struct mend *a, const struct mend *b) {
  return a->count == 1 && b->count == 1 && a->changes[0].entity == b->changes[0].entity &&
         a->changes[0].row == b->changes[0].row;
}

static bool is_pump(const struct mend *mend) { return mend->count && mend->changes[0].row == ROW_pump_model; }

static bool as_dear(const struct mend *a, const struct mend *b) {
  return (isnan(a->price) && isnan(b->price)) || a->price == b->price;
}

// Two words for one given, or two pumps at one price, that do the same: somebody has to say which.
static bool as_good(const struct mend *a, const struct mend *b) {
  if (a->standing != MEND_PROVEN || b->standing != MEND_PROVEN || a->changes[0].entity != b->changes[0].entity)
    return false;
  if (is_pump(a) && is_pump(b)) return as_dear(a, b);
  return same_given(a, b) && catalogue_row(a->changes[0].row)->sort == SORT_CHOICE;
}

static void ask_for_choice(struct mend_finding *found) {
  bool choice = false;
  for (size_t i = 0; i < found->other_count; i++) choice = choice || as_good(&found->best, &found->others[i]);
  if (choice) found->best.standing = MEND_CHOICE;
}

static bool has_advice(const struct finding_search *s) {
  const struct rule_fixes *fix = s->finding->fix ? s->finding->fix : s->base->review->rules[s->finding->rule].fix;
  return fix && fix->count == 0;
}

static struct mend not_enough(struct finding_search *s, const struct short_of *best) {
  struct changes changes = changes_at(s, best->candidate, best->found.best);
  struct mend mend = {.standing = MEND_NOT_ENOUGH, .changes = changes.list, .count = changes.count, .price = NAN};
  mend.reached = s->finding->comparisons[s->finding->judged];
  mend.reached.value = best->found.at_best.value;
  mend.reached.limit = best->found.at_best.limit;
  mend.reached.margin = best->found.at_best.margin;
  return mend;
}

static bool is_judged(const struct finding_search *s, int slot) {
  const struct comparison *judged = &s->finding->comparisons[s->finding->judged];
  return judged->entity >= 0 && judged->row != ROW_COUNT &&
         slot == store_slot(s->base->store, judged->entity, judged->row);
}

// A rule that gives advice knows that no change of a given settles it.
static void settle_without(struct finding_search *s, struct mend_finding *found) {
  found->best = (struct mend){.standing = MEND_ADVICE, .price = NAN};
  if (s->finding->sort != OUTCOME_FLAGGED) return;
  int measured = candidate_measured_slot(s->m, s->base, s->finding);
  if (s->short_count && !has_advice(s) && !(measured >= 0 && is_judged(s, measured))) {
    found->best = not_enough(s, &s->shorts[0]);
  } else if (measured >= 0) {
    found->best.standing = MEND_MEASURE;
    found->best.measured = measured;
  }
}

// Changes other than in what is kept already: the same given taken as far is the same fix.
static bool is_new(const struct mend_finding *found, const struct mend *mend) {
  for (size_t i = 0; i <= found->other_count; i++) {
    const struct mend *other = i ? &found->others[i - 1] : &found->best;
    if (same_given(mend, other) && catalogue_row(mend->changes[0].row)->sort != SORT_CHOICE) return false;
  }
  return true;
}

// The best may stand where the file cannot be rewritten, and another one not.
static void prefer_proven(struct mend_finding *found) {
  for (size_t i = 0; i < found->other_count && found->best.standing == MEND_BY_HAND; i++) {
    if (found->others[i].standing != MEND_PROVEN) continue;
    struct mend by_hand = found->best;
    found->best = found->others[i];
    found->others[i] = by_hand;
  }
}

void mend_find(struct mending *m, const struct mend_base *base, struct mend_finding *found) {
  struct finding_search *s = arena_alloc(m->arena, sizeof *s);
  struct text name = text_in(m->arena);
  store_describe_entity(&name, base->store, found->finding->entity);
  m->entity = text_end(&name);
  m->trials = 0;
  *s = (struct finding_search){.m = m, .base = base, .finding = found->finding};
  if (found->finding->judged >= 0) try_candidates(s);
  if (base->with.count == 0 && s->count && s->kept[0].mend.standing != MEND_PROVEN) repair(s);
  found->trials = m->trials;
  if (s->count == 0) {
    settle_without(s, found);
    return;
  }
  found->best = s->kept[0].mend;
  if (base->with.count == 0) mend_prove(m, base, s->kept[0].answers, &found->best);
  bool room_for_others = m->work < MOST_WORK / 2;
  for (size_t i = 1; room_for_others && i < s->count && found->other_count < MEND_OTHERS; i++) {
    struct mend other = s->kept[i].mend;
    if (other.standing > s->kept[0].mend.standing || !is_new(found, &other)) continue;
    if (base->with.count == 0) mend_prove(m, base, s->kept[i].answers, &other);
    found->others[found->other_count++] = other;
  }
  prefer_proven(found);
  ask_for_choice(found);
}
