// SPDX-License-Identifier: MIT
// The findings by stage, and what to answer before all else.
#include <string.h>

#include "report/text_inside.h"

enum { MOST_AWAITED = 7 };

// --- answer first

static void write_awaited(struct report *report, size_t number, const struct awaited *awaited) {
  struct text label = report_words(report), words = report_words(report), choices = report_words(report);
  text_printf(&label, "%zu  ", number);
  int entity;
  enum row_id row = store_row_of_slot(report->review->design, awaited->slot, &entity);
  word_entity(&words, &report->wording, entity);
  text_add(&words, ": ");
  word_slot(&words, &report->wording, awaited->slot, entity);
  word_slot_because(&words, &report->wording, awaited->slot);
  word_choice_list(&choices, row);
  if (choices.length) text_printf(&words, ": %s", text_end(&choices));
  page_labelled(&report->page, INDENT, 3, PAINT_PLAIN, text_end(&label), text_end(&words));
  struct text waits = report_words(report);
  word_count(&waits, awaited->waiting, "answer waits", "answers wait");
  if (awaited->held) text_printf(&waits, ", %zu held", awaited->held);
  page_wrap(&report->page, INDENT + 3, 0, text_end(&waits));
}

void report_answer_first(struct report *report) {
  size_t count;
  const struct awaited *awaited = review_awaited(report->review, &count);
  if (count == 0) return;
  page_heading(&report->page, "ANSWER FIRST");
  size_t shown = count < MOST_AWAITED ? count : MOST_AWAITED;
  for (size_t i = 0; i < shown; i++) write_awaited(report, i + 1, &awaited[i]);
  if (shown == count) return;
  struct text more = report_words(report);
  text_printf(&more, "and %zu more", count - shown);
  page_wrap(&report->page, INDENT, 0, text_end(&more));
}

// --- findings

static const struct {
  const char *label;
  enum paint paint;
} severities[SEVERITY_COUNT] = {
    [SEVERITY_ADVISE] = {"ADVISE", PAINT_ADVISE},
    [SEVERITY_REVISE] = {"REVISE", PAINT_REVISE},
    [SEVERITY_HOLD] = {"HOLD", PAINT_HOLD},
};

static void write_stage(struct report *report, enum stage stage) {
  struct text name = report_words(report);
  for (const char *c = stage_name(stage); *c; c++) {
    text_add_char(&name, *c == '-' ? ' ' : *c >= 'a' && *c <= 'z' ? (char)(*c - 'a' + 'A') : *c);
  }
  page_heading(&report->page, text_end(&name));
}

static void write_title(struct report *report, const struct outcome_group *group) {
  const char *title = report->review->rules[group->rule].title;
  struct text label = report_words(report);
  text_printf(&label, "%s %zu", severities[group->severity].label, group->first + 1);
  if (group->count > 1) text_printf(&label, "-%zu", group->first + group->count);
  text_add(&label, "  ");
  page_labelled(&report->page, 0, BODY, severities[group->severity].paint, text_end(&label),
                title ? title : "no title");
}

static void write_outcome(struct report *report, const struct outcome *outcome, size_t indent) {
  struct text words = report_words(report);
  word_entity(&words, &report->wording, outcome->entity);
  text_add(&words, ": ");
  word_outcome(&words, &report->wording, outcome);
  page_wrap(&report->page, indent, INDENT, text_end(&words));
}

static void write_reason(struct report *report, const struct rule_facts *rule) {
  if (rule->why) page_wrap(&report->page, BODY, 0, rule->why);
  if (rule->try_words) page_labelled(&report->page, BODY, 5, PAINT_PLAIN, "Try: ", rule->try_words);
  if (rule->caution) page_labelled(&report->page, BODY, 9, PAINT_PLAIN, "Caution: ", rule->caution);
  if (!rule->life_safety) return;
  page_wrap(&report->page, BODY, 0,
            "Lives depend on this: local codes, licensed practice and the competent person on site decide, "
            "not this report.");
}

// The limit that a comparison was judged by: the first of the severity that it brought.
static const struct rule_limit *limit_in_force(const struct rule_facts *rule, enum severity severity) {
  for (size_t i = 0; i < rule->limit_count; i++) {
    if (rule->limits[i].severity == severity) return &rule->limits[i];
  }
  return rule->limit_count ? &rule->limits[0] : NULL;
}

// "[stone-shallow-set; trade, limit by house; common practice, no source]": what to look up, and who answers for it.
static void write_pedigree(struct report *report, const struct rule_facts *rule, enum severity severity) {
  struct text words = report_words(report);
  text_printf(&words, "[%s; %s", rule->id, rule->layer);
  const struct rule_limit *limit = limit_in_force(rule, severity);
  bool limit_set_elsewhere = limit && strcmp(limit->layer, rule->layer) != 0;
  if (limit_set_elsewhere) text_printf(&words, ", limit by %s", limit->layer);
  if (rule->adjusted_by && !limit_set_elsewhere) text_printf(&words, ", adjusted by %s", rule->adjusted_by);
  if (rule->source) text_printf(&words, "; %s", rule->source);
  text_add_char(&words, ']');
  page_wrap(&report->page, BODY, 0, text_end(&words));
}

static void write_group(struct report *report, const struct outcome *const *findings,
                        const struct outcome_group *group) {
  const struct rule_facts *rule = &report->review->rules[group->rule];
  write_title(report, group);
  for (size_t i = 0; i < group->count; i++) write_outcome(report, findings[group->first + i], BODY);
  if (group->again) {
    page_wrap(&report->page, BODY, 0, "Why, and what to try: as above, under the same title.");
  } else {
    write_reason(report, rule);
  }
  write_pedigree(report, rule, group->severity);
}

void report_findings(struct report *report) {
  size_t length, count;
  const struct outcome *const *findings = (const struct outcome *const *)review_findings(report->review, &length);
  const struct outcome_group *groups = review_groups(report->review, findings, length, &count);
  enum stage stage = STAGE_COUNT;
  for (size_t i = 0; i < count; i++) {
    enum stage next = report->review->rules[groups[i].rule].stage;
    if (next != stage) {
      write_stage(report, next);
    } else {
      page_blank(&report->page);
    }
    stage = next;
    write_group(report, findings, &groups[i]);
  }
}
