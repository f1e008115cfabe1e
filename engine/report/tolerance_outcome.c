// SPDX-License-Identifier: MIT
// One outcome that is not firm: how often it is flagged, what drives it, what would settle it.
#include <math.h>

#include "base/number.h"
#include "report/tolerance_inside.h"
#include "units/write.h"

enum { SHOWN = 3 };

// --- shares and widths in words

// Of 100 draws where that says enough, of 1,000 for small shares and those near all, else as counted.
void tolerance_share(struct text *words, uint32_t count, uint32_t of) {
  double share = of ? (double)count / of : 0;
  if (count == 0 || count == of) {
    text_add(words, count == 0 ? "in no draw" : "in every draw");
    return;
  }
  double far = fmin(share, 1 - share);
  uint32_t round = far >= 0.1 ? 100 : far >= 0.005 ? 1000 : of;
  if (round > of) round = of;
  text_add(words, "in ");
  number_write(words, share * round, 0, true);
  text_add(words, " of ");
  number_write(words, round, 0, true);
  text_add(words, " draws");
}

static void write_percent(struct text *words, double share) {
  double percent = 100 * share;
  number_write(words, percent, percent < 10 || percent > 90 ? 1 : 0, false);
}

static void write_band(struct text *words, uint32_t count, uint32_t of) {
  struct share_band band = share_band(count, of);
  text_add(words, " (");
  write_percent(words, band.low);
  text_add(words, " to ");
  write_percent(words, band.high);
  text_add(words, " %)");
}

void tolerance_half(struct text *words, const struct toleranced *r, const struct spread_value *value) {
  const struct spread *spread = r->tolerance->sampling->spread;
  enum dimension dimension = catalogue_row(value->row)->dimension;
  bool length = dimension == DIM_LENGTH || dimension == DIM_ELEVATION || value->row == ROW_basin_outline;
  text_add(words, "+/- ");
  if (length && !value->is_share) {
    unit_write(words, value->half, DIM_LENGTH, (struct write_style){.system = r->report.wording.units, .finer = 1});
    return;
  }
  const struct spread_slot *slot = &spread->slots[value->first];
  bool whole = value->is_share || value->count == 0;
  number_write_short(words, 100 * (whole ? value->half : slot->by / fabs(slot->nominal)), 1, false);
  text_add(words, " %");
}

// --- what drives it

static void write_percents(struct text *words, const struct sensitivity *share) {
  double first = fmin(fmax(share->first, 0), 1), total = fmax(first, fmin(share->total, 1));
  text_add_char(words, ' ');
  number_write(words, 100 * first, 0, false);
  text_add(words, " %");
  if (total - first < 0.02 || total - first < share->first_band + share->total_band) return;  // no more than the noise
  text_add(words, ", with others ");
  number_write(words, 100 * total, 0, false);
  text_add(words, " %");
}

// `boulder "tall stone".height (+/- 10 % by eye) 33 %, with others 38 %`; the thing is named once.
static void write_driver(struct text *words, const struct toleranced *r, const struct driver *driver, int *named) {
  const struct spread_value *value = &r->tolerance->sampling->spread->values[driver->value];
  if (*named == value->entity)
    text_printf(words, "its %s (", catalogue_row(value->row)->name);
  else
    text_printf(words, "%s (", value->name);
  *named = value->entity;
  tolerance_half(words, r, value);
  text_printf(words, "%s%s)", value->stated ? " as stated" : " by ", value->stated ? "" : taking_way(value->way)->name);
  write_percents(words, &driver->share);
}

// Nothing that has a part of less than one in a hundred.
static void write_drivers(struct toleranced *r, const struct drive *drive) {
  struct text words = report_words(&r->report);
  int named = -1;
  for (uint32_t i = 0; i + 1 < drive->driver_count && i < SHOWN; i++) {
    if (i > 0 && drive->drivers[i].share.total < 0.01) break;
    if (i > 0) text_add(&words, "; ");
    write_driver(&words, r, &drive->drivers[i], &named);
  }
  if (words.length == 0) return;
  text_add(&words, drive->by_margin ? "." : " (of whether it is flagged).");
  page_labelled(&r->report.page, BODY, INDENT, PAINT_PLAIN, "Driven by ", text_end(&words));
}

// --- what would settle it

struct settling {
  const struct better *by;
  bool half, firm;  // half of its width is enough; then it is firm, and not surely flagged
};

static bool settles(const struct tally *tally, uint32_t of, bool *firm) {
  *firm = tally_sureness(tally, of) == SURE_FIRM;
  return *firm || share_band(tally->flagged, of).low >= FIRM_SHARE;
}

// The first that is enough at half of its width, else the first that is enough when it is known exactly.
static struct settling find_settling(const struct drive *drive) {
  struct settling found = {0};
  for (uint32_t i = 0; i < drive->better_count && !found.by; i++) {
    const struct better *better = &drive->better[i];
    if (settles(&better->half, better->half_of, &found.firm)) found = (struct settling){better, true, found.firm};
  }
  for (uint32_t i = 0; i < drive->better_count && !found.by; i++) {
    const struct better *better = &drive->better[i];
    if (settles(&better->exact, better->exact_of, &found.firm)) found = (struct settling){better, false, found.firm};
  }
  return found;
}

static void write_settled(struct toleranced *r, const struct settling *by) {
  const struct spread_value *value = &r->tolerance->sampling->spread->values[by->by->value];
  const struct tally *tally = by->half ? &by->by->half : &by->by->exact;
  struct text words = report_words(&r->report);
  text_printf(&words, "%s: %s, it is flagged ", value->name,
              by->half ? "known twice as well" : "known exactly, and as the design has it");
  tolerance_share(&words, tally->flagged, by->half ? by->by->half_of : by->by->exact_of);
  if (!by->firm) text_add(&words, ": then the drawing is at fault and not the tape");
  text_add_char(&words, '.');
  page_labelled(&r->report.page, BODY, INDENT, PAINT_BOLD, "Measure this better: ", text_end(&words));
}

static const struct better *best_of(const struct drive *drive) {
  const struct better *best = &drive->better[0];
  for (uint32_t i = 1; i < drive->better_count; i++) {
    const struct better *other = &drive->better[i];
    double had = (double)best->exact.flagged / fmax(1, best->exact_of);
    if ((double)other->exact.flagged / fmax(1, other->exact_of) < had) best = other;
  }
  return best;
}

static void write_unsettled(struct toleranced *r, const struct drive *drive) {
  const struct better *best = best_of(drive);
  struct text words = report_words(&r->report);
  if (best->exact.flagged == 0) return;
  text_printf(&words, "Measuring one of them better does not settle it: with %s exact it is still flagged ",
              r->tolerance->sampling->spread->values[best->value].name);
  tolerance_share(&words, best->exact.flagged, best->exact_of);
  text_add(&words, ". Draw it with more to spare.");
  page_wrap(&r->report.page, BODY, INDENT, text_end(&words));
}

static void write_better(struct toleranced *r, const struct drive *drive) {
  if (drive->better_count == 0) return;
  struct settling by = find_settling(drive);
  if (by.by)
    write_settled(r, &by);
  else if (r->report.review->outcomes[drive->outcome].sort != OUTCOME_FLAGGED)  // else it is the drawing, as it says
    write_unsettled(r, drive);
}

// --- the whole of it

static const struct {
  const char *label;
  enum paint paint;
} severities[SEVERITY_COUNT] = {
    [SEVERITY_ADVISE] = {"ADVISE  ", PAINT_ADVISE},
    [SEVERITY_REVISE] = {"REVISE  ", PAINT_REVISE},
    [SEVERITY_HOLD] = {"HOLD  ", PAINT_HOLD},
};

static void write_as_drawn(struct toleranced *r, const struct outcome *outcome) {
  struct text words = report_words(&r->report);
  word_entity(&words, &r->report.wording, outcome->entity);
  text_add(&words, outcome->sort == OUTCOME_FLAGGED ? ", as drawn and not met: " : ", as drawn: ");
  if (outcome->sort == OUTCOME_CLEAR)
    word_outcome_short(&words, &r->report.wording, outcome);
  else if (outcome->sort == OUTCOME_NOT_APPLICABLE)
    text_add(&words, "the rule does not apply");
  else
    word_outcome(&words, &r->report.wording, outcome);
  page_wrap(&r->report.page, INDENT, INDENT, text_end(&words));
}

static void write_how_often(struct toleranced *r, struct text *words, const struct tally *tally) {
  uint32_t of = r->tolerance->drawn - r->tolerance->contradicting;
  text_add(words, "flagged ");
  tolerance_share(words, tally->flagged, of);
  if (tally->flagged < of) write_band(words, tally->flagged, of);
  if (tally->held > 0 && tally->held < tally->flagged) {
    text_add(words, ", as a hold ");
    tolerance_share(words, tally->held, of);
  }
  if (tally->open > 0) {
    text_add(words, "; without an answer ");
    tolerance_share(words, tally->open, of);
  }
}

static enum severity severity_of(const struct toleranced *r, size_t number) {
  const struct outcome *outcome = &r->report.review->outcomes[number];
  if (r->tolerance->tallies[number].held > 0) return SEVERITY_HOLD;
  if (outcome->sort == OUTCOME_FLAGGED) return outcome->severity;
  enum severity worst = r->report.review->rules[outcome->rule].severity;
  return worst == SEVERITY_HOLD && r->tolerance->tallies[number].flagged > 0 ? SEVERITY_REVISE : worst;
}

static void write_title(struct toleranced *r, size_t number) {
  const struct outcome *outcome = &r->report.review->outcomes[number];
  const struct rule_facts *rule = &r->report.review->rules[outcome->rule];
  if (r->last_rule == outcome->rule) return;
  r->last_rule = outcome->rule;
  enum severity severity = severity_of(r, number);
  struct text words = report_words(&r->report);
  text_printf(&words, "%s [%s]", rule->title, rule->id);
  page_labelled(&r->report.page, 0, BODY, severities[severity].paint, severities[severity].label, text_end(&words));
}

void tolerance_outcome(struct toleranced *r, size_t number) {
  const struct drive *drive = tolerance_drive(r->tolerance, number);
  struct text often = report_words(&r->report);
  write_title(r, number);
  write_as_drawn(r, &r->report.review->outcomes[number]);
  write_how_often(r, &often, &r->tolerance->tallies[number]);
  text_add_char(&often, '.');
  page_labelled(&r->report.page, BODY, INDENT, PAINT_PLAIN, "In draws: ", text_end(&often));
  if (!drive) return;
  write_drivers(r, drive);
  write_better(r, drive);
}

void tolerance_line(struct toleranced *r, size_t number) {
  const struct outcome *outcome = &r->report.review->outcomes[number];
  const struct drive *drive = tolerance_drive(r->tolerance, number);
  enum severity severity = severity_of(r, number);
  struct text words = report_words(&r->report);
  word_entity(&words, &r->report.wording, outcome->entity);
  text_printf(&words, " [%s]: ", r->report.review->rules[outcome->rule].id);
  write_how_often(r, &words, &r->tolerance->tallies[number]);
  if (drive && drive->driver_count > 1)
    text_printf(&words, "; driven by %s", r->tolerance->sampling->spread->values[drive->drivers[0].value].name);
  page_labelled(&r->report.page, INDENT, INDENT, severities[severity].paint, severities[severity].label,
                text_end(&words));
}
