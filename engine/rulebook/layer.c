// SPDX-License-Identifier: MIT
// What later layers change: `adjust` and `retire`, applied after all files are read. A change that cannot be used
// leaves the rule as it was.
#include <stdlib.h>
#include <string.h>

#include "rulebook/decide.h"
#include "rulebook/limits.h"
#include "rulebook/read_rule.h"

struct rule *rulebook_rule(const struct rulebook *book, const char *id) {
  for (size_t i = 0; i < book->rule_count; i++) {
    if (strcmp(book->rules[i]->facts.id, id) == 0) return book->rules[i];
  }
  return NULL;
}

const char *rulebook_nearest(const struct rulebook *book, const char *id) {
  const char **ids = arena_array(book->arena, book->rule_count + 1, sizeof *ids);
  for (size_t i = 0; i < book->rule_count; i++) ids[i] = book->rules[i]->facts.id;
  return text_nearest(id, ids, book->rule_count);
}

// An earlier change of the same layer that says something of the same: the first one holds.
static const struct change *said_before(const struct rulebook *book, const struct change *change, const char *key) {
  for (const struct change *other = book->changes; other < change; other++) {
    bool same = strcmp(other->id, change->id) == 0 && strcmp(other->file->layer, change->file->layer) == 0;
    if (same && (other->retires || change->retires || value_member(other->table, key))) return other;
  }
  return NULL;
}

static bool disagrees(struct reading_rule *at, const struct change *change, const struct value *member) {
  const struct change *other = said_before(at->book, change, member->key);
  if (!other || strcmp(member->key, "because") == 0) return false;
  rule_complain(at, member->line, member->key,
                text_phrase(at->arena, "%s says otherwise in %s, line %d; the first one holds",
                            other->retires ? "a retire" : "an adjust", other->file->name, other->line),
                NULL, "one of the two");
  return true;
}

static void replace_named(struct arena *arena, struct limits *limits, const struct limits *with) {
  struct limits kept = {0};
  for (size_t i = 0; i < limits->count; i++) {
    bool replaced = false;
    for (size_t k = 0; k < with->count; k++)
      replaced = replaced || strcmp(with->list[k].name, limits->list[i].name) == 0;
    if (!replaced) *limits_add(arena, &kept) = limits->list[i];
  }
  for (size_t k = 0; k < with->count; k++) *limits_add(arena, &kept) = with->list[k];
  *limits = kept;
}

static const struct limit *limit_named(const struct limits *limits, const char *name) {
  for (size_t i = 0; i < limits->count; i++) {
    if (strcmp(limits->list[i].name, name) == 0) return &limits->list[i];
  }
  return NULL;
}

static const char *limit_names(struct arena *arena, const struct limits *limits) {
  struct text text = text_in(arena);
  for (size_t i = 0; i < limits->count; i++) {
    if (i && strcmp(limits->list[i].name, limits->list[i - 1].name) == 0) continue;
    text_printf(&text, "%s`%s`", text.length ? " or " : "", limits->list[i].name);
  }
  return text.length ? text_end(&text) : NULL;
}

// A new limit must be of the sort of the one it takes the place of.
static void check_replacing(struct reading_rule *at, const struct limits *had, const struct limits *with) {
  for (size_t i = 0; i < with->count && !at->wrong; i++) {
    const struct limit *limit = &with->list[i], *old = limit_named(had, limit->name);
    if (!old)
      rule_complain(at, limit->at.line, NULL, text_phrase(at->arena, "the rule has no limit `%s`", limit->name), NULL,
                    limit_names(at->arena, had));
    else if ((old->words == NULL) != (limit->words == NULL) || !powers_equal(old->powers, limit->powers))
      rule_complain(at, limit->at.line, limit->name, "is not of the sort that the rule asks for", limit->text,
                    text_phrase(at->arena, "a value such as \"%s\"", old->text));
  }
}

struct adjusting {
  struct rule *rule;
  struct limits with;
  enum severity severity;
  bool sets_severity;
  struct place severity_at;
  const char *because;
};

static void adjust_severity(struct reading_rule *at, struct adjusting *adjusting, const struct value *value) {
  const char *word = rule_text(at, value);
  if (word && !rule_read_severity(word, &adjusting->severity))
    rule_complain(at, value->line, "severity", "is no severity", word, "hold, revise or advise");
  adjusting->sets_severity = true;
  adjusting->severity_at = (struct place){at->file->name, value->line};
}

static void adjust_key(struct reading_rule *at, struct adjusting *adjusting, const struct value *member) {
  static const char *const names[] = {"at_least", "at_most", "within", "is", "limit", "severity", "because"};
  struct rule *rule = adjusting->rule;
  bool data = rule->judges.count > 0;
  if (!member->key)
    rule_complain(at, member->line, NULL, "a value has no name before it", value_shown(at->arena, member),
                  "name = value");
  else if (strcmp(member->key, "because") == 0)
    adjusting->because = rule_text(at, member);
  else if (strcmp(member->key, "severity") == 0)
    adjust_severity(at, adjusting, member);
  else if (strcmp(member->key, "limit") == 0 && !data && member->sort == VALUE_TABLE)
    limits_read_named(at, rule->severity, member, &adjusting->with);
  else if (!data || !limits_read_bound(at, rule, member, &adjusting->with))
    rule_complain(at, member->line, NULL, text_phrase(at->arena, "`%s` cannot be adjusted in this rule", member->key),
                  NULL,
                  data ? rule_nearest(at->arena, member->key, names, sizeof names / sizeof *names)
                       : text_phrase(at->arena, "limit = { %s = \"...\" }, severity or because",
                                     rule->own.count ? rule->own.list[0].name : "..."));
}

// `severity` of an adjust must still say something: limits by severity say their own.
static void check_adjusted_severity(struct reading_rule *at, const struct adjusting *adjusting,
                                    const struct limits *now, int line) {
  for (size_t i = 0; adjusting->sets_severity && i < now->count; i++) {
    if (!now->list[i].by_severity || adjusting->rule->judges.count == 0) continue;
    rule_complain(at, line, "severity", "is said by the rule's limits", NULL,
                  "the limits by severity: at_most = { revise = \"...\", hold = \"...\" }");
    return;
  }
}

// What held holds no more.
static bool takes_a_hold_away(const struct adjusting *adjusting) {
  return adjusting->sets_severity && adjusting->severity < SEVERITY_HOLD &&
         adjusting->rule->facts.severity == SEVERITY_HOLD;
}

// A rule that holds, or on which lives depend, is softened for a reason that others can read, or not at all.
static void check_softening(struct reading_rule *at, const struct adjusting *adjusting, int line) {
  const struct rule *rule = adjusting->rule;
  if (!rule->facts.life_safety && !adjusting->because && !at->wrong && takes_a_hold_away(adjusting))
    rule_complain(at, line, NULL, "this rule holds, and `because` is missing", NULL,
                  "because = \"why this firm digs all the same\"");
  if (!rule->facts.life_safety || adjusting->because || at->wrong) return;
  bool milder = adjusting->sets_severity &&
                (adjusting->severity < rule->facts.severity || adjusting->severity < rule->severity_own);
  bool eased = limits_soften(&rule->now, &adjusting->with) || limits_soften(&rule->own, &adjusting->with);
  if (!milder && !eased) return;
  rule_complain(at, line, NULL, "lives depend on this rule, and `because` is missing", NULL,
                "because = \"why this firm may do otherwise\"");
}

static void put_in_force(struct rule *rule, const struct adjusting *adjusting, struct limits now, const char *layer) {
  if (adjusting->sets_severity) rule->severity = adjusting->severity;
  for (size_t i = 0; i < now.count; i++) {
    if (!now.list[i].by_severity) now.list[i].severity = rule->severity;
  }
  rule->now = now;
  bool all = rule->judges.count > 0 && now.count > 0;
  for (size_t i = 0; i < now.count; i++) all = all && now.list[i].by_severity;
  rule->facts.severity = limits_worst(&now, all ? SEVERITY_ADVISE : rule->severity);
  rule->facts.adjusted_by = layer;
  rule->facts.because = adjusting->because;
}

// A later layer's adjust puts a retired rule in force again.
static void take_back(struct rulebook *book, const struct deciding *deciding, struct rule *rule) {
  size_t kept = 0;
  for (size_t i = 0; i < book->retired_count; i++) {
    if (strcmp(book->retired[i].id, rule->facts.id) != 0) book->retired[kept++] = book->retired[i];
  }
  book->retired_count = kept;
  rule->retired = false;
  decide_back(deciding);
}

static void add_retired(struct rulebook *book, const struct rule *rule, const struct change *change,
                        const char *because) {
  struct retired_rule *list = arena_array(book->arena, book->retired_count + 1, sizeof *list);
  for (size_t i = 0; i < book->retired_count; i++) list[i] = book->retired[i];
  list[book->retired_count++] = (struct retired_rule){rule->facts.id, rule->facts.title, change->file->layer, because};
  book->retired = list;
}

static void decide(struct rulebook *book, const struct change *change, const struct adjusting *adjusting) {
  struct deciding deciding = {book, adjusting->rule, change, adjusting->because};
  if (adjusting->rule->retired) take_back(book, &deciding, adjusting->rule);
  decide_limits(&deciding, &adjusting->with);
  if (adjusting->sets_severity) decide_severity(&deciding, adjusting->severity, adjusting->severity_at);
}

// A key that is given twice: which of the two would hold nobody can tell, so neither does.
static bool is_doubled(struct reading_rule *at, const struct change *change) {
  const struct rule_file *file = change->file;
  const char *where = text_phrase(at->arena, "%s \"%s\"", at->verb, at->id);
  for (size_t i = 0; i < file->problem_count; i++) {
    const struct problem *problem = &at->book->problems.list[file->first_problem + i];
    if (problem->where && strcmp(problem->where, where) == 0) return true;
  }
  return false;
}

static void apply_adjust(struct reading_rule *at, const struct change *change, struct rule *rule) {
  struct adjusting adjusting = {.rule = rule};
  for (const struct value *member = change->table->first; member; member = member->next) {
    if (member->sort == VALUE_UNKNOWN)
      at->wrong = true;
    else if (!member->key || !disagrees(at, change, member))
      adjust_key(at, &adjusting, member);
  }
  struct limits now = {0};
  replace_named(at->arena, &now, &rule->now);
  check_replacing(at, &rule->now, &adjusting.with);
  replace_named(at->arena, &now, &adjusting.with);
  limits_check(at, &now, change->line);
  check_adjusted_severity(at, &adjusting, &now, change->line);
  if (rule->by_severity && !at->wrong && adjusting.with.count) {
    for (size_t i = 0; i < adjusting.with.count; i++) {
      if (adjusting.with.list[i].by_severity || adjusting.sets_severity) continue;
      rule_complain(at, change->line, NULL, "the rule's limits are by severity, so this one needs a severity",
                    adjusting.with.list[i].text, "{ revise = \"...\", hold = \"...\" }, or severity = \"...\" with it");
      break;
    }
  }
  check_softening(at, &adjusting, change->line);
  if (at->wrong || is_doubled(at, change)) return;
  decide(at->book, change, &adjusting);
  put_in_force(rule, &adjusting, now, change->file->layer);
}

static void apply_retire(struct reading_rule *at, const struct change *change, struct rule *rule) {
  const struct value *because = value_member(change->table, "because");
  const char *reason = because ? rule_text(at, because) : NULL;
  for (const struct value *member = change->table->first; member; member = member->next) {
    if (member == because) continue;
    rule_complain(
        at, member->line, NULL,
        text_phrase(at->arena, "a retire has no `%s`", member->key ? member->key : value_shown(at->arena, member)),
        NULL, "`because` alone");
  }
  const struct change *other = said_before(at->book, change, "");
  if (other)
    rule_complain(at, change->line, NULL,
                  text_phrase(at->arena, "the same layer adjusts or retires it already in %s, line %d; that one holds",
                              other->file->name, other->line),
                  NULL, "one of the two");
  if (!because)
    rule_complain(at, change->line, NULL, "`because` is missing", NULL,
                  "because = \"why this rule is not for this firm\"");
  if (at->wrong || is_doubled(at, change)) return;
  if (rule->retired) return;  // an earlier layer said so already
  decide_retired(&(struct deciding){at->book, rule, change, reason});
  rule->retired = true;
  add_retired(at->book, rule, change, reason);
}

// The same layer's retire of this rule, earlier; NULL: none.
static const struct change *retired_before(const struct rulebook *book, const struct change *change) {
  for (const struct change *other = book->changes; other < change; other++) {
    bool same = strcmp(other->id, change->id) == 0 && strcmp(other->file->layer, change->file->layer) == 0;
    if (same && other->retires) return other;
  }
  return NULL;
}

static void refuse_adjust(struct reading_rule *at, const struct change *change, const struct change *other) {
  rule_complain(at, change->line, NULL,
                text_phrase(at->arena, "the same layer retires it in %s, line %d; that one holds", other->file->name,
                            other->line),
                NULL, "one of the two");
}

static void apply_change(struct rulebook *book, struct change *change) {
  struct reading_rule at = {.book = book,
                            .arena = book->arena,
                            .problems = &book->problems,
                            .file = change->file,
                            .verb = change->retires ? "retire" : "adjust",
                            .id = change->id};
  struct rule *rule = rulebook_rule(book, change->id);
  if (!rule) {
    const char *nearest = rulebook_nearest(book, change->id);
    rule_complain(&at, change->line, NULL, "there is no such rule", NULL,
                  nearest ? text_phrase(book->arena, "`%s`, if that is meant", nearest) : NULL);
  } else if (!change->retires && retired_before(book, change)) {
    refuse_adjust(&at, change, retired_before(book, change));
  } else if (change->retires) {
    apply_retire(&at, change, rule);
  } else {
    apply_adjust(&at, change, rule);
  }
}

// ---- facts ---------------------------------------------------------------------------------------------------------

static void state_limits(struct arena *arena, struct rule *rule) {
  struct rule_limit *list = arena_array(arena, rule->now.count + 1, sizeof *list);
  for (size_t i = 0; i < rule->now.count; i++) {
    const struct limit *limit = &rule->now.list[i];
    list[i] = (struct rule_limit){.name = limit->name,
                                  .text = limit->text ? limit->text : "",
                                  .severity = limit->severity,
                                  .layer = limit->layer,
                                  .at = limit->at};
  }
  rule->facts.limits = list;
  rule->facts.limit_count = rule->now.count;
}

static void state_facts(struct rulebook *book) {
  book->facts = arena_array(book->arena, book->rule_count + 1, sizeof *book->facts);
  book->in_force = arena_array(book->arena, book->rule_count + 1, sizeof(struct rule *));
  for (size_t i = 0; i < book->rule_count; i++) {
    struct rule *rule = book->rules[i];
    if (rule->retired) continue;
    state_limits(book->arena, rule);
    book->in_force[book->fact_count] = rule;
    book->facts[book->fact_count++] = rule->facts;
  }
}

static void make_tables(struct rulebook *book, struct rule *rule) {
  if (rule->facts.broken || (rule->check == NO_REF && rule->when_function == NO_REF && rule->fix == NO_REF)) return;
  rule->limit_own = limits_push_table(book, &rule->own);
  rule->limit_now = limits_push_table(book, &rule->now);
  if (rule->limit_own == NO_REF || rule->limit_now == NO_REF) rule->facts.broken = "no memory is left for its limits";
}

void rulebook_apply_changes(struct rulebook *book) {
  for (size_t i = 0; i < book->change_count; i++) apply_change(book, &book->changes[i]);
  decide_finish(book);
  for (size_t i = 0; i < book->rule_count; i++) make_tables(book, book->rules[i]);
  state_facts(book);
}

struct rule_facts *rulebook_facts(const struct rulebook *book, const char *id) {
  for (size_t i = 0; i < book->fact_count; i++) {
    if (strcmp(book->facts[i].id, id) == 0) return &book->facts[i];
  }
  return NULL;
}

bool rulebook_break(struct rulebook *book, const char *id, const char *because) {
  struct rule *rule = rulebook_rule(book, id);  // a retired one runs too, to say what the firm's layers change
  if (!rule) return false;
  rule->facts.broken = arena_words(book->arena, because);
  struct rule_facts *facts = rulebook_facts(book, id);
  if (facts) facts->broken = rule->facts.broken;
  return true;
}

const struct rule_facts *rulebook_rules(const struct rulebook *book, size_t *count) {
  *count = book->fact_count;
  return book->facts;
}

const struct rule_facts *rulebook_find(const struct rulebook *book, const char *id) { return rulebook_facts(book, id); }

const struct retired_rule *rulebook_retired(const struct rulebook *book, size_t *count) {
  *count = book->retired_count;
  return book->retired;
}
