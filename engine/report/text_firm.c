// SPDX-License-Identifier: MIT
// What a firm's layers make of the review: decisions on record, what they soften, what the trade says alone.
#include <string.h>

#include "report/text_inside.h"

static void write_by(struct text *words, const struct decision *it) {
  text_printf(words, " by %s (%s:%d); %s", it->layer, it->at.file ? it->at.file : "?", it->at.line,
              it->because ? it->because : "no reason stated");
}

static void write_decision(struct report *report, const struct decision *it) {
  struct text words = report_words(report);
  text_printf(&words, "%s: ", it->rule);
  decision_write(&words, it);
  if (it->what) text_add_char(&words, ',');
  write_by(&words, it);
  page_wrap(&report->page, INDENT, INDENT, text_end(&words));
}

static void write_dispute(struct report *report, const struct decision *it) {
  struct text words = report_words(report);
  text_printf(&words, "%s%s%s: ", it->rule, it->what ? ", " : "", it->what ? it->what : "");
  decision_write_dispute(&words, it);
  page_wrap(&report->page, INDENT, INDENT, text_end(&words));
}

void report_decisions(struct report *report) {
  const struct report_about *about = report->about;
  bool headed = false;
  for (size_t i = 0; i < about->decision_count; i++) {
    const struct decision *it = &about->decisions[i];
    if (!decision_changes(it) && !it->overrules) continue;
    if (!headed) page_heading(&report->page, "DECISIONS ON RECORD");
    headed = true;
    if (decision_changes(it)) write_decision(report, it);
    if (it->overrules) write_dispute(report, it);
  }
}

static size_t count_softened(const struct report_about *about) {
  size_t count = 0;
  for (size_t i = 0; i < about->decision_count; i++) count += decision_softens(&about->decisions[i]);
  return count;
}

void report_softened(struct report *report) {
  const struct report_about *about = report->about;
  if (count_softened(about) == 0) return;
  page_heading(&report->page, "SOFTENED BY THE FIRM: lives depend on these rules");
  for (size_t i = 0; i < about->decision_count; i++) {
    if (decision_softens(&about->decisions[i])) write_decision(report, &about->decisions[i]);
  }
  page_wrap(&report->page, INDENT, 0, "Local codes and licensed practice decide, whatever a firm's rules say.");
}

static void write_severities(struct text *words, const struct firm_effect *effect) {
  bool any = false;
  for (int s = SEVERITY_HOLD; s >= 0; s--) {
    if (effect->alone[s] == 0) continue;
    text_printf(words, "%s%zu %s", any ? ", " : "", effect->alone[s], severity_name((enum severity)s));
    any = true;
  }
  if (!any) text_add(words, "no finding");
}

static void write_part(struct text *words, size_t count, const char *what, bool *any) {
  if (count == 0) return;
  text_add(words, *any ? ", " : "; the firm ");
  text_printf(words, "%s %zu", what, count);
  *any = true;
}

void report_trade_alone(struct report *report) {
  const struct firm_effect *effect = &report->review->firm;
  if (effect->added + effect->taken + effect->changed == 0) return;
  struct text words = report_words(report);
  bool any = false;
  text_printf(&words, "By the %s rules alone: ", effect->layer);
  write_severities(&words, effect);
  write_part(&words, effect->added, "adds", &any);
  write_part(&words, effect->taken, "takes away", &any);
  write_part(&words, effect->changed, "changes the severity of", &any);
  text_add_char(&words, '.');
  if (count_softened(report->about) > 0) page_blank(&report->page);  // else it belongs to the verdict
  page_wrap(&report->page, 0, 0, text_end(&words));
}
