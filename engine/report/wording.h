// SPDX-License-Identifier: MIT
// Values, givens and outcomes in words: templates over the rows. Chooses nothing: what is said is handed in.
#ifndef FOREBAY_REPORT_WORDING_H
#define FOREBAY_REPORT_WORDING_H

#include "review/review.h"
#include "units/unit.h"

struct wording {
  struct evaluation *ev;
  enum unit_system units;
};

void word_entity(struct text *text, const struct wording *wording, int entity);  // -1: "the design"
void word_name(struct text *text, const struct wording *wording, int entity);    // its name alone, where it has one

// A value as it stands: "18 in", "type C", "open", `basin "lower"`, "3 of them"; "not given", "could not be worked
// out".
void word_value(struct text *text, const struct wording *wording, int entity, enum row_id row);
// Any number, shown as values of the row are.
void word_number(struct text *text, const struct wording *wording, enum row_id row, double value);
bool word_has_value(const struct wording *wording, int entity, enum row_id row);  // lists have one always
// Where it comes from: "given, line 12", "a default", "measured with a bucket; 1,530 gal/h is worked out".
// Nothing for a value that is not there, nor for what refers to the entity.
// " by house (house.lua:40)" of a value that a firm's layer put in; nothing of others.
void word_said_by(struct text *text, const struct wording *wording, int entity, enum row_id row);
void word_origin(struct text *text, const struct wording *wording, int entity, enum row_id row);

// The words that a choice takes: "fenced, adults, children or public". Adds nothing for other rows.
void word_choice_list(struct text *text, enum row_id row);
// A row's formula or check without its braces.
void word_formula(struct text *text, const char *formula);
void word_source(struct text *text, enum source source);  // title and mark

// A slot to fill, seen from `entity`: "who can get to the edge (reach)", "soil class (site.soil)".
void word_slot(struct text *text, const struct wording *wording, int slot, int seen_from);
void word_slot_because(struct text *text, const struct wording *wording,
                       int slot);  // ": measure it instead", or nothing
// Slots to fill, the first few of them: "missing: who can get to the edge (reach); and 2 more".
void word_missing(struct text *text, const struct wording *wording, const int *slots, size_t count, int seen_from);
// What stands between an unanswered outcome and its answer: "unanswered; not given: ...".
void word_unanswered(struct text *text, const struct wording *wording, const struct outcome *outcome);

// What would fill a slot: `site.utilities: located or not located`, `site.test_hole: such as 2 ft 6 in`.
void word_find_out(struct text *text, const struct wording *wording, int slot);

// A comparison that was not satisfied, of an outcome on `entity`:
// "share of its height below ground is 8 %, at least 17 % is asked (9 % short)"; the three figures agree as printed.
void word_comparison(struct text *text, const struct wording *wording, int entity, const struct comparison *comparison);
// The comparison that decided an outcome, with the doubt that is on it; or what it waits for, or why it broke.
void word_outcome(struct text *text, const struct wording *wording, const struct outcome *outcome);
// The same of a clear one in few words, the doubt left out: "rim over still water 4 1/2 in, at least 0 in asked".
void word_outcome_short(struct text *text, const struct wording *wording, const struct outcome *outcome);

void word_doubt(struct text *text);                                                   // behind a value that is in doubt
void word_count(struct text *text, size_t count, const char *one, const char *many);  // "1 rule", "1,204 rules"

#endif
