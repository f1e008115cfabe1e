// SPDX-License-Identifier: MIT
#include "chance/drive.h"

#include <math.h>
#include <string.h>

// Twice the rows that sensitivity_of must have are the least that says anything.
enum { SCREEN_ROWS = 8, LEAST_ROWS = 4 * SENSITIVITY_BATCHES };

struct response {
  double margin;   // NaN: none to be had
  double flagged;  // 1, 0; NaN: the draw contradicts itself
};

struct study {
  struct sampling *sampling;
  size_t outcome;
  const struct outcome *base;
};

// ---- one draw ----

// The margin of the comparison that decided the outcome in the base, whichever decides it now.
static double margin_of(const struct study *study, const struct outcome *now) {
  int judged = study->base->judged;
  if (judged < 0 || (size_t)judged >= now->comparison_count) return NAN;
  const struct comparison *then = &study->base->comparisons[judged], *here = &now->comparisons[judged];
  bool bound = here->sense == SENSE_AT_LEAST || here->sense == SENSE_AT_MOST;
  bool same = bound && here->sense == then->sense && here->entity == then->entity && here->row == then->row;
  return same && isfinite(here->margin) ? here->margin : NAN;
}

static struct response respond(const struct study *study) {
  struct response response = {NAN, NAN};
  struct outcome now;
  if (!sampling_open(study->sampling)) return response;
  rejudge(study->sampling->rejudging, study->outcome, &now);
  response = (struct response){margin_of(study, &now), now.sort == OUTCOME_FLAGGED};
  sampling_close(study->sampling);
  return response;
}

// All values from one stream, but those that `others` marks from the other.
static void draw_row(const struct study *study, uint64_t row, enum stream stream, const unsigned char *others) {
  struct sampling *s = study->sampling;
  for (size_t v = 0; v < s->spread->count; v++)
    s->u[v] = sampling_u(s, others && others[v] ? STREAM_OTHERS : stream, v, row);
}

// ---- which to look at ----

struct candidate {
  size_t value;
  double effect;
};

static double apart(struct response a, struct response b) {
  double by_margin = a.margin - b.margin, by_flag = a.flagged - b.flagged;
  if (!isnan(by_margin)) return by_margin * by_margin;
  return isnan(by_flag) ? 0 : by_flag * by_flag;
}

// Jansen's total over a few rows of their own: enough to tell the large from the small.
static void screen(const struct study *study, struct candidate *candidates, size_t count) {
  size_t values = study->sampling->spread->count;
  unsigned char *others = arena_array(study->sampling->arena, values + 1, 1);
  for (uint64_t row = DRIVE_ROWS; row < DRIVE_ROWS + SCREEN_ROWS; row++) {
    draw_row(study, row, STREAM_DRAWS, NULL);
    struct response base = respond(study);
    for (size_t c = 0; c < count; c++) {
      others[candidates[c].value] = 1;
      draw_row(study, row, STREAM_DRAWS, others);
      others[candidates[c].value] = 0;
      candidates[c].effect += apart(base, respond(study));
    }
  }
}

static void largest_first(struct candidate *candidates, size_t count) {
  for (size_t i = 1; i < count; i++) {
    struct candidate one = candidates[i];
    size_t to = i;
    for (; to > 0 && candidates[to - 1].effect < one.effect; to--) candidates[to] = candidates[to - 1];
    candidates[to] = one;
  }
}

static size_t choose(const struct study *study, struct candidate *candidates) {
  size_t count = 0, values = study->sampling->spread->count;
  for (size_t v = 0; v < values; v++) {
    if (sampling_hangs(study->sampling, study->outcome, v)) candidates[count++] = (struct candidate){v, 0};
  }
  if (count <= DRIVE_SINGLES) return count;
  screen(study, candidates, count);
  largest_first(candidates, count);
  return DRIVE_SINGLES;
}

// ---- the rows ----

// Columns: A, B, then A with one of the chosen from B, then A with all that were not chosen from B.
enum { COLUMNS = DRIVE_SINGLES + 3 };

struct rows {
  struct response at[COLUMNS][DRIVE_ROWS];
  double a[DRIVE_ROWS], b[DRIVE_ROWS], ab[DRIVE_ROWS];
  size_t columns, count;  // rows where every draw goes together
  bool by_margin;
};

static void mark_others(unsigned char *others, size_t values, const struct candidate *chosen, size_t count,
                        size_t column) {
  memset(others, column == count, values);
  for (size_t c = 0; c < count; c++) others[chosen[c].value] = c == column;
}

static void draw_rows(const struct study *study, struct rows *rows, const struct candidate *chosen, size_t count) {
  size_t values = study->sampling->spread->count;
  unsigned char *others = arena_array(study->sampling->arena, values + 1, 1);
  rows->columns = count + 3;
  for (uint64_t row = 0; row < DRIVE_ROWS; row++) {
    bool whole = true;
    for (size_t column = 0; column < rows->columns && whole; column++) {
      if (column >= 2) mark_others(others, values, chosen, count, column - 2);
      draw_row(study, row, column == 1 ? STREAM_OTHERS : STREAM_DRAWS, column >= 2 ? others : NULL);
      rows->at[column][rows->count] = respond(study);
      whole = !isnan(rows->at[column][rows->count].flagged);
    }
    rows->count += whole;
  }
}

static bool has_margins(const struct rows *rows) {
  for (size_t column = 0; column < rows->columns; column++) {
    for (size_t i = 0; i < rows->count; i++) {
      if (isnan(rows->at[column][i].margin)) return false;
    }
  }
  return true;
}

static void take(const struct rows *rows, size_t column, double *to) {
  for (size_t i = 0; i < rows->count; i++)
    to[i] = rows->by_margin ? rows->at[column][i].margin : rows->at[column][i].flagged;
}

static void rank(struct drive *found) {
  for (uint32_t i = 1; i + 1 < found->driver_count; i++) {
    struct driver one = found->drivers[i];
    uint32_t to = i;
    for (; to > 0 && found->drivers[to - 1].share.total < one.share.total; to--)
      found->drivers[to] = found->drivers[to - 1];
    found->drivers[to] = one;
  }
}

static void find_shares(struct rows *rows, const struct candidate *chosen, size_t count, struct drive *found) {
  found->by_margin = rows->by_margin = has_margins(rows);
  if (rows->count < LEAST_ROWS) return;
  take(rows, 0, rows->a);
  take(rows, 1, rows->b);
  for (size_t c = 0; c <= count; c++) {
    struct driver driver = {.value = c < count ? (int32_t)chosen[c].value : -1};
    take(rows, c + 2, rows->ab);
    if (!sensitivity_of(rows->a, rows->b, rows->ab, rows->count, &driver.share)) return;
    found->drivers[found->driver_count++] = driver;
  }
  rank(found);
}

// ---- known better ----

static uint32_t try_with(const struct study *study, int32_t value, double width, size_t draws, struct tally *tally) {
  struct sampling *s = study->sampling;
  uint32_t of = 0;
  for (uint64_t n = 0; n < draws; n++) {
    struct outcome now;
    draw_row(study, n, STREAM_DRAWS, NULL);
    s->u[value] *= width;
    if (!sampling_open(s)) continue;
    rejudge(s->rejudging, study->outcome, &now);
    tally_add(tally, &now);
    of++;
    sampling_close(s);
  }
  return of;
}

// Nothing that has a part of less than a hundredth is worth another look.
static void try_better(const struct study *study, size_t samples, struct drive *found) {
  size_t draws = samples < DRIVE_DRAWS ? samples : DRIVE_DRAWS;
  for (uint32_t i = 0; i + 1 < found->driver_count && found->better_count < DRIVE_TRIED; i++) {
    if (!(found->drivers[i].share.total > 0.01)) return;
    struct better *better = &found->better[found->better_count++];
    better->value = found->drivers[i].value;
    better->exact_of = try_with(study, better->value, 0, draws, &better->exact);
    better->half_of = try_with(study, better->value, 0.5, draws, &better->half);
  }
}

// What is allocated here stays until the review ends: what trials keep from one to the next may come to lie behind it.
void drive_find(struct sampling *sampling, size_t outcome, size_t samples, struct drive *found) {
  struct study study = {sampling, outcome, &sampling->review->outcomes[outcome]};
  struct candidate *candidates = arena_array(sampling->arena, sampling->spread->count + 1, sizeof *candidates);
  struct rows *rows = arena_alloc(sampling->arena, sizeof *rows);
  *found = (struct drive){.outcome = (uint32_t)outcome};
  size_t chosen = choose(&study, candidates);
  draw_rows(&study, rows, candidates, chosen);
  find_shares(rows, candidates, chosen, found);
  try_better(&study, samples, found);
}
