// SPDX-License-Identifier: MIT
#include "report/text.h"

#include <string.h>

#include "report/text_inside.h"
#include "report/tried.h"

enum { NARROWEST = 40, MOST_PROBLEMS = 100 };

struct text report_words(struct report *report) {
  return text_in(report->page.text.arena);
}

void report_explain_doubt(struct report *report, size_t indent) {
  if (report->doubt_explained) return;
  report->doubt_explained = true;
  page_wrap(&report->page, indent, 0,
            "In doubt: built on a value outside the tested range of its formula; forebay explain names that value.");
}

// --- what it is

static void write_layer(struct text *words, const struct report_layer *layer) {
  text_printf(words, "%s: ", layer->name);
  word_count(words, layer->rules, "rule", "rules");
  text_printf(words, " (%s)", layer->digest);
}

void report_head(struct report *report) {
  const struct report_about *about = report->about;
  page_labelled(&report->page, 0, 0, PAINT_BOLD, about->project, "");
  struct text design = report_words(report), rulebook = report_words(report);
  text_printf(&design, "%s (%s)", about->file, about->digest);
  page_labelled(&report->page, 0, 10, PAINT_PLAIN, "Design    ", text_end(&design));
  for (size_t i = 0; i < about->layer_count; i++) {
    if (i) text_add(&rulebook, ", ");
    write_layer(&rulebook, &about->layers[i]);
  }
  if (about->layer_count == 0) text_add(&rulebook, "empty");
  if (about->retired_count) text_printf(&rulebook, "; %zu retired", about->retired_count);
  page_labelled(&report->page, 0, 10, PAINT_PLAIN, "Rulebook  ", text_end(&rulebook));
  tried_write(&report->page, &report->wording);
}

// --- the verdict

// How much of what is held was found wrong, and how much nobody answered; all of it is numbered below as HOLD.
static void write_held(struct text *words, const struct review_counts *counts) {
  size_t held = counts->severities[SEVERITY_HOLD], unanswered = counts->unanswered_held;
  if (unanswered == 0) return;
  if (unanswered == held) {
    text_add(words, " (not answered)");
  } else {
    text_printf(words, " (%zu not met, %zu not answered)", held - unanswered, unanswered);
  }
}

// "2 hold, 3 revise": severities from the worst down, those without any left out.
static size_t write_severities(struct text *words, const struct review_counts *counts, enum severity worst) {
  size_t written = 0;
  for (int s = (int)worst; s >= 0; s--) {
    if (counts->severities[s] == 0) continue;
    text_printf(words, "%s%zu %s", written++ ? ", " : "", counts->severities[s], severity_name((enum severity)s));
    if (s == SEVERITY_HOLD) write_held(words, counts);
  }
  return written;
}

static void write_unanswered(struct text *words, const struct review_counts *counts, bool first) {
  size_t others = counts->sorts[OUTCOME_UNANSWERED] - counts->unanswered_held - counts->unanswered_behind;
  if (others > 0)
    text_printf(words, "%s%zu %sunanswered", first ? "" : "; ", others, counts->unanswered_held ? "more " : "");
}

// Found too, though it does not count: nobody should miss that at a glance.
static void write_not_counted(struct text *words, const struct review_counts *counts) {
  if (counts->accepted + counts->behind == 0) return;
  text_add(words, words->length ? "; " : "");
  if (counts->accepted) text_printf(words, "%zu accepted", counts->accepted);
  if (counts->accepted_held) text_printf(words, " (%zu hold)", counts->accepted_held);
  if (counts->behind) text_printf(words, "%s%zu behind us", counts->accepted ? ", " : "", counts->behind);
  if (counts->behind_held) text_printf(words, " (%zu hold)", counts->behind_held);
}

static const struct {
  const char *label, *after;
  enum severity worst;
  enum paint paint;
} verdicts[] = {
    [VERDICT_HELD] = {"DO NOT DIG YET   ", "", SEVERITY_HOLD, PAINT_HOLD},
    [VERDICT_NO_RULES] = {"NOTHING WAS CHECKED: no rule is in force. ", "", SEVERITY_REVISE, PAINT_HOLD},
    [VERDICT_INCOMPLETE] = {"THE REVIEW IS INCOMPLETE: nothing is held by the rules that could be used; ",
                            " This is not a permit to dig: see what could not be used, and the cautions.",
                            SEVERITY_REVISE, PAINT_HOLD},
    [VERDICT_NOTHING_HELD] = {"NOTHING HELD by the rules in force; ", " This is not a permit to dig: see the cautions.",
                              SEVERITY_REVISE, PAINT_BOLD},
};

static void write_verdict(struct report *report) {
  struct review_counts counts = review_count(report->review);
  enum verdict verdict = review_verdict(report->review);
  struct text words = report_words(report);
  size_t written = write_severities(&words, &counts, verdicts[verdict].worst);
  write_unanswered(&words, &counts, written == 0);
  write_not_counted(&words, &counts);
  if (words.length == 0) text_add(&words, "nothing to revise or advise");
  if (verdict != VERDICT_HELD) text_printf(&words, ".%s", verdicts[verdict].after);
  if (report->page.text.length > 0) page_blank(&report->page);
  const enum stage come_to = report->review->come_to;
  size_t hang = verdict == VERDICT_HELD ? strlen(verdicts[verdict].label) : 0;
  page_clauses(&report->page, hang, verdicts[verdict].paint, verdicts[verdict].label,
               verdict == VERDICT_NO_RULES ? "" : text_end(&words));
  if (come_to > STAGE_LAYOUT)
    page_wrap(
        &report->page, 0, INDENT,
        text_phrase(report->page.text.arena,
                    "The work has come to %s: what was to be right before that counts only where lives depend on it.",
                    come_to == STAGE_COUNT ? "the hand-over" : stage_name(come_to)));
}

// --- what went wrong

static void write_problems(struct report *report, const char *heading, const struct problems *problems) {
  if (problems->count == 0) return;
  page_heading(&report->page, heading);
  for (size_t i = 0; i < problems->count && i < MOST_PROBLEMS; i++) {
    struct text words = report_words(report);
    problem_write(&words, &problems->list[i]);
    page_wrap(&report->page, INDENT, INDENT, text_end(&words));
  }
  if (problems->count <= MOST_PROBLEMS) return;
  struct text more = report_words(report);
  text_printf(&more, "and %zu more", problems->count - MOST_PROBLEMS);
  page_wrap(&report->page, INDENT, INDENT, text_end(&more));
}

static void write_wrong_decisions(struct report *report) {
  const struct problems *problems = report->review->acceptance_problems;
  if (problems) write_problems(report, "NOT ACCEPTED: these cannot be used", problems);
}

// --- what was checked

static void write_broken(struct text *words, const struct review_counts *counts) {
  if (counts->sorts[OUTCOME_BROKEN] == 0) {
    text_add(words, "none broken.");
  } else {
    text_printf(words, "%zu broken.", counts->sorts[OUTCOME_BROKEN]);
  }
  if (counts->broken_rules == 0) return;
  text_add_char(words, ' ');
  word_count(words, counts->broken_rules, "rule", "rules");
  text_add(words, " could not run at all.");
}

static void write_checked(struct report *report) {
  struct review_counts counts = review_count(report->review);
  struct text words = report_words(report);
  word_count(&words, counts.rules, "rule", "rules");
  text_add(&words, " on ");
  word_count(&words, counts.entities, "thing", "things");
  text_printf(&words, ": %zu clear, %zu flagged, %zu unanswered, %zu not applicable, ", counts.sorts[OUTCOME_CLEAR],
              counts.sorts[OUTCOME_FLAGGED], counts.sorts[OUTCOME_UNANSWERED], counts.sorts[OUTCOME_NOT_APPLICABLE]);
  write_broken(&words, &counts);
  page_labelled(&report->page, 0, 9, PAINT_BOLD, "CHECKED  ", text_end(&words));
}

void report_foot(struct report *report) {
  struct text words = report_words(report);
  text_printf(&words, "forebay %s", report->about->version);
  if (report->about->seal) text_printf(&words, "; %s", report->about->seal);
  page_blank(&report->page);
  page_wrap(&report->page, 0, INDENT, text_end(&words));
}

static void write_whole(struct report *report) {
  report_head(report);
  write_verdict(report);
  report_softened(report);
  report_trade_alone(report);
  report_fixes_in_sum(report);
  write_problems(report, "NOT USABLE, so the review is incomplete", report->review->unusable);
  write_wrong_decisions(report);
  write_problems(report, "PROBLEMS found while working", report->review->problems);
  report_answer_first(report);
  report_findings(report);
  report_joint(report);
  report_aside(report);
  report_accepted(report);
  report_behind(report);
  report_decisions(report);
  report_defaults(report);
  report_measured(report);
  report_takeoff(report);
  report_cautions(report);
  report_foot(report);
  write_checked(report);
}

static void write_brief(struct report *report) {
  tried_write(&report->page, &report->wording);
  write_verdict(report);
  report_softened(report);
  report_fixes_in_sum(report);
  write_problems(report, "NOT USABLE, so the review is incomplete", report->review->unusable);
  write_wrong_decisions(report);
  write_problems(report, "PROBLEMS found while working", report->review->problems);
  report_answer_first(report);
  report_findings_in_short(report);
  report_accepted(report);
  report_behind(report);
  page_blank(&report->page);
  page_wrap(&report->page, 0, 0, "The whole report says why, what to try, and what to be careful of.");
  write_checked(report);
}

void report_text(struct text *text, const struct review *review, const struct report_about *about,
                 struct report_style style) {
  size_t width = style.width < NARROWEST ? NARROWEST : style.width;
  struct report report = {page_in(text->arena, width), {review->evaluation, style.units}, review, about, false};
  if (style.brief) {
    write_brief(&report);
  } else {
    write_whole(&report);
  }
  page_finish(&report.page, style.colour, text);
}
