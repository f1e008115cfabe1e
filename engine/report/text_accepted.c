// SPDX-License-Identifier: MIT
// What does not count though it was found: accepted in the design, or of a stage that the work has passed.
#include "report/text_inside.h"

static const struct slot *given_of(const struct report *report, const struct acceptance *acceptance, enum row_id row) {
  return store_at(report->review->design, acceptance->entity, row);
}

static const char *because_of(const struct report *report, const struct acceptance *acceptance) {
  const char *because = given_of(report, acceptance, ROW_accept_because)->text;
  return because ? because : "no reason stated";
}

static void write_what(struct report *report, struct text *words, const struct acceptance *acceptance) {
  text_printf(words, "%s", acceptance->id ? acceptance->id : "no rule");
  const struct slot *on = given_of(report, acceptance, ROW_accept_on);
  int entity = acceptance->outcome                ? acceptance->outcome->entity
               : on->condition == CONDITION_GIVEN ? (int)on->value
                                                  : -1;
  if (entity < 0) return;
  text_add(words, " on ");
  word_entity(words, &report->wording, entity);
}

static bool is_given(const struct report *report, const struct acceptance *acceptance, enum row_id row) {
  return given_of(report, acceptance, row)->condition == CONDITION_GIVEN;
}

static const char *stage_word(const struct report *report, const struct acceptance *acceptance) {
  return catalogue_word((enum word)given_of(report, acceptance, ROW_accept_up_to)->value)->word;
}

static void add_terms(struct report *report, struct text *words, const struct acceptance *acceptance) {
  if (is_given(report, acceptance, ROW_accept_at))
    text_printf(words, " Accepted at %s.", given_of(report, acceptance, ROW_accept_at)->text);
  if (is_given(report, acceptance, ROW_accept_up_to))
    text_printf(words, " Accepted up to %s.", stage_word(report, acceptance));
}

// Without the value nobody can tell later whether it became worse.
static void ask_for_value(struct report *report, struct text *words, const struct acceptance *acceptance) {
  const struct outcome *outcome = acceptance->outcome;
  if (!outcome || outcome->judged < 0) return;
  const struct comparison *judged = &outcome->comparisons[outcome->judged];
  bool number = judged->sense == SENSE_AT_LEAST || judged->sense == SENSE_AT_MOST;
  if (!number || judged->row == ROW_COUNT || is_given(report, acceptance, ROW_accept_at)) return;
  text_add(words, " To hear of it when it gets worse, add at = \"");
  word_number(words, &report->wording, judged->row, judged->value);
  text_add(words, "\".");
}

static void write_accepted(struct report *report, const struct acceptance *acceptance) {
  if (!acceptance->outcome) return;
  struct text words = report_words(report), found = report_words(report);
  write_what(report, &words, acceptance);
  text_printf(&words, ": %s.", because_of(report, acceptance));
  add_terms(report, &words, acceptance);
  ask_for_value(report, &words, acceptance);
  page_wrap(&report->page, INDENT, INDENT, text_end(&words));
  text_printf(&found, "%s: ", severity_name(acceptance->outcome->severity));
  word_outcome(&found, &report->wording, acceptance->outcome);
  page_wrap(&report->page, BODY, INDENT, text_end(&found));
}

static const char *what_became(struct report *report, const struct acceptance *acceptance) {
  struct arena *arena = report->page.text.arena;
  switch (acceptance->standing) {
    case ACCEPTANCE_PASSED:
      return text_phrase(arena, "was accepted up to %s, and the work is past that: it counts again",
                         stage_word(report, acceptance));
    case ACCEPTANCE_WORSE:
      return text_phrase(arena, "was accepted at %s and is worse now: it counts again",
                         given_of(report, acceptance, ROW_accept_at)->text);
    case ACCEPTANCE_OPEN:
      return "has no answer yet, so there is nothing to accept";
    case ACCEPTANCE_STALE:
      return "is stale: nothing is flagged, by the rules that were read";
    default:
      return "cannot be used: see above";
  }
}

static void write_no_more(struct report *report, const struct acceptance *acceptance) {
  struct text words = report_words(report);
  write_what(report, &words, acceptance);
  text_printf(&words, " %s (line %d; \"%s\").", what_became(report, acceptance),
              report->review->design->entities[acceptance->entity].at.line, because_of(report, acceptance));
  page_wrap(&report->page, INDENT, INDENT, text_end(&words));
}

static void write_all(struct report *report, const char *heading, bool accepted,
                      void (*write)(struct report *, const struct acceptance *)) {
  bool begun = false;
  for (size_t i = 0; i < report->review->acceptance_count; i++) {
    const struct acceptance *acceptance = &report->review->acceptances[i];
    if (acceptance->outcome && acceptance->outcome->counting == BEHIND_US) continue;  // listed there
    if ((acceptance->standing == ACCEPTANCE_ACCEPTED) != accepted || acceptance->standing == ACCEPTANCE_WRONG) continue;
    if (!begun) page_heading(&report->page, heading);
    begun = true;
    write(report, acceptance);
  }
}

void report_accepted(struct report *report) {
  write_all(report, "ACCEPTED IN THE DESIGN: found, and not counted", true, write_accepted);
  write_all(report, "ACCEPTED, TO NO EFFECT", false, write_no_more);
}

void report_behind(struct report *report) {
  size_t length, count;
  const struct outcome *const *list =
      (const struct outcome *const *)review_aside(report->review, ASIDE_BEHIND, &length);
  const struct outcome_group *groups = review_groups(report->review, list, length, &count);
  if (count == 0) return;
  enum stage come_to = report->review->come_to;
  page_heading(&report->page,
               text_phrase(report->page.text.arena, "BEHIND US: the work has come to %s; found, and not counted",
                           come_to == STAGE_COUNT ? "hand-over" : stage_name(come_to)));
  for (size_t i = 0; i < count; i++) {
    const struct rule_facts *rule = &report->review->rules[groups[i].rule];
    struct text words = report_words(report);
    const struct outcome *first = list[groups[i].first];
    bool open = first->sort == OUTCOME_UNANSWERED && !first->counts_as_held;
    text_printf(&words, "%s, %s: ", stage_name(rule->stage), open ? "not answered" : severity_name(groups[i].severity));
    for (size_t k = 0; k < groups[i].count; k++) {
      if (k) text_add(&words, ", ");
      word_entity(&words, &report->wording, list[groups[i].first + k]->entity);
    }
    text_printf(&words, ": %s [%s]", rule->title ? rule->title : "no title", rule->id);
    page_wrap(&report->page, INDENT, INDENT, text_end(&words));
  }
}
