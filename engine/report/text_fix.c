// SPDX-License-Identifier: MIT
// What to change, as a crew lead reads it: the fix of a finding with how it stands, and changes that go together.
#include <math.h>
#include <string.h>

#include "report/text_inside.h"
#include "units/write.h"

enum { MOST_RAISED = 3 };

const struct mend_finding *report_mend_of(const struct report *report, const struct outcome *finding, size_t *number) {
  const struct mends *mends = report->about->mends;
  for (size_t i = 0; mends && i < mends->count; i++) {
    *number = i + 1;
    if (mends->list[i].finding == finding) return &mends->list[i];
  }
  return NULL;
}

struct telling {
  int seen_from;  // the entity that it is told under
  bool brief;     // the given by its name alone
};

// --- one change

static const char *verb_of(const struct mend_change *change, double now) {
  const struct row *row = catalogue_row(change->row);
  if (!change->was) return "write";
  if (row->sort == SORT_CHOICE) return "set";
  if (row->sort != SORT_NUMBER || row->dimension == DIM_SLOPE || isnan(now)) return "change";
  return change->value > now ? "raise" : "lower";
}

static void word_given(struct text *text, struct report *report, const struct mend_change *change, struct telling as) {
  const struct row *row = catalogue_row(change->row);
  int seen_from = as.seen_from;
  text_printf(text, as.brief ? " %s" : " %s (%s)", as.brief ? row->name : row->says, row->name);
  if (change->entity == seen_from) return;
  text_add(text, " of ");
  word_entity(text, &report->wording, change->entity);
}

// A pump is taken whole, with its curve and data.
static void word_pump(struct text *text, struct report *report, const struct mend_change *change, int seen_from) {
  text_printf(text, "take \"%s\" of the firm's stock, with its maker's data", change->text);
  if (change->entity == seen_from) return;
  text_add(text, ", for ");
  word_entity(text, &report->wording, change->entity);
}

static void word_change(struct text *text, struct report *report, const struct mend_change *change, struct telling as) {
  if (change->row == ROW_pump_model) {
    word_pump(text, report, change, as.seen_from);
    return;
  }
  text_add(text, verb_of(change, evaluation_number(report->review->evaluation, change->entity, change->row)));
  word_given(text, report, change, as);
  if (change->was) text_printf(text, " from %s", change->was);
  text_printf(text, change->was ? " to %s" : ": %s", change->text);
}

static void word_changes(struct text *text, struct report *report, const struct mend *mend, struct telling as) {
  size_t shown = 0;
  for (size_t i = 0; i < mend->count; i++) {
    if (mend->changes[i].beside) continue;
    if (shown++) text_add(text, ", and ");
    word_change(text, report, &mend->changes[i], as);
  }
}

// --- how it stands

static void word_raised(struct text *text, struct report *report, const struct mend_raised *list, size_t count) {
  for (size_t i = 0; i < count && i < MOST_RAISED; i++) {
    text_printf(text, "%s%s on ", i ? ", " : "", report->review->rules[list[i].rule].id);
    word_entity(text, &report->wording, list[i].entity);
    text_printf(text, " (%s)", list[i].unanswered ? "unanswered" : severity_name(list[i].severity));
  }
  if (count > MOST_RAISED) text_printf(text, " and %zu more", count - MOST_RAISED);
}

static void stands_proven(struct text *text, struct report *report, const struct mend *mend) {
  (void)report;
  text_add(text, mend->at_limit ? ". Proven, right at the limit: nothing is left for what comes out otherwise."
                                : ". Proven.");
}

static void stands_raising(struct text *text, struct report *report, const struct mend *mend) {
  text_add(text, ". Proven, but raises ");
  word_raised(text, report, mend->raised, mend->raised_count);
  text_add_char(text, '.');
}

static void stands_by_hand(struct text *text, struct report *report, const struct mend *mend) {
  text_add(text, ". Works in a trial");
  if (mend->raised_count) {
    text_add(text, ", but raises ");
    word_raised(text, report, mend->raised, mend->raised_count);
  }
  text_add(text, "; ");
  if (mend->line) text_printf(text, "line %d ", mend->line);
  text_printf(text, "%s: change it there by hand.", mend->why ? mend->why : "cannot be rewritten");
}

static void stands_for_choice(struct text *text, struct report *report, const struct mend *mend) {
  (void)report, (void)mend;
  text_add(text, ". Needs a choice: what follows does as well.");
}

static void stands_short(struct text *text, struct report *report, const struct mend *mend) {
  text_add(text, ". Not enough: at best, ");
  word_comparison(text, &report->wording, mend->reached.entity, &mend->reached);
  text_add_char(text, '.');
}

typedef void stands(struct text *text, struct report *report, const struct mend *mend);
static stands *const standings[MEND_STANDING_COUNT] = {[MEND_PROVEN] = stands_proven,
                                                       [MEND_RAISES] = stands_raising,
                                                       [MEND_BY_HAND] = stands_by_hand,
                                                       [MEND_CHOICE] = stands_for_choice,
                                                       [MEND_NOT_ENOUGH] = stands_short};

static void word_price(struct text *text, struct report *report, double price) {
  if (!isfinite(price)) return;
  text_add(text, ", ");
  unit_write(text, price, DIM_MONEY, (struct write_style){.system = report->wording.units});
}

const char *report_fix_words(struct report *report, const struct mend *mend, int seen_from, bool brief) {
  struct text words = report_words(report);
  word_changes(&words, report, mend, (struct telling){seen_from, brief});
  word_price(&words, report, mend->price);
  if (standings[mend->standing] && !brief) standings[mend->standing](&words, report, mend);
  return text_end(&words);
}

static void write_fix(struct report *report, const struct mend *mend, size_t number, int seen_from, size_t indent) {
  const char *label = text_phrase(report->page.text.arena, number ? "Fix %zu: " : "or: ", number);
  page_labelled(&report->page, indent, 5, PAINT_PLAIN, label, report_fix_words(report, mend, seen_from, false));
}

static void write_measure(struct report *report, int slot, size_t indent) {
  struct text words = report_words(report);
  int entity;
  enum row_id row = store_row_of_slot(report->review->design, slot, &entity);
  text_printf(&words, "%s (%s) of ", catalogue_row(row)->says, catalogue_row(row)->name);
  word_entity(&words, &report->wording, entity);
  text_add(&words, " was taken on site and holds until it is taken anew after a change.");
  page_labelled(&report->page, indent, 5, PAINT_PLAIN, "Measure again: ", text_end(&words));
}

void report_fix(struct report *report, const struct outcome *finding, size_t indent) {
  size_t number;
  const struct mend_finding *found = report_mend_of(report, finding, &number);
  if (!found || finding->sort != OUTCOME_FLAGGED) return;
  if (found->best.standing == MEND_MEASURE) write_measure(report, found->best.measured, indent);
  if (found->best.count == 0) return;
  write_fix(report, &found->best, number, finding->entity, indent);
  for (size_t i = 0; i < found->other_count; i++) write_fix(report, &found->others[i], 0, finding->entity, indent);
}

bool report_is_mended(const struct report *report, const struct outcome *finding) {
  size_t number;
  const struct mend_finding *found = report_mend_of(report, finding, &number);
  return found && found->best.count > 0;
}

static size_t count_proven(const struct mends *mends, size_t *flagged) {
  size_t proven = *flagged = 0;
  for (size_t i = 0; i < mends->count; i++) {
    *flagged += mends->list[i].finding->sort == OUTCOME_FLAGGED;
    proven += mends->list[i].best.standing == MEND_PROVEN || mends->list[i].best.standing == MEND_CHOICE;
  }
  return proven;
}

void report_fixes_in_sum(struct report *report) {
  const struct mends *mends = report->about->mends;
  size_t flagged, proven = mends ? count_proven(mends, &flagged) : 0;
  if (proven == 0) return;
  struct text words = report_words(report);
  text_printf(&words, "Fixes: %zu of %zu findings that are not met %s one that is proven", proven, flagged,
              proven == 1 ? "has" : "have");
  const struct mend_joint *joint = &mends->joint;
  if (joint->mend.count > 1 && joint->held_after < joint->held_before)
    text_printf(&words, "; one set of changes mends %zu of %zu holds", joint->held_before - joint->held_after,
                joint->held_before);
  text_add_char(&words, '.');
  page_wrap(&report->page, 0, INDENT, text_end(&words));
}

// What the word promises, and what it does not: once, where it was used.
void report_explain_proven(struct report *report) {
  const struct mends *mends = report->about->mends;
  bool used = false;
  for (size_t i = 0; mends && i < mends->count; i++) used = used || mends->list[i].best.standing == MEND_PROVEN;
  if (used) {
    page_blank(&report->page);
    page_wrap(
        &report->page, 0, 0,
        "Proven: the design with that change in it was read and reviewed again; the finding was gone, and nothing "
        "new was flagged. It does not say that a thing is safe: where lives depend on it, local codes and the "
        "competent, licensed people decide.");
  }
  if (mends && mends->cut_short)
    page_wrap(&report->page, 0, 0, "Fixes were not looked for to the end: there is too much to try.");
}

// --- changes that go together

static void write_joint_changes(struct report *report, const struct mend *mend) {
  for (size_t i = 0; i < mend->count; i++) {
    struct text words = report_words(report);
    if (mend->changes[i].beside) continue;
    word_entity(&words, &report->wording, mend->changes[i].entity);
    text_add(&words, ": ");
    word_change(&words, report, &mend->changes[i], (struct telling){mend->changes[i].entity, false});
    page_wrap(&report->page, INDENT, INDENT, text_end(&words));
  }
}

static void word_outlook(struct text *text, const struct mend_joint *joint) {
  size_t held = joint->held_before - joint->held_after, revised = joint->revise_before - joint->revise_after;
  if (joint->held_after == 0 && joint->revise_after == 0) {
    text_add(text, "Nothing is held or to be revised any more");
  } else if (joint->held_after == 0) {
    text_printf(text, "Nothing is held any more, and %zu to revise are left", joint->revise_after);
  } else if (held > 0) {
    text_printf(text, "It mends %zu of %zu holds", held, joint->held_before);
    if (joint->revise_before) text_printf(text, " and leaves %zu to revise", joint->revise_after);
  } else {
    text_printf(text, "It mends %zu of %zu to revise; what is held stays held", revised, joint->revise_before);
  }
}

static void write_joint_outlook(struct report *report, const struct mend_joint *joint) {
  struct text words = report_words(report);
  word_outlook(&words, joint);
  stands *how = standings[joint->mend.standing];
  if (how) how(&words, report, &joint->mend);
  page_wrap(&report->page, INDENT, 0, text_end(&words));
  if (joint->left_count) {
    struct text left = report_words(report);
    text_add(&left, "Left: ");
    word_raised(&left, report, joint->left, joint->left_count);
    text_add_char(&left, '.');
    page_wrap(&report->page, INDENT, 6, text_end(&left));
  }
}

static void write_price(struct report *report, const struct mend_joint *joint) {
  if (!isfinite(joint->price) || fabs(joint->price) < 0.005) return;
  struct text words = report_words(report), sum = report_words(report);
  unit_write(&sum, fabs(joint->price), DIM_MONEY, (struct write_style){.system = report->wording.units});
  text_printf(&words, "By the prices stated, what is ordered and hauled costs %s %s.", text_end(&sum),
              joint->price < 0 ? "less" : "more");
  page_wrap(&report->page, INDENT, 0, text_end(&words));
}

static bool is_json(const char *file) {
  size_t length = strlen(file);
  return length > 5 && strcmp(file + length - 5, ".json") == 0;
}

void report_joint(struct report *report) {
  const struct mends *mends = report->about->mends;
  if (!mends || mends->joint.mend.count == 0) return;
  const struct mend_joint *joint = &mends->joint;
  if (joint->held_after == joint->held_before && joint->revise_after == joint->revise_before) return;
  page_heading(&report->page, joint->held_after ? "ONE SET OF CHANGES, the best that was found" : "ONE SET OF CHANGES");
  write_joint_changes(report, &joint->mend);
  write_joint_outlook(report, joint);
  write_price(report, joint);
  page_wrap(
      &report->page, INDENT, 0,
      text_phrase(report->page.text.arena,
                  "forebay review %s --apply joint --of %s -o NEW.%s, with the same --rules and --stage, writes the "
                  "design with these in it.",
                  report->about->file, report->about->digest, is_json(report->about->file) ? "json" : "lua"));
}
