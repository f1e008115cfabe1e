// SPDX-License-Identifier: MIT
#include "report/tolerance.h"

#include <math.h>
#include <string.h>

#include "report/tolerance_inside.h"
#include "units/write.h"

// --- the verdict

static void write_draws(struct toleranced *r) {
  const struct spread *spread = r->tolerance->sampling->spread;
  size_t stated = 0;
  for (size_t v = 0; v < spread->count; v++) stated += spread->values[v].stated;
  struct text words = report_words(&r->report);
  word_count(&words, r->tolerance->drawn, "draw", "draws");
  text_printf(&words, ", seed %llu; ", (unsigned long long)r->tolerance->sampling->seed);
  word_count(&words, spread->count, "value varies", "values vary");
  text_printf(&words, ", %zu of them as the design states", stated);
  page_labelled(&r->report.page, 0, 10, PAINT_PLAIN, "Chance    ", text_end(&words));
}

static void write_verdict(struct toleranced *r, const struct tolerance_counts *counts) {
  struct text words = report_words(&r->report);
  const struct tolerance *t = r->tolerance;
  bool sure = counts->grave == 0 && counts->held_open == 0 && t->contradicting * 100 <= t->drawn;
  size_t held = review_count(r->report.review).severities[SEVERITY_HOLD];
  if (held) text_printf(&words, "%zu held as drawn; ", held);
  if (counts->grave) {
    text_printf(&words, "%zu that can stop the dig", counts->grave);
    text_add(&words, counts->grave == 1 ? " is not firm; " : " are not firm; ");
  }
  if (counts->held_open) text_printf(&words, "%zu held without an answer; ", counts->held_open);
  text_printf(&words, "%zu failing, %zu fragile, %zu firm", counts->sure[SURE_FAILING], counts->sure[SURE_FRAGILE],
              counts->sure[SURE_FIRM]);
  size_t others = counts->sure[SURE_OPEN] - counts->held_open;
  if (others) text_printf(&words, "; %zu %sunanswered", others, counts->held_open ? "more " : "");
  if (counts->sure[SURE_APART]) text_printf(&words, "; %zu accepted or behind us", counts->sure[SURE_APART]);
  text_add_char(&words, '.');
  if (sure) text_add(&words, " This is not a permit to dig: see the cautions of forebay review.");
  page_blank(&r->report.page);
  page_clauses(&r->report.page, 0, sure ? PAINT_BOLD : PAINT_HOLD,
               held   ? "DO NOT DIG YET: "
               : sure ? "NOTHING THAT CAN STOP THE DIG IS IN DOUBT BY THE TOLERANCES: "
                      : "NOT SURE YET: ",
               text_end(&words));
}

static void write_contradicting(struct toleranced *r) {
  const struct tolerance *t = r->tolerance;
  if (t->contradicting == 0) return;
  struct text words = report_words(&r->report);
  text_add(&words, "the values contradict one another ");
  tolerance_share(&words, t->contradicting, t->drawn);
  text_printf(&words, "; in the first of them %s. Those draws count for nothing else.", t->contradiction);
  if (t->drawn - t->contradicting < TOLERANCE_FIRMING)
    text_add(&words, " The others are too few to call anything firm: settle that first.");
  page_blank(&r->report.page);
  page_labelled(&r->report.page, 0, 4, PAINT_REVISE, "CONTRADICTORY: ", text_end(&words));
}

// --- which outcomes

enum part { PART_FAILING, PART_FRAGILE, PART_ADVICE, PART_SETTLED, PARTS };
static const struct {
  const char *heading, *says;
  void (*write)(struct toleranced *r, size_t outcome);
} parts[PARTS] = {
    [PART_FAILING] = {"FAILING", "Flagged in half of the draws or more.", tolerance_outcome},
    [PART_FRAGILE] = {"FRAGILE", "Flagged in some draws, or without an answer in some.", tolerance_outcome},
    [PART_ADVICE] = {"ADVICE THAT IS NOT FIRM", NULL, tolerance_line},
    [PART_SETTLED] = {"NOT MET IN NEARLY EVERY DRAW", "No measuring changes that; forebay review says what would.",
                      tolerance_line},
};

static enum part part_of(const struct tolerance *t, size_t outcome) {
  const struct review *review = t->sampling->review;
  bool advice = review->rules[review->outcomes[outcome].rule].severity == SEVERITY_ADVISE;
  if (tolerance_settled(t, outcome)) return PART_SETTLED;
  if (advice && !tolerance_grave(t, outcome)) return PART_ADVICE;
  return tolerance_sureness(t, outcome) == SURE_FAILING ? PART_FAILING : PART_FRAGILE;
}

static void write_part(struct toleranced *r, enum part part) {
  const struct tolerance *t = r->tolerance;
  bool begun = false;
  r->last_rule = SIZE_MAX;
  for (size_t i = 0; i < t->asked_count; i++) {
    if (part_of(t, t->asked[i]) != part) continue;
    if (!begun) page_heading(&r->report.page, parts[part].heading);
    if (!begun && parts[part].says) page_wrap(&r->report.page, INDENT, 0, parts[part].says);
    begun = true;
    parts[part].write(r, t->asked[i]);
  }
}

static void write_not_driven(struct toleranced *r) {
  const struct tolerance *t = r->tolerance;
  if (t->unsettled_count <= t->drive_count) return;
  struct text words = report_words(&r->report);
  text_printf(&words, "What drives them was looked for in %zu of these, those that can stop the dig before the others.",
              t->drive_count);
  page_blank(&r->report.page);
  page_wrap(&r->report.page, 0, 0, text_end(&words));
}

// --- what varies

static void write_way(struct toleranced *r, enum way way) {
  const struct spread *spread = r->tolerance->sampling->spread;
  const struct spread_value *one = NULL;
  size_t count = 0;
  for (size_t v = 0; v < spread->count; v++) {
    if (spread->values[v].stated || spread->values[v].way != way) continue;
    // The widest: a tape reads short pieces finer.
    if (!one || spread->values[v].half > one->half) one = &spread->values[v];
    count++;
  }
  if (!one) return;
  struct text words = report_words(&r->report);
  word_count(&words, count, "value", "values");
  text_printf(&words, " by %s, ", taking_way(way)->name);
  tolerance_half(&words, r, one);
  if (way == WAY_TAPE) text_add(&words, ", of short lengths a tenth");
  page_wrap(&r->report.page, INDENT, INDENT, text_end(&words));
}

static void write_ways(struct toleranced *r) {
  page_heading(&r->report.page, "HOW FAR VALUES MAY BE OFF where the design does not say");
  for (enum way way = 0; way < WAY_COUNT; way++) write_way(r, way);
  page_wrap(&r->report.page, INDENT, 0,
            "The firm's own figures stand in `stock { tolerances = { ... } }`, a single value's behind it: "
            "\"18 in +/- 2 in\". Counts, words, prices, sizes that are bought and limits of record do not vary.");
}

static void write_reading(struct toleranced *r) {
  page_heading(&r->report.page, "HOW TO READ THIS");
  page_wrap(&r->report.page, INDENT, 0,
            "In each draw every value lies somewhere within its tolerance, each place as likely as another and none "
            "knowing of the others, and the rules judge again. Firm: surely (95 %) not flagged in 99 draws of 100. "
            "Failing: flagged in half of them or more. In brackets the band that counting leaves (95 %). Behind what "
            "drives it: the share of the margin's variance that it makes by itself, and together with others.");
  page_wrap(&r->report.page, INDENT, 0,
            "Tolerances say nothing of slips, of ground that is not as it looks, or of work that is not as drawn. "
            "Local codes and licensed practice decide.");
}

void report_tolerance(struct text *text, const struct tolerance *tolerance, const struct report_about *about,
                      struct report_style style) {
  const struct review *review = tolerance->sampling->review;
  struct toleranced r = {{page_in(text->arena, style.width), {review->evaluation, style.units}, review, about, false},
                         tolerance,
                         SIZE_MAX};
  struct tolerance_counts counts = tolerance_count(tolerance);
  report_head(&r.report);
  write_draws(&r);
  write_verdict(&r, &counts);
  write_contradicting(&r);
  for (enum part part = 0; part < PARTS; part++) write_part(&r, part);
  write_not_driven(&r);
  write_ways(&r);
  write_reading(&r);
  report_foot(&r.report);
  page_finish(&r.report.page, style.colour, text);
}
