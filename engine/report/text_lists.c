// SPDX-License-Identifier: MIT
// What follows the findings: outcomes that are none, defaults, measurements, the order list, cautions.
#include "report/text_inside.h"

enum { MOST_ASIDE = 3, MOST_NAMES = 3 };

static void write_more(struct report *report, size_t indent, size_t shown, size_t count) {
  if (shown >= count) return;
  struct text more = report_words(report);
  text_printf(&more, "and %zu more", count - shown);
  page_wrap(&report->page, indent, 0, text_end(&more));
}

// --- outcomes that are no findings

static void write_title(struct report *report, const struct rule_facts *rule) {
  struct text words = report_words(report);
  text_printf(&words, "%s [%s]", rule->title ? rule->title : "no title", rule->id);
  page_wrap(&report->page, INDENT, INDENT, text_end(&words));
}

static void write_outcome(struct report *report, const struct outcome *outcome) {
  struct text words = report_words(report);
  word_entity(&words, &report->wording, outcome->entity);
  text_add(&words, ": ");
  word_outcome(&words, &report->wording, outcome);
  page_wrap(&report->page, BODY, INDENT, text_end(&words));
}

static void write_asides(struct report *report, enum aside which, const char *heading, size_t most) {
  size_t length, count;
  const struct outcome *const *list = (const struct outcome *const *)review_aside(report->review, which, &length);
  const struct outcome_group *groups = review_groups(report->review, list, length, &count);
  if (count == 0) return;
  page_heading(&report->page, heading);
  for (size_t i = 0; i < count; i++) {
    write_title(report, &report->review->rules[groups[i].rule]);
    for (size_t k = 0; k < groups[i].count && k < most; k++) write_outcome(report, list[groups[i].first + k]);
    write_more(report, BODY, most, groups[i].count);
  }
}

// One entity against one rule in a line or two.
static void write_in_doubt(struct report *report, const struct outcome *outcome) {
  struct text words = report_words(report);
  word_name(&words, &report->wording, outcome->entity);
  text_add(&words, ": ");
  word_outcome_short(&words, &report->wording, outcome);
  text_printf(&words, " [%s]", report->review->rules[outcome->rule].id);
  page_wrap(&report->page, INDENT, INDENT, text_end(&words));
}

static void write_all_in_doubt(struct report *report) {
  size_t length, count;
  const struct outcome *const *list =
      (const struct outcome *const *)review_aside(report->review, ASIDE_IN_DOUBT, &length);
  const struct outcome_group *groups = review_groups(report->review, list, length, &count);
  if (count == 0) return;
  page_heading(&report->page, "CLEAR, BUT IN DOUBT");
  page_wrap(&report->page, INDENT, 0,
            "Each is built on a value outside the tested range of its formula; forebay explain names that value.");
  report->doubt_explained = true;
  for (size_t i = 0; i < count; i++) {
    for (size_t k = 0; k < groups[i].count && k < MOST_ASIDE; k++) write_in_doubt(report, list[groups[i].first + k]);
    write_more(report, INDENT, MOST_ASIDE, groups[i].count);
  }
}

static void write_broken_rule(struct report *report, const struct rule_facts *rule) {
  struct text words = report_words(report);
  bool explained = review_explains(report->review, rule);
  text_printf(&words, "%s [%s]: %s", rule->title ? rule->title : "no title", rule->id,
              explained ? "see above" : rule->broken);
  page_wrap(&report->page, INDENT, INDENT, text_end(&words));
}

static void write_broken_rules(struct report *report) {
  if (review_count(report->review).broken_rules == 0) return;
  page_heading(&report->page, "RULES THAT COULD NOT RUN: what they ask was not checked");
  for (size_t i = 0; i < report->review->rule_count; i++) {
    const struct rule_facts *rule = &report->review->rules[i];
    if (rule->broken) write_broken_rule(report, rule);
  }
}

void report_aside(struct report *report) {
  write_asides(report, ASIDE_UNANSWERED, "UNANSWERED, not held", MOST_ASIDE);
  write_all_in_doubt(report);
  write_asides(report, ASIDE_BROKEN, "BROKEN RULES: what they ask was not checked here", (size_t)-1);
  write_broken_rules(report);
}

// --- defaults

// The entities of slots[0..count-1], all of one row: `boulder "a", boulder "b" and 4 more`.
static void write_owners(struct report *report, struct text *words, const int *slots, size_t count) {
  size_t shown = count < MOST_NAMES ? count : MOST_NAMES;
  for (size_t i = 0; i < shown; i++) {
    int entity;
    store_row_of_slot(report->review->design, slots[i], &entity);
    if (i) text_add(words, ", ");
    word_entity(words, &report->wording, entity);
  }
  if (shown < count) text_printf(words, " and %zu more", count - shown);
}

static enum row_id row_of(struct report *report, int slot) {
  int entity;
  return store_row_of_slot(report->review->design, slot, &entity);
}

static void write_default(struct report *report, const int *slots, size_t count) {
  struct text words = report_words(report);
  int entity;
  enum row_id row = store_row_of_slot(report->review->design, slots[0], &entity);
  text_printf(&words, "%s (%s): ", catalogue_row(row)->says, catalogue_row(row)->name);
  word_value(&words, &report->wording, entity, row);
  word_said_by(&words, &report->wording, entity, row);
  text_add(&words, "; ");
  write_owners(report, &words, slots, count);
  page_wrap(&report->page, INDENT, INDENT, text_end(&words));
}

void report_defaults(struct report *report) {
  size_t count;
  const int *slots = review_defaults(report->review, &count);
  if (count == 0) return;
  page_heading(&report->page, "DEFAULTS USED: not written in the design");
  for (size_t first = 0, next; first < count; first = next) {
    next = first + 1;
    while (next < count && row_of(report, slots[next]) == row_of(report, slots[first])) next++;
    write_default(report, slots + first, next - first);
  }
}

// --- measurements

void report_measured(struct report *report) {
  const struct store *design = report->review->design;
  if (design->measurement_count == 0) return;
  page_heading(&report->page, "MEASURED ON SITE: stands in for what is worked out");
  for (size_t i = 0; i < design->measurement_count; i++) {
    struct text words = report_words(report);
    int entity;
    enum row_id row = store_row_of_slot(design, design->measurements[i].slot, &entity);
    store_describe(&words, design, entity, row);
    text_add(&words, ": ");
    word_value(&words, &report->wording, entity, row);
    text_add(&words, ", ");
    word_origin(&words, &report->wording, entity, row);
    page_wrap(&report->page, INDENT, INDENT, text_end(&words));
  }
}

// --- the order list, cautions

static void write_order(struct report *report, const struct takeoff_row *order) {
  struct text words = report_words(report);
  text_printf(&words, "%s: ", order->what);
  if (order->root_count) {
    word_missing(&words, &report->wording, order->roots, order->root_count, order->entity);
  } else {
    word_value(&words, &report->wording, order->entity, order->row);
  }
  if (evaluation_in_doubt(report->wording.ev, order->entity, order->row)) word_doubt(&words);
  page_wrap(&report->page, INDENT, INDENT, text_end(&words));
}

void report_takeoff(struct report *report) {
  size_t count;
  const struct takeoff_row *orders = review_takeoff(report->review, &count);
  if (count == 0) return;
  page_heading(&report->page, "TAKEOFF");
  bool doubt = false;
  for (size_t i = 0; i < count; i++) {
    write_order(report, &orders[i]);
    doubt = doubt || evaluation_in_doubt(report->wording.ev, orders[i].entity, orders[i].row);
  }
  if (doubt) report_explain_doubt(report, INDENT);
  page_wrap(&report->page, INDENT, INDENT, "The whole list: forebay takeoff.");
}

void report_cautions(struct report *report) {
  size_t count;
  const char *const *cautions = review_cautions(report->review, &count);
  if (count == 0) return;
  page_heading(&report->page, "CAUTIONS");
  for (size_t i = 0; i < count; i++) page_wrap(&report->page, INDENT, INDENT, cautions[i]);
}
