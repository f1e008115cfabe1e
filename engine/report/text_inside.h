// SPDX-License-Identifier: MIT
// What the files of the text report share and nobody else includes.
#ifndef FOREBAY_REPORT_TEXT_INSIDE_H
#define FOREBAY_REPORT_TEXT_INSIDE_H

#include "report/page.h"
#include "report/text.h"
#include "report/wording.h"

enum { INDENT = 2, BODY = 4 };

struct report {
  struct page page;
  struct wording wording;
  const struct review *review;
  const struct report_about *about;
  bool doubt_explained;
};

struct text report_words(struct report *report);  // a text to put words together in
// What "(in doubt)" means: said once, where it first stands.
void report_explain_doubt(struct report *report, size_t indent);

// What the report is about, and the program that made it.
void report_head(struct report *report);
void report_foot(struct report *report);

// Sections: each leaves itself out when it has nothing to say.
void report_findings(struct report *report);
void report_findings_in_short(struct report *report);
void report_answer_first(struct report *report);
void report_aside(struct report *report);
void report_accepted(struct report *report);
void report_behind(struct report *report);
void report_decisions(struct report *report);  // text_firm.c
void report_softened(struct report *report);
void report_trade_alone(struct report *report);
void report_defaults(struct report *report);
void report_measured(struct report *report);
void report_takeoff(struct report *report);
void report_cautions(struct report *report);

// text_fix.c
const struct mend_finding *report_mend_of(const struct report *report, const struct outcome *finding, size_t *number);
bool report_is_mended(const struct report *report, const struct outcome *finding);  // some change is told
// With how it stands. brief: without it, and givens by their names alone.
const char *report_fix_words(struct report *report, const struct mend *mend, int seen_from, bool brief);
void report_fix(struct report *report, const struct outcome *finding, size_t indent);
void report_fixes_in_sum(struct report *report);
void report_explain_proven(struct report *report);
void report_joint(struct report *report);

#endif
