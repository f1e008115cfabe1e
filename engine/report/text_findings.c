// SPDX-License-Identifier: MIT
// The findings by stage, and what to answer before all else.
#include <stdint.h>
#include <string.h>

#include "report/text_inside.h"
#include "rulebook/fix.h"

enum { MOST_ASKED = 7, MOST_OWNERS = 6, MOST_FIND_OUT = 4 };

// --- answer first

// `spill "left lip", "right lip", jet "plume"`: the kind once where it is the same.
static void write_owners(struct report *report, struct text *words, const int *slots, size_t count) {
  const struct store *design = report->review->design;
  enum kind last = KIND_COUNT;
  for (size_t i = 0; i < count && i < MOST_OWNERS; i++) {
    int entity;
    store_row_of_slot(design, slots[i], &entity);
    const struct entity *owner = &design->entities[entity];
    if (i) text_add(words, ", ");
    if (owner->name && owner->kind == last) {
      text_printf(words, "\"%s\"", owner->name);
    } else {
      word_entity(words, &report->wording, entity);
    }
    last = owner->kind;
  }
  if (count > MOST_OWNERS) text_printf(words, " and %zu more", count - MOST_OWNERS);
}

static void write_asked(struct report *report, size_t number, const struct asked *asked) {
  struct text label = report_words(report), words = report_words(report), choices = report_words(report);
  text_printf(&label, "%zu  ", number);
  int entity;
  enum row_id row = store_row_of_slot(report->review->design, asked->slots[0], &entity);
  word_slot(&words, &report->wording, asked->slots[0], entity);
  text_add(&words, ": ");
  write_owners(report, &words, asked->slots, asked->slot_count);
  word_choice_list(&choices, row);
  if (choices.length) text_printf(&words, ": %s", text_end(&choices));
  word_slot_because(&words, &report->wording, asked->slots[0]);
  page_labelled(&report->page, INDENT, 3, PAINT_PLAIN, text_end(&label), text_end(&words));
  struct text waits = report_words(report);
  word_count(&waits, asked->waiting, "answer waits", "answers wait");
  if (asked->held) text_printf(&waits, ", %zu held", asked->held);
  page_wrap(&report->page, INDENT + 3, 0, text_end(&waits));
}

void report_answer_first(struct report *report) {
  size_t count;
  const struct asked *asked = review_asked(report->review, &count);
  if (count == 0) return;
  page_heading(&report->page, "ANSWER FIRST");
  size_t shown = count < MOST_ASKED ? count : MOST_ASKED;
  for (size_t i = 0; i < shown; i++) write_asked(report, i + 1, &asked[i]);
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

static void write_outcome(struct report *report, const struct outcome *outcome, size_t indent) {
  struct text words = report_words(report);
  word_entity(&words, &report->wording, outcome->entity);
  text_add(&words, ": ");
  word_outcome(&words, &report->wording, outcome);
  page_wrap(&report->page, indent, INDENT, text_end(&words));
  report_fix(report, outcome, indent);
  if (!outcome->try_words || report_is_mended(report, outcome)) return;
  page_labelled(&report->page, indent, 5, PAINT_PLAIN, "Try: ", outcome->try_words);
}

// --- what to do about it

struct group_of {  // a group with the list that it is part of
  const struct outcome *const *findings;
  const struct outcome_group *group;
};

static bool is_advice(struct report *report, struct group_of of) {
  const struct rule_fixes *fix = report->review->rules[of.group->rule].fix;
  return fix && fix->count == 0;
}

// Whether the rule's own words of a fix are for something in the group: flagged, with no fix of its own, and with none
// that was found by trying; advice says more than such a one.
static bool takes_words_of_rule(struct report *report, struct group_of of) {
  bool advice = is_advice(report, of);
  for (size_t i = 0; i < of.group->count; i++) {
    const struct outcome *outcome = of.findings[of.group->first + i];
    if (outcome->sort != OUTCOME_FLAGGED || outcome->try_words) continue;
    if (advice || !report_is_mended(report, outcome)) return true;
  }
  return false;
}

static bool has_unanswered(struct group_of of) {
  for (size_t i = 0; i < of.group->count; i++) {
    if (of.findings[of.group->first + i]->sort == OUTCOME_UNANSWERED) return true;
  }
  return false;
}

// Whether a group before this one, of the same rule, showed the rule's fix.
static bool is_tried_above(struct report *report, struct group_of of, size_t before) {
  for (size_t i = 1; i <= before; i++) {
    const struct outcome_group *above = of.group - i;
    if (above->rule == of.group->rule && takes_words_of_rule(report, (struct group_of){of.findings, above}))
      return true;
  }
  return false;
}

static bool is_listed(const int *slots, size_t count, int slot) {
  for (size_t i = 0; i < count; i++) {
    if (slots[i] == slot) return true;
  }
  return false;
}

// A fix would mend a value that nobody knows: what is asked for is the value.
static void write_find_out(struct report *report, struct group_of of) {
  struct text words = report_words(report);
  int slots[MOST_FIND_OUT];
  size_t shown = 0, left_out = 0;
  for (size_t i = 0; i < of.group->count; i++) {
    const struct outcome *outcome = of.findings[of.group->first + i];
    for (size_t r = 0; r < outcome->root_count && outcome->sort == OUTCOME_UNANSWERED; r++) {
      if (is_listed(slots, shown, outcome->roots[r])) continue;
      if (shown == MOST_FIND_OUT) {
        left_out++;
        continue;
      }
      slots[shown++] = outcome->roots[r];
      if (shown > 1) text_add(&words, "; ");
      word_find_out(&words, &report->wording, outcome->roots[r]);
    }
  }
  if (left_out) text_add(&words, "; and more, see what to answer first");
  if (shown) page_labelled(&report->page, BODY, 10, PAINT_PLAIN, "Find out: ", text_end(&words));
}

static void write_try(struct report *report, struct group_of of) {
  const char *label = has_unanswered(of) ? "Try, for what is flagged: " : "Try: ";
  if (report->about->mends && is_advice(report, of)) label = "Advice: ";
  const char *words = report->review->rules[of.group->rule].try_words;
  if (words && takes_words_of_rule(report, of)) page_labelled(&report->page, BODY, 5, PAINT_PLAIN, label, words);
}

static void write_reason(struct report *report, struct group_of of) {
  const struct rule_facts *rule = &report->review->rules[of.group->rule];
  if (rule->why) page_wrap(&report->page, BODY, 0, rule->why);
  write_find_out(report, of);
  write_try(report, of);
  if (rule->caution) page_labelled(&report->page, BODY, 9, PAINT_PLAIN, "Caution: ", rule->caution);
  if (!rule->life_safety) return;
  page_wrap(&report->page, BODY, 0, "Lives depend on it: local codes and the competent, licensed people decide.");
}

static void write_reason_again(struct report *report, struct group_of of, size_t before) {
  bool same_try = report->review->rules[of.group->rule].try_words && takes_words_of_rule(report, of) &&
                  is_tried_above(report, of, before);
  page_wrap(
      &report->page, BODY, 0,
      same_try ? "Why, and what to try: as above, under the same title." : "Why: as above, under the same title.");
  write_find_out(report, of);
  if (!same_try) write_try(report, of);
}

// The limit that a comparison was judged by: the first of the severity that it brought.
static const struct rule_limit *limit_in_force(const struct rule_facts *rule, enum severity severity) {
  for (size_t i = 0; i < rule->limit_count; i++) {
    if (rule->limits[i].severity == severity) return &rule->limits[i];
  }
  return rule->limit_count ? &rule->limits[0] : NULL;
}

// " on gate_to_spare": what to ask forebay explain for behind the name of the first entity; whole where the value is of
// another one.
static void word_explained(struct report *report, struct text *words, struct group_of of) {
  const struct outcome *first = of.findings[of.group->first];
  const struct comparison *judged = first->judged < 0 ? NULL : &first->comparisons[first->judged];
  if (!judged || judged->row == ROW_COUNT) return;
  text_add(words, " on ");
  if (judged->entity >= 0 && judged->entity != first->entity && of.group->count == 1) {
    word_entity(words, &report->wording, judged->entity);
    text_add_char(words, '.');
  }
  text_add(words, catalogue_row(judged->row)->name);
}

// "[stone-shallow-set on embedment; trade, limit by house; common practice, no source]": what to look up, and who
// answers for it.
static void write_pedigree(struct report *report, struct group_of of) {
  const struct rule_facts *rule = &report->review->rules[of.group->rule];
  struct text words = report_words(report);
  text_printf(&words, "[%s", rule->id);  // forebay rulebook ID shows it whole
  word_explained(report, &words, of);
  text_printf(&words, "; %s", rule->layer);
  const struct rule_limit *limit = limit_in_force(rule, of.group->severity);
  bool limit_set_elsewhere = limit && strcmp(limit->layer, rule->layer) != 0;
  if (limit_set_elsewhere) text_printf(&words, ", limit by %s", limit->layer);
  if (rule->adjusted_by && !limit_set_elsewhere) text_printf(&words, ", adjusted by %s", rule->adjusted_by);
  if (rule->source) text_printf(&words, "; %s", rule->source);
  text_add_char(&words, ']');
  page_wrap(&report->page, BODY, 0, text_end(&words));
}

// A title says what should be so; before it stands that it is not, or that nobody knows.
static const char *standing_of(struct group_of of) {
  size_t flagged = 0;
  for (size_t i = 0; i < of.group->count; i++) flagged += of.findings[of.group->first + i]->sort == OUTCOME_FLAGGED;
  if (flagged == 0) return "NOT ANSWERED: ";
  return flagged == of.group->count ? "NOT MET: " : "NOT MET, OR NOT ANSWERED: ";
}

static const char *label_of(struct report *report, const struct outcome_group *group) {
  struct text label = report_words(report);
  text_printf(&label, "%s %zu", severities[group->severity].label, group->first + 1);
  if (group->count > 1) text_printf(&label, "-%zu", group->first + group->count);
  text_add(&label, "  ");
  return text_end(&label);
}

static void write_title(struct report *report, struct group_of of) {
  const struct outcome_group *group = of.group;
  struct text title = report_words(report);
  text_add(&title, standing_of(of));
  text_add(&title, report->review->rules[group->rule].title ? report->review->rules[group->rule].title : "no title");
  page_labelled(&report->page, 0, BODY, severities[group->severity].paint, label_of(report, group), text_end(&title));
}

static void write_group(struct report *report, struct group_of of, size_t before) {
  const struct outcome_group *group = of.group;
  write_title(report, of);
  for (size_t i = 0; i < group->count; i++) write_outcome(report, of.findings[group->first + i], BODY);
  if (group->again) {
    write_reason_again(report, of, before);
  } else {
    write_reason(report, of);
  }
  write_pedigree(report, of);
}

static void write_doubts(struct report *report, const struct outcome *const *findings, size_t length) {
  bool doubt = false;
  for (size_t i = 0; i < length; i++) doubt = doubt || (findings[i]->in_doubt && findings[i]->sort == OUTCOME_FLAGGED);
  if (!doubt) return;
  page_blank(&report->page);
  report_explain_doubt(report, 0);
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
    write_group(report, (struct group_of){findings, &groups[i]}, i);
  }
  write_doubts(report, findings, length);
  report_explain_proven(report);
}

// --- the findings in short: a line for each group

// The words with single spaces, cut to so many columns.
static const char *cut_to(struct report *report, const char *words, size_t columns) {
  struct text flat = report_words(report);
  text_wrap(&flat, words, 0, SIZE_MAX);
  const char *all = text_end(&flat);
  if (text_columns(all, flat.length) <= columns) return all;
  size_t length = flat.length;
  while (length > 0 && text_columns(all, length) + 3 > columns) length = text_cut(all, length, length - 1);
  while (length > 0 && all[length - 1] == ' ') length--;
  return text_phrase(report->page.text.arena, "%.*s...", (int)length, all);
}

// "left lip, right lip and 4 more": as many names as go into so many columns, and one at least.
static const char *names_of(struct report *report, struct group_of of, size_t columns) {
  struct text names = report_words(report);
  for (size_t i = 0; i < of.group->count; i++) {
    struct text name = report_words(report);
    word_name(&name, &report->wording, of.findings[of.group->first + i]->entity);
    size_t then = i + 1 == of.group->count ? 0 : strlen(" and 100 more");
    if (i > 0 && text_columns(text_end(&names), names.length) + strlen(", ") + name.length + then > columns) {
      text_printf(&names, " and %zu more", of.group->count - i);
      break;
    }
    text_printf(&names, "%s%s", i ? ", " : "", text_end(&name));
  }
  return text_end(&names);
}

static void write_fix_in_short(struct report *report, const struct outcome *finding) {
  size_t number;
  const struct mend_finding *found = report_mend_of(report, finding, &number);
  if (!found || found->best.standing != MEND_PROVEN) return;
  const char *label = text_phrase(report->page.text.arena, "Proven fix %zu: ", number);
  const char *words = report_fix_words(report, &found->best, finding->entity, true);
  page_labelled(&report->page, BODY, BODY, PAINT_PLAIN, label,
                cut_to(report, words, report->page.width - BODY - strlen(label)));
}

static void write_in_short(struct report *report, struct group_of of) {
  const char *label = label_of(report, of.group), *standing = standing_of(of);
  size_t left = report->page.width - strlen(label) - strlen(standing), most_names = report->page.width * 3 / 10;
  if (left > report->page.width) left = 0;
  const char *names = cut_to(report, names_of(report, of, most_names), most_names);
  size_t taken = text_columns(names, strlen(names)) + strlen(": ");
  const char *title = report->review->rules[of.group->rule].title;
  struct text words = report_words(report);
  text_printf(&words, "%s%s: %s", standing, cut_to(report, title ? title : "no title", left > taken ? left - taken : 0),
              names);
  page_labelled(&report->page, 0, BODY, severities[of.group->severity].paint, label, text_end(&words));
  for (size_t i = 0; i < of.group->count; i++) write_fix_in_short(report, of.findings[of.group->first + i]);
}

void report_findings_in_short(struct report *report) {
  size_t length, count;
  const struct outcome *const *findings = (const struct outcome *const *)review_findings(report->review, &length);
  const struct outcome_group *groups = review_groups(report->review, findings, length, &count);
  if (count > 0) page_blank(&report->page);
  for (size_t i = 0; i < count; i++) write_in_short(report, (struct group_of){findings, &groups[i]});
}
