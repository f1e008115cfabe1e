// SPDX-License-Identifier: MIT
// Trials against the whole: for the demonstration designs and some hundred changes each, every quantity and every
// outcome inside a trial is what a design with that change gives when it is evaluated from nothing, and after the trial
// the base is what it was. The cold evaluation is the check: it knows nothing of trials.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

#include <math.h>

#include "designs/judged.h"
#include "quantities/functions.h"
#include "rulebook/rejudge.h"
#include "units/read.h"

#if defined(__SANITIZE_ADDRESS__)
enum { SINGLES = 12, DOUBLES = 8 };
#else
enum { SINGLES = 150, DOUBLES = 100 };
#endif

// What a solve from the base's answer may differ by from one from rest, as a share; of 1 m for a head that is about
// none.
#define SOLVED_ALIKE 1e-9

static const char *const designs[] = {"projects/stone-court.lua", "projects/slate-rill.lua", "projects/crew-lesson.lua",
                                      "tests/designs/porch.lua"};

// ---- One design, judged ----

struct side {
  struct arena *arena;
  struct problems problems;
  struct store *store;
  struct evaluation *ev;
  struct review review;
};

static struct side *judge(struct arena *arena, struct store *store, struct rulebook *book) {
  struct side *side = arena_alloc(arena, sizeof *side);
  *side = (struct side){.arena = arena, .problems = problems_in(arena), .store = store};
  side->review = (struct review){.arena = arena};
  side->ev = evaluation_in(arena, store, &side->problems);
  rulebook_judge(book, side->ev, &side->review, (struct rulebook_watch){0});
  return side;
}

static void work_out_all(struct evaluation *ev) {
  const struct store *store = evaluation_design(ev);
  for (size_t s = 0; s < store->slot_count; s++) {
    int entity;
    enum row_id row = store_row_of_slot(store, (int)s, &entity);
    evaluation_condition(ev, entity, row);
  }
}

// ---- Changes ----

static uint64_t any(uint64_t *seed) {  // Marsaglia's xorshift64, from memory
  *seed ^= *seed << 13;
  *seed ^= *seed >> 7;
  return *seed ^= *seed << 17;
}

static double between(uint64_t *seed, double low, double high) {
  return low + (high - low) * ((double)(any(seed) >> 11) / 9007199254740992.0);
}

static bool bound(const char *text, enum dimension dimension, double *value) {
  struct arena *arena = arena_new();
  struct text wrong = text_in(arena), right = text_in(arena);
  struct reading reading;
  bool read = text && unit_read(text, strlen(text), dimension, &reading, &wrong, &right);
  if (read) *value = reading.value;
  arena_free(arena);
  return read;
}

static double another_number(uint64_t *seed, const struct row *row, const struct slot *slot) {
  double least = -INFINITY, most = INFINITY, value;
  if (!bound(row->least, row->dimension, &least)) bound(row->above, row->dimension, &least);
  bound(row->most, row->dimension, &most);
  double was = slot->condition == CONDITION_UNSET || slot->value == 0 ? 0.3 : slot->value;
  value = was * between(seed, 0.5, 1.6);
  if (row->dimension == DIM_ELEVATION) value = slot->value + between(seed, -0.3, 0.3);
  if (row->whole) value = round(value + 0.6);
  return fmin(fmax(value, isfinite(least) ? least + 1e-6 : value), most);
}

static double another_word(uint64_t *seed, enum word_set set) {
  for (;;) {
    enum word word = (enum word)(any(seed) % WORD_COUNT);
    if (catalogue_word(word)->set == set) return (double)word;
  }
}

// The units a report is in are no part of what is worked out.
static bool can_change(const struct store *store, int slot, const struct row **row) {
  int entity;
  enum row_id id = store_row_of_slot(store, slot, &entity);
  *row = catalogue_row(id);
  return ((*row)->sort == SORT_NUMBER || (*row)->sort == SORT_CHOICE) && id != ROW_project_units;
}

static struct trial_change any_change(uint64_t *seed, const struct store *store) {
  const struct row *row;
  for (;;) {
    int slot = (int)(any(seed) % store->slot_count);
    const struct slot *at = &store->slots[slot];
    // Most of what nobody wrote is of no consequence; one in eight will do.
    if (!can_change(store, slot, &row) || (at->condition == CONDITION_UNSET && any(seed) % 8)) continue;
    double value = row->sort == SORT_CHOICE ? another_word(seed, row->words) : another_number(seed, row, at);
    return (struct trial_change){slot, value};
  }
}

static struct store *changed(struct arena *arena, const struct store *store, const struct trial_change *changes,
                             size_t count) {
  struct store *copy = arena_alloc(arena, sizeof *copy);
  *copy = *store;
  copy->slots = arena_array(arena, store->slot_count, sizeof *copy->slots);
  memcpy(copy->slots, store->slots, store->slot_count * sizeof *copy->slots);
  for (size_t i = 0; i < count; i++) {
    copy->slots[changes[i].slot].value = changes[i].value;
    copy->slots[changes[i].slot].condition = CONDITION_GIVEN;
  }
  return copy;
}

// ---- Alike ----

static const char *changes_in_words(struct arena *arena, const struct store *store, const struct trial_change *changes,
                                    size_t count) {
  struct text text = text_in(arena);
  for (size_t i = 0; i < count; i++) {
    int entity;
    enum row_id row = store_row_of_slot(store, changes[i].slot, &entity);
    store_describe(&text, store, entity, row);
    text_printf(&text, " (slot %d) ", changes[i].slot);
  }
  return text_end(&text);
}

struct comparing {
  struct side *base, *cold;
  const char *changes;
};

static bool same_number(double a, double b, double scale) {
  return memcmp(&a, &b, sizeof a) == 0 || fabs(a - b) <= SOLVED_ALIKE * fmax(fmax(fabs(a), fabs(b)), scale);
}

static void check_slot(const struct comparing *with, int slot) {
  int entity;
  enum row_id row = store_row_of_slot(with->base->store, slot, &entity);
  struct evaluation *trial = with->base->ev, *cold = with->cold->ev;
  struct text name = text_in(with->cold->arena);
  store_describe(&name, with->base->store, entity, row);
  if (evaluation_condition(trial, entity, row) != evaluation_condition(cold, entity, row)) {
    fail_msg("%s: condition %d in the trial, %d cold; with %s", text_end(&name),
             (int)evaluation_condition(trial, entity, row), (int)evaluation_condition(cold, entity, row),
             with->changes);
  }
  if (evaluation_in_doubt(trial, entity, row) != evaluation_in_doubt(cold, entity, row))
    fail_msg("%s: another doubt; with %s", text_end(&name), with->changes);
  if (catalogue_row(row)->sort == SORT_BUNDLE) return;
  double scale = evaluation_scale(cold, entity, row), scale_in_trial = evaluation_scale(trial, entity, row);
  double least = catalogue_row(row)->dimension == DIM_LENGTH ? 1 : 0;
  double in_trial = evaluation_number(trial, entity, row), in_cold = evaluation_number(cold, entity, row);
  if (!same_number(in_trial, in_cold, fmax(scale, least)) || !same_number(scale_in_trial, scale, least)) {
    fail_msg("%s: %.17g in the trial, %.17g cold; scales %.17g, %.17g; with %s", text_end(&name), in_trial, in_cold,
             scale_in_trial, scale, with->changes);
  }
}

static bool same_text(const char *a, const char *b) { return a == b || (a && b && strcmp(a, b) == 0); }

static bool same_slots(const int *a, size_t a_count, const int *b, size_t b_count) {
  return a_count == b_count && (a_count == 0 || memcmp(a, b, a_count * sizeof *a) == 0);
}

static bool same_comparison(const struct comparison *a, const struct comparison *b) {
  double scale = fmax(fabs(a->value), fabs(a->limit));
  return a->sense == b->sense && a->satisfied == b->satisfied && a->entity == b->entity && a->row == b->row &&
         a->dimension == b->dimension && a->severity == b->severity && same_text(a->words, b->words) &&
         same_text(a->asked, b->asked) && same_number(a->value, b->value, 0) && same_number(a->limit, b->limit, 0) &&
         same_number(a->margin, b->margin, scale);
}

static const char *unlike(const struct outcome *a, const struct outcome *b) {
  if (a->rule != b->rule || a->entity != b->entity) return "of another thing";
  if (a->sort != b->sort) return "sort";
  if (a->severity != b->severity || a->counts_as_held != b->counts_as_held) return "severity";
  if (a->in_doubt != b->in_doubt) return "doubt";
  if (a->judged != b->judged || a->comparison_count != b->comparison_count) return "comparisons made";
  for (size_t i = 0; i < a->comparison_count; i++) {
    if (!same_comparison(&a->comparisons[i], &b->comparisons[i])) return "a comparison";
  }
  if (!same_slots(a->reads, a->read_count, b->reads, b->read_count)) return "reads";
  if (!same_slots(a->roots, a->root_count, b->roots, b->root_count)) return "roots";
  if (!same_text(a->try_words, b->try_words)) return "fix in words";
  return same_text(a->because, b->because) ? NULL : "reason";
}

static void check_outcome(const struct comparing *with, struct rejudging *rejudging, size_t number) {
  struct outcome now;
  rejudge(rejudging, number, &now);
  const struct outcome *cold = &with->cold->review.outcomes[number];
  const char *differs = unlike(&now, cold);
  if (!differs) return;
  struct text name = text_in(with->cold->arena);
  store_describe_entity(&name, with->base->store, cold->entity);
  fail_msg("%s on %s: %s differs (%d in the trial, %d cold); with %s", with->base->review.rules[cold->rule].id,
           text_end(&name), differs, (int)now.sort, (int)cold->sort, with->changes);
}

// ---- What the base says, to the bit ----

static uint64_t hash(uint64_t so_far, const void *bytes, size_t length) {  // FNV-1a, from memory
  const unsigned char *at = bytes;
  for (size_t i = 0; i < length; i++) so_far = (so_far ^ at[i]) * 1099511628211u;
  return so_far;
}

#define HASH(so_far, value) hash(so_far, &(value), sizeof(value))

static uint64_t hash_of_slot(uint64_t so_far, struct evaluation *ev, int slot) {
  int entity;
  const int *reads;
  enum row_id row = store_row_of_slot(evaluation_design(ev), slot, &entity);
  const double numbers[] = {evaluation_number(ev, entity, row), evaluation_scale(ev, entity, row)};
  const int words[] = {(int)evaluation_condition(ev, entity, row), evaluation_in_doubt(ev, entity, row)};
  const void *kept[] = {evaluation_bundle(ev, entity, row), evaluation_because(ev, slot)};
  size_t count = evaluation_reads(ev, slot, &reads);
  so_far = HASH(HASH(HASH(so_far, numbers), words), kept);
  return hash(so_far, reads, count * sizeof *reads);
}

static uint64_t hash_of_outcome(uint64_t so_far, const struct outcome *it) {
  so_far = hash(HASH(so_far, it->sort), it->reads, it->read_count * sizeof *it->reads);
  so_far = hash(HASH(so_far, it->judged), it->roots, it->root_count * sizeof *it->roots);
  for (size_t i = 0; i < it->comparison_count; i++) so_far = HASH(so_far, it->comparisons[i].value);
  if (it->try_words) so_far = hash(so_far, it->try_words, strlen(it->try_words));
  return it->because ? hash(so_far, it->because, strlen(it->because)) : so_far;
}

static uint64_t hash_of(struct side *side) {
  uint64_t so_far = 14695981039346656037u;
  for (size_t s = 0; s < side->store->slot_count; s++) so_far = hash_of_slot(so_far, side->ev, (int)s);
  for (size_t i = 0; i < side->review.outcome_count; i++) so_far = hash_of_outcome(so_far, &side->review.outcomes[i]);
  return HASH(so_far, side->problems.count);
}

// ---- The trials ----

static void check_all(const struct comparing *with, struct rejudging *rejudging, bool slots_first) {
  for (int part = 0; part < 2; part++) {
    bool slots = (part == 0) == slots_first;
    for (size_t s = 0; slots && s < with->base->store->slot_count; s++) check_slot(with, (int)s);
    for (size_t i = 0; !slots && i < with->base->review.outcome_count; i++) check_outcome(with, rejudging, i);
  }
}

static void check_trial(struct side *base, struct rulebook *book, struct rejudging *rejudging,
                        const struct trial_change *changes, size_t count) {
  struct arena *arena = arena_new();
  struct side *cold = judge(arena, changed(arena, base->store, changes, count), book);
  struct comparing with = {base, cold, changes_in_words(arena, base->store, changes, count)};
  work_out_all(cold->ev);
  assert_int_equal(cold->review.outcome_count, base->review.outcome_count);
  trial_begin(base->ev, changes, count);
  check_all(&with, rejudging, changes[0].slot % 2);
  trial_end(base->ev);
  arena_free(arena);
}

static void check_trials(struct side *base, struct rulebook *book, size_t at_once, int times, uint64_t seed) {
  struct rejudging *rejudging = rejudging_in(book, &base->review);
  struct trial_change changes[2];
  uint64_t before = hash_of(base);
  for (int i = 0; i < times; i++) {
    for (size_t k = 0; k < at_once; k++) changes[k] = any_change(&seed, base->store);
    check_trial(base, book, rejudging, changes, at_once);
    if (hash_of(base) != before) {
      fail_msg("after the trial the base is another: %s", changes_in_words(base->arena, base->store, changes, at_once));
    }
  }
}

static void a_trial_is_what_a_cold_evaluation_gives(void **state) {
  (void)state;
  for (size_t i = 0; i < sizeof designs / sizeof *designs; i++) {
    struct judged judged = judged_read(designs[i]);
    struct rulebook *book = judged_rules(&judged);
    struct side *base = judge(judged.arena, judged.store, book);
    work_out_all(base->ev);
    check_trials(base, book, 1, SINGLES, 88172645463325252u);
    check_trials(base, book, 2, DOUBLES, 1181783497276652981u);
    judged_free(&judged);
  }
}

// What the base never read is worked out within the trial and forgotten with it.
static void what_the_base_never_read_is_dropped(void **state) {
  (void)state;
  struct judged judged = judged_read(designs[0]);
  struct rulebook *book = judged_rules(&judged);
  struct side *base = judge(judged.arena, judged.store, book);
  struct rejudging *rejudging = rejudging_in(book, &base->review);
  uint64_t seed = 4101842887655102017u;
  for (int i = 0; i < SINGLES / 4; i++) {
    struct trial_change change = any_change(&seed, base->store);
    check_trial(base, book, rejudging, &change, 1);
  }
  struct side *again = judge(arena_new(), judged.store, book);
  struct comparing with = {base, again, "nothing"};
  work_out_all(again->ev);
  for (size_t s = 0; s < base->store->slot_count; s++) check_slot(&with, (int)s);
  arena_free(again->arena);
  judged_free(&judged);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_trial_is_what_a_cold_evaluation_gives),
      cmocka_unit_test(what_the_base_never_read_is_dropped),
  };
  return cmocka_run_group_tests_name("designs/trial", tests, NULL, NULL);
}
