// SPDX-License-Identifier: MIT
// One rule's table into a struct rule, every slip of it complained about at its own line.
#include <string.h>

#include "rulebook/limits.h"
#include "rulebook/read_rule.h"

bool rule_read_severity(const char *word, enum severity *severity) {
  for (int i = 0; i < SEVERITY_COUNT; i++) {
    if (strcmp(word, severity_name((enum severity)i)) != 0) continue;
    *severity = (enum severity)i;
    return true;
  }
  return false;
}

static void take_title(struct reading_rule *at, struct rule *rule, const struct value *value) {
  rule->facts.title = rule_text(at, value);
}
static void take_why(struct reading_rule *at, struct rule *rule, const struct value *value) {
  rule->facts.why = rule_text(at, value);
}
static void take_source(struct reading_rule *at, struct rule *rule, const struct value *value) {
  rule->facts.source = rule_text(at, value);
}
static void take_caution(struct reading_rule *at, struct rule *rule, const struct value *value) {
  rule->facts.caution = rule_text(at, value);
}

static void take_stage(struct reading_rule *at, struct rule *rule, const struct value *value) {
  const char *words[STAGE_COUNT], *word = rule_text(at, value);
  for (int i = 0; i < STAGE_COUNT; i++) {
    words[i] = stage_name((enum stage)i);
    if (!word || strcmp(words[i], word) != 0) continue;
    rule->facts.stage = (enum stage)i;
    return;
  }
  const char *nearest = word ? rule_nearest(at->arena, word, words, STAGE_COUNT) : NULL;
  if (word)
    rule_complain(at, value->line, "stage", "is no stage", word,
                  nearest ? nearest : "layout, dig, liner, stone, plumbing, power, finish or water-up");
}

static void take_severity(struct reading_rule *at, struct rule *rule, const struct value *value) {
  const char *word = rule_text(at, value);
  if (word && !rule_read_severity(word, &rule->severity))
    rule_complain(at, value->line, "severity", "is no severity", word, "hold, revise or advise");
}

static void take_life_safety(struct reading_rule *at, struct rule *rule, const struct value *value) {
  if (value->sort != VALUE_TRUTH)
    rule_complain(at, value->line, value->key, "is neither true nor false", value_shown(at->arena, value),
                  "true, or leave it out");
  rule->facts.life_safety = value->truth;
}

static void take_kind(struct reading_rule *at, struct rule *rule, const struct value *value) {
  const char *names[KIND_COUNT], *name = rule_text(at, value);
  if (!name) return;
  enum kind kind = catalogue_kind_named(name, strlen(name));
  if (kind != KIND_COUNT) {
    rule->kinds |= kind_bit(kind);
    return;
  }
  for (int i = 0; i < KIND_COUNT; i++) names[i] = catalogue_kind((enum kind)i)->name;
  const char *nearest = rule_nearest(at->arena, name, names, KIND_COUNT);
  rule_complain(at, value->line, "for_each", "is no kind of thing in a design", name,
                nearest ? nearest : "a kind such as \"spill\" or \"basin\"");
}

static void take_for_each(struct reading_rule *at, struct rule *rule, const struct value *value) {
  if (value->sort != VALUE_TABLE) {
    take_kind(at, rule, value);
    return;
  }
  if (!value->first)
    rule_complain(at, value->line, "for_each", "names no kind", "{ }", "a kind such as \"spill\", or a list of them");
  for (const struct value *member = value->first; member; member = member->next) take_kind(at, rule, member);
}

static bool take_function(struct reading_rule *at, const struct value *value, int *function) {
  if (value->stray) {
    rule_complain(at, value->line, value->key,
                  text_phrase(at->arena, "`%s` is set outside of the function, and a rule keeps nothing from outside",
                              value->stray),
                  NULL,
                  text_phrase(at->arena, "it under limit = { }, or set `%s` inside of the function", value->stray));
    return false;
  }
  *function = value->function;
  return true;
}

static void take_check(struct reading_rule *at, struct rule *rule, const struct value *value) {
  if (value->sort == VALUE_FUNCTION)
    take_function(at, value, &rule->check);
  else
    rule_complain(at, value->line, "check", "is not a function", value_shown(at->arena, value),
                  "function(entity, limit) ... end");
}

static void take_when(struct reading_rule *at, struct rule *rule, const struct value *value) {
  if (value->sort == VALUE_FUNCTION)
    take_function(at, value, &rule->when_function);
  else if (rule->kinds)
    rule_read_when(at, rule, value);
}

static void take_judges(struct reading_rule *at, struct rule *rule, const struct value *value) {
  const char *text = rule_text(at, value), *said, *right;
  if (!text || !rule->kinds) return;
  if (!path_read(&rule->judges, at->arena, text, rule->kinds, false, &said, &right))
    rule_complain(at, value->line, "judges", said, text, right);
  else if (rule->judges.sort != SORT_NUMBER && rule->judges.sort != SORT_CHOICE)
    rule_complain(at, value->line, "judges", "is neither a value nor a choice of words", text,
                  "the name of one, or a check = function(...)");
  else
    return;
  rule->judges.count = 0;
}

static void take_bound(struct reading_rule *at, struct rule *rule, const struct value *value) {
  if (rule->judges.count) limits_read_bound(at, rule, value, &rule->own);
}

static void take_limit(struct reading_rule *at, struct rule *rule, const struct value *value) {
  if (value->sort == VALUE_TABLE)
    limits_read_named(at, rule->severity, value, &rule->own);
  else
    rule_complain(at, value->line, "limit", "is not a table", value_shown(at->arena, value),
                  "limit = { least = \"40 gal/h/in\" }");
}

static void take_fix(struct reading_rule *at, struct rule *rule, const struct value *value) {
  if (value->sort == VALUE_FUNCTION)
    take_function(at, value, &rule->fix);
  else if (rule->kinds)
    rule->facts.fix = rule_read_fix(at, rule, value, UNITS_US);
  rule->facts.try_words = rule->facts.fix ? rule->facts.fix->words : NULL;
}

static void take_examples(struct reading_rule *at, struct rule *rule, const struct value *value) {
  if (value->sort == VALUE_LATER) {
    rule->examples_later = value;
    return;
  }
  rule_complain(at, value->line, "examples", "is not a list", value_shown(at->arena, value),
                "{ { \"name\", ..., outcome = \"flagged\" } }");
}

// In the order in which they are read: later ones need what earlier ones set.
static const struct key {
  const char *name;
  bool required;
  void (*take)(struct reading_rule *at, struct rule *rule, const struct value *value);
} keys[] = {{"title", true, take_title},
            {"why", true, take_why},
            {"source", true, take_source},
            {"caution", false, take_caution},
            {"stage", true, take_stage},
            {"severity", false, take_severity},
            {"life_safety", false, take_life_safety},
            {"for_each", true, take_for_each},
            {"when", false, take_when},
            {"judges", false, take_judges},
            {"at_least", false, take_bound},
            {"at_most", false, take_bound},
            {"within", false, take_bound},
            {"is", false, take_bound},
            {"limit", false, take_limit},
            {"check", false, take_check},
            {"fix", false, take_fix},
            {"examples", false, take_examples}};
enum { KEY_COUNT = sizeof keys / sizeof *keys };

static bool is_key(const char *name) {
  for (size_t i = 0; i < KEY_COUNT; i++) {
    if (strcmp(keys[i].name, name) == 0) return true;
  }
  return false;
}

static void check_keys(struct reading_rule *at, const struct value *table) {
  const char *names[KEY_COUNT];
  for (size_t i = 0; i < KEY_COUNT; i++) names[i] = keys[i].name;
  for (const struct value *member = table->first; member; member = member->next) {
    if (!member->key)
      rule_complain(at, member->line, NULL, "a value has no name before it", value_shown(at->arena, member),
                    "name = value");
    else if (!is_key(member->key))
      rule_complain(at, member->line, NULL, text_phrase(at->arena, "a rule has no `%s`", member->key), NULL,
                    rule_nearest(at->arena, member->key, names, KEY_COUNT));
  }
}

static void take_keys(struct reading_rule *at, struct rule *rule, const struct value *table) {
  for (size_t i = 0; i < KEY_COUNT; i++) {
    const struct value *value = value_member(table, keys[i].name);
    if (value && value->sort == VALUE_UNKNOWN)
      at->wrong = true;
    else if (value)
      keys[i].take(at, rule, value);
    else if (keys[i].required)
      rule_complain(at, table->line, NULL, text_phrase(at->arena, "`%s` is missing", keys[i].name), NULL, NULL);
  }
}

static bool has(const struct value *table, const char *key) { return value_member(table, key) != NULL; }

static bool any_bound(const struct value *table) {
  return has(table, "at_least") || has(table, "at_most") || has(table, "within") || has(table, "is");
}

// Either judges with a limit, or a check.
static void check_form(struct reading_rule *at, const struct value *table) {
  bool data = has(table, "judges"), function = has(table, "check");
  const char *said = NULL, *right = NULL;
  if (data && function) {
    said = "has both `judges` and `check`";
    right = "one of the two";
  } else if (!data && !function) {
    said = "says nothing to check";
    right = "`judges` with a limit, or `check = function(entity, limit) ... end`";
  } else if (data && !any_bound(table)) {
    said = "has no limit for what it judges";
    right = "`at_least`, `at_most`, `within` or `is`";
  } else if (function && any_bound(table)) {
    said = "has `check`, whose limits stand under limit = { }";
    right = "limit = { least = \"...\" }";
  } else if (data && has(table, "limit")) {
    said = "has `judges`, whose limit is `at_least`, `at_most`, `within` or `is`";
    right = "no limit = { }";
  }
  if (said) rule_complain(at, table->line, NULL, said, NULL, right);
}

static bool names_severity(const struct limits *limits, enum severity severity) {
  for (size_t i = 0; i < limits->count; i++) {
    if (limits->list[i].severity == severity) return true;
  }
  return false;
}

// `severity` may be left out where every limit names its own; where it stands beside them, it must be one of theirs.
static void check_severity(struct reading_rule *at, struct rule *rule, const struct value *table) {
  bool all = rule->own.count > 0 && rule->judges.count > 0;
  for (size_t i = 0; i < rule->own.count; i++) all = all && rule->own.list[i].by_severity;
  const struct value *severity = value_member(table, "severity");
  rule->by_severity = all;
  if (!all && !severity) rule_complain(at, table->line, NULL, "`severity` is missing", NULL, "hold, revise or advise");
  rule->facts.severity = limits_worst(&rule->own, all ? SEVERITY_ADVISE : rule->severity);
  if (all && severity && severity->sort == VALUE_TEXT && !names_severity(&rule->own, rule->severity))
    rule_complain(at, severity->line, "severity", "is none of those that its limits name", severity->text,
                  "no severity here: the limits say it");
}

static bool already_there(struct reading_rule *at, int line) {
  const struct rule *first = rulebook_rule(at->book, at->id);
  if (!first) return false;
  bool same_layer = strcmp(first->file->layer, at->file->layer) == 0;
  rule_complain(at, line, NULL,
                text_phrase(at->arena, "stands already in %s, line %d; the first one holds", first->facts.at.file,
                            first->facts.at.line),
                NULL,
                same_layer
                    ? "another name"
                    : text_phrase(at->arena, "adjust \"%s\" { ... } to change its limits, or another name", at->id));
  return true;
}

static struct rule *new_rule(struct rulebook *book, struct rule_file *file, const struct value *table, const char *id,
                             int line) {
  struct rule *rule = arena_alloc(book->arena, sizeof *rule);
  rule->file = file;
  rule->table = table;
  rule->when_function = rule->check = rule->fix = rule->limit_own = rule->limit_now = NO_REF;
  rule->facts =
      (struct rule_facts){.id = id, .discipline = file->discipline, .layer = file->layer, .at = {file->name, line}};
  book->rules = arena_grow(book->arena, book->rules, book->rule_count, &book->rule_room, sizeof(struct rule *));
  book->rules[book->rule_count++] = rule;
  return rule;
}

// What the scan for places says of this rule: a key that is given twice.
static void take_problems(struct reading_rule *at, struct rule *rule) {
  const struct rule_file *file = at->file;
  const char *where = text_phrase(at->arena, "rule \"%s\"", at->id);
  for (size_t i = 0; i < file->problem_count && !rule->facts.broken; i++) {
    const struct problem *problem = &at->book->problems.list[file->first_problem + i];
    if (!problem->where || strcmp(problem->where, where) != 0) continue;
    rule->facts.broken = text_phrase(at->arena, "%s:%d: %s", file->name, problem->at.line, problem->said);
  }
}

static const char *or_words(const char *text, const char *words) { return text ? text : words; }

void rule_read(struct rulebook *book, struct rule_file *file, const char *id, const struct value *table, int line) {
  struct reading_rule at = {
      .book = book, .arena = book->arena, .problems = &book->problems, .file = file, .verb = "rule", .id = id};
  if (already_there(&at, line)) return;
  struct rule *rule = at.rule = new_rule(book, file, table, id, line);
  take_problems(&at, rule);
  check_keys(&at, table);
  take_keys(&at, rule, table);
  check_form(&at, table);
  check_severity(&at, rule, table);
  limits_check(&at, &rule->own, line);
  rule->facts.for_each = rule->kinds;
  rule->facts.title = or_words(rule->facts.title, id);
  rule->facts.why = or_words(rule->facts.why, "");
  rule->facts.source = or_words(rule->facts.source, "");
  if (at.wrong && !rule->facts.broken)
    rule->facts.broken = text_phrase(book->arena, "%s:%d: it names something unknown", file->name, line);
  rule->now = rule->own;
  rule->severity_own = rule->severity;
}
