// SPDX-License-Identifier: MIT
// Rules as text for people, in 80 columns.
#include <string.h>

#include "rulebook/describe_inside.h"

enum { ID_COLUMN = 10, TITLE_COLUMN = 38 };

void describe_pad(struct text *text, size_t from, size_t width) {
  size_t written = text->length - from;
  text_add_many(text, ' ', written < width ? width - written : 1);
}

static void add_capitals(struct text *text, const char *words) {
  for (; *words; words++) text_add_char(text, *words >= 'a' && *words <= 'z' ? (char)(*words - 'a' + 'A') : *words);
}

// A name too long for its column has a line of its own.
static void list_rule(struct text *text, const struct rule_facts *rule) {
  size_t from = text->length;
  text_printf(text, "  %s", rule->broken ? "BROKEN" : severity_name(rule->severity));
  describe_pad(text, from, ID_COLUMN);
  text_printf(text, "%s%s", rule->id, rule->life_safety ? " !" : "");
  if (text->length - from >= TITLE_COLUMN) {
    text_add_char(text, '\n');
    from = text->length;
  }
  describe_pad(text, from, TITLE_COLUMN);
  text_wrap(text, rule->title, TITLE_COLUMN, WIDTH);
}

void describe_end_line(struct text *text) {
  if (text->length && text->at[text->length - 1] != '\n') text_add_char(text, '\n');
}

static void list_stage(const struct rulebook *book, struct text *text, enum stage stage) {
  bool headed = false;
  for (size_t i = 0; i < book->fact_count; i++) {
    if (book->facts[i].stage != stage) continue;
    if (!headed) {
      add_capitals(text, stage_name(stage));
      text_add_char(text, '\n');
    }
    headed = true;
    list_rule(text, &book->facts[i]);
    describe_end_line(text);
  }
  if (headed) text_add_char(text, '\n');
}

void rulebook_list(const struct rulebook *book, struct text *text) {
  size_t broken = 0;
  for (int stage = 0; stage < STAGE_COUNT; stage++) list_stage(book, text, (enum stage)stage);
  list_firm(book, text);
  for (size_t i = 0; i < book->fact_count; i++) broken += book->facts[i].broken != NULL;
  text_printf(text, "%zu %s in force", book->fact_count - broken, book->fact_count - broken == 1 ? "rule" : "rules");
  if (broken) text_printf(text, ", %zu broken", broken);
  if (book->retired_count) text_printf(text, ", %zu retired", book->retired_count);
  text_add(text, ".\nA ! marks a matter of life and limb: no answer counts as held.\n");
}

// ---- one rule ------------------------------------------------------------------------------------------------------

void describe_labelled(struct text *text, const char *label, const char *words) {
  if (!words || !*words) return;
  size_t from = text->length;
  text_add(text, label);
  describe_pad(text, from, LABEL_WIDTH);
  text_wrap(text, words, LABEL_WIDTH, WIDTH);
  describe_end_line(text);
}

static const char *kinds_of(struct arena *arena, uint64_t kinds) {
  struct text text = text_in(arena);
  catalogue_write_kinds(&text, kinds, ", ");
  return text_end(&text);
}

static void add_requirement(struct text *words, const struct requirement *when) {
  text_printf(words, "%s%s ", words->length ? "; " : "", when->path.text);
  if (when->sort != WHEN_WORD)
    text_printf(words, "%s %s", when->sort == WHEN_AT_LEAST ? "at least" : "at most", when->text);
  for (size_t i = 0; i < when->word_count; i++) text_printf(words, "%s%s", i ? " or " : "is ", when->words[i]);
}

static const char *when_of(struct arena *arena, const struct rule *rule) {
  struct text words = text_in(arena);
  for (size_t i = 0; i < rule->when_count; i++) add_requirement(&words, &rule->when[i]);
  if (rule->when_function != NO_REF) text_printf(&words, "%sas its function says", words.length ? "; " : "");
  return text_end(&words);
}

static const char *spaced(struct arena *arena, const char *name) {
  char *words = arena_copy(arena, name, strlen(name));
  for (char *c = words; *c; c++) {
    if (*c == '_') *c = ' ';
  }
  return words;
}

static const char *limit_name(struct arena *arena, const struct limit *limit) {
  if (strcmp(limit->name, "within") != 0) return spaced(arena, limit->name);
  return limit->sense == SENSE_AT_LEAST ? "at least" : "at most";
}

static void add_limits(struct text *text, const struct rule *rule) {
  for (size_t i = 0; i < rule->now.count; i++) {
    const struct limit *limit = &rule->now.list[i];
    struct text words = text_in(text->arena);
    text_printf(&words, "%s %s", limit_name(text->arena, limit), limit->text ? limit->text : "?");
    if (limit->by_severity) text_printf(&words, ", else %s", severity_name(limit->severity));
    text_printf(&words, " (%s, %s:%d)", limit->layer, limit->at.file, limit->at.line);
    describe_labelled(text, i ? "" : "limit", text_end(&words));
  }
}

static void describe_rule(struct text *text, const struct rulebook *book, const struct rule *rule,
                          const struct rule_facts *facts) {
  struct arena *arena = text->arena;
  describe_labelled(text, "rule", facts->id);
  describe_labelled(text, "title", facts->title);
  describe_labelled(text, "severity",
                    facts->life_safety ? text_phrase(arena, "%s; a matter of life and limb: no answer counts as held",
                                                     severity_name(facts->severity))
                                       : severity_name(facts->severity));
  describe_labelled(text, "stage", stage_name(facts->stage));
  describe_labelled(text, "for each", kinds_of(arena, facts->for_each));
  describe_labelled(text, "when", when_of(arena, rule));
  describe_labelled(text, "judges",
                    rule->judges.count
                        ? text_phrase(arena, "%s: %s", rule->judges.text, rule->judges.says ? rule->judges.says : "")
                        : "by its check function");
  add_limits(text, rule);
  describe_decisions(book, text, facts->id);
  describe_labelled(text, "why", facts->why);
  describe_labelled(text, "fix", facts->try_words);
  describe_labelled(text, "caution", facts->caution);
  describe_labelled(text, "source", facts->source);
  describe_labelled(text, "written in", text_phrase(arena, "%s:%d (%s)", facts->at.file, facts->at.line, facts->layer));
  describe_labelled(text, "broken", facts->broken);
}

bool rulebook_describe(const struct rulebook *book, const char *id, struct text *text) {
  const struct rule *rule = rulebook_rule(book, id);
  const struct rule_facts *facts = rulebook_facts(book, id);
  if (rule) describe_rule(text, book, rule, facts ? facts : &rule->facts);
  return rule != NULL;
}
