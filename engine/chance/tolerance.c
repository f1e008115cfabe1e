// SPDX-License-Identifier: MIT
#include "chance/tolerance.h"

#include <string.h>

struct tolerance *tolerance_in(struct rulebook *book, struct review *review, size_t samples, uint64_t seed) {
  struct tolerance *t = arena_alloc(review->arena, sizeof *t);
  *t = (struct tolerance){.sampling = sampling_in(book, review, seed), .samples = samples};
  t->first_contradicting = UINT64_MAX;
  t->tallies = arena_array(review->arena, review->outcome_count + 1, sizeof *t->tallies);
  t->asked = arena_array(review->arena, review->outcome_count + 1, sizeof *t->asked);
  t->drives = arena_array(review->arena, TOLERANCE_DRIVEN, sizeof *t->drives);
  return t;
}

// ---- how sure ----

enum sureness tally_sureness(const struct tally *tally, uint32_t of) {
  if (of > 0 && tally->flagged >= FAILING_SHARE * of) return SURE_FAILING;
  uint32_t good = of - tally->flagged - tally->open;
  return share_band(good, of).low >= FIRM_SHARE ? SURE_FIRM : SURE_FRAGILE;
}

enum sureness tolerance_sureness(const struct tolerance *tolerance, size_t outcome) {
  enum outcome_sort sort = tolerance->sampling->review->outcomes[outcome].sort;
  if (tolerance->sampling->review->outcomes[outcome].counting != COUNTS) return SURE_APART;
  bool open = sort == OUTCOME_UNANSWERED || sort == OUTCOME_BROKEN;
  const struct tally *tally = &tolerance->tallies[outcome];
  if (open && tally->flagged == 0) return SURE_OPEN;
  return tally_sureness(tally, tolerance->drawn - tolerance->contradicting);
}

bool tolerance_grave(const struct tolerance *tolerance, size_t outcome) {
  const struct review *review = tolerance->sampling->review;
  return review->rules[review->outcomes[outcome].rule].life_safety || tolerance->tallies[outcome].held > 0;
}

struct tolerance_counts tolerance_count(const struct tolerance *tolerance) {
  struct tolerance_counts counts = {0};
  const struct review *review = tolerance->sampling->review;
  for (size_t o = 0; o < review->outcome_count; o++) {
    enum sureness sure = tolerance_sureness(tolerance, o);
    counts.sure[sure]++;
    counts.grave += (sure == SURE_FAILING || sure == SURE_FRAGILE) && tolerance_grave(tolerance, o);
    counts.held_open += sure == SURE_OPEN && review->outcomes[o].counts_as_held;
  }
  return counts;
}

// ---- which are asked ----

bool tolerance_settled(const struct tolerance *tolerance, size_t outcome) {
  uint32_t of = tolerance->drawn - tolerance->contradicting;
  return of > 0 && tolerance->tallies[outcome].flagged >= FIRM_SHARE * of;
}

// What could stop the dig, then what has to be revised, then advice; what nothing would change comes last.
static int rank_of(const struct tolerance *t, size_t outcome) {
  const struct review *review = t->sampling->review;
  if (tolerance_settled(t, outcome)) return 4;
  if (tolerance_grave(t, outcome)) return tolerance_sureness(t, outcome) == SURE_FAILING ? 0 : 1;
  return review->rules[review->outcomes[outcome].rule].severity == SEVERITY_ADVISE ? 3 : 2;
}

// Where so few draws go together that nothing can be called firm, there is nothing to say of these one by one.
static bool never_amiss(const struct tally *tally) { return tally->flagged == 0 && tally->open == 0; }

void tolerance_ask(struct tolerance *t) {
  t->asked_count = t->unsettled_count = 0;
  for (int rank = 0; rank <= 4; rank++) {
    for (size_t o = 0; o < t->sampling->review->outcome_count; o++) {
      enum sureness sure = tolerance_sureness(t, o);
      bool asks = sure == SURE_FAILING || (sure == SURE_FRAGILE && !never_amiss(&t->tallies[o]));
      if (!asks || rank_of(t, o) != rank) continue;
      t->asked[t->asked_count++] = o;
      t->unsettled_count += rank < 4;
    }
  }
}

const struct drive *tolerance_drive(const struct tolerance *tolerance, size_t outcome) {
  for (size_t i = 0; i < tolerance->drive_count; i++) {
    if (tolerance->drives[i].outcome == outcome) return &tolerance->drives[i];
  }
  return NULL;
}

// ---- the work ----

// What the first of them says is told, whoever drew it.
static void keep_contradiction(struct tolerance *t, uint64_t n, const char *said) {
  if (n >= t->first_contradicting) return;
  t->first_contradicting = n;
  memcpy(t->contradiction, said, SAID_MOST);
}

static void draw_share(struct tolerance *t, unsigned share, unsigned of) {
  for (uint64_t n = share; n < t->samples; n += of) {
    t->drawn++;
    if (sampling_count(t->sampling, n, t->tallies)) continue;
    t->contradicting++;
    keep_contradiction(t, n, t->sampling->contradiction);
  }
}

static void drive_share(struct tolerance *t, unsigned share, unsigned of) {
  tolerance_ask(t);
  for (size_t i = share; i < t->unsettled_count && i < TOLERANCE_DRIVEN; i += of)
    drive_find(t->sampling, t->asked[i], t->samples, &t->drives[t->drive_count++]);
}

void tolerance_work(struct tolerance *tolerance, enum tolerance_step step, unsigned share, unsigned of) {
  if (step == TOLERANCE_DRAWS) draw_share(tolerance, share, of);
  if (step == TOLERANCE_DRIVES) drive_share(tolerance, share, of);
}

// ---- from one process to another, of the same program ----

struct packed {
  uint64_t step, outcomes, samples, seed, count, first_contradicting;
  uint32_t drawn, contradicting;
  char contradiction[SAID_MOST];
};

static struct packed head_of(const struct tolerance *t, enum tolerance_step step) {
  struct packed head = {.step = (uint64_t)step,
                        .outcomes = t->sampling->review->outcome_count,
                        .samples = t->samples,
                        .seed = t->sampling->seed};
  head.count = step == TOLERANCE_DRAWS ? head.outcomes : t->drive_count;
  head.drawn = step == TOLERANCE_DRAWS ? t->drawn : 0;
  head.contradicting = step == TOLERANCE_DRAWS ? t->contradicting : 0;
  head.first_contradicting = t->first_contradicting;
  memcpy(head.contradiction, t->contradiction, SAID_MOST);
  return head;
}

void tolerance_pack(const struct tolerance *tolerance, enum tolerance_step step, struct text *bytes) {
  struct packed head = head_of(tolerance, step);
  bool draws = step == TOLERANCE_DRAWS;
  text_add_bytes(bytes, (const char *)&head, sizeof head);
  const char *from = draws ? (const char *)tolerance->tallies : (const char *)tolerance->drives;
  text_add_bytes(bytes, from, head.count * (draws ? sizeof *tolerance->tallies : sizeof *tolerance->drives));
}

static void add_tallies(struct tolerance *t, const char *bytes) {
  for (size_t o = 0; o < t->sampling->review->outcome_count; o++) {
    struct tally more;
    memcpy(&more, bytes + o * sizeof more, sizeof more);
    t->tallies[o].clear += more.clear;
    t->tallies[o].flagged += more.flagged;
    t->tallies[o].held += more.held;
    t->tallies[o].open += more.open;
  }
}

static bool drive_is_sound(const struct tolerance *t, const struct drive *drive) {
  if (drive->outcome >= t->sampling->review->outcome_count) return false;
  if (drive->driver_count > DRIVE_SINGLES + 1 || drive->better_count > DRIVE_TRIED) return false;
  int32_t values = (int32_t)t->sampling->spread->count;
  for (uint32_t i = 0; i < drive->driver_count; i++) {
    if (drive->drivers[i].value < -1 || drive->drivers[i].value >= values) return false;
  }
  for (uint32_t i = 0; i < drive->better_count; i++) {
    if (drive->better[i].value < 0 || drive->better[i].value >= values) return false;
  }
  return true;
}

static bool add_drives(struct tolerance *t, const char *bytes, uint64_t count) {
  for (uint64_t i = 0; i < count; i++) {
    struct drive drive;
    memcpy(&drive, bytes + i * sizeof drive, sizeof drive);
    if (t->drive_count >= TOLERANCE_DRIVEN || !drive_is_sound(t, &drive)) return false;
    t->drives[t->drive_count++] = drive;
  }
  return true;
}

bool tolerance_add(struct tolerance *tolerance, enum tolerance_step step, const char *bytes, size_t length) {
  struct packed head, own = head_of(tolerance, step);
  size_t each = step == TOLERANCE_DRAWS ? sizeof *tolerance->tallies : sizeof *tolerance->drives;
  if (length < sizeof head) return false;
  memcpy(&head, bytes, sizeof head);
  bool ours =
      head.step == own.step && head.outcomes == own.outcomes && head.samples == own.samples && head.seed == own.seed;
  if (!ours || head.count > own.outcomes || length != sizeof head + head.count * each) return false;
  if (step == TOLERANCE_DRIVES) return add_drives(tolerance, bytes + sizeof head, head.count);
  if (head.count != own.outcomes) return false;
  tolerance->drawn += head.drawn;
  tolerance->contradicting += head.contradicting;
  head.contradiction[SAID_MOST - 1] = '\0';
  if (head.contradicting > 0) keep_contradiction(tolerance, head.first_contradicting, head.contradiction);
  add_tallies(tolerance, bytes + sizeof head);
  return true;
}
