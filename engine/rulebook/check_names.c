// SPDX-License-Identifier: MIT
// What a rule's functions read of their entity and of their limits, found in the text of the file and not by running
// it: a name is checked on every branch. `spill.into.rim` is followed step by step, and so are
// `local pool = spill.into` and `for _, stone in ipairs(pool.stones_beside)`. A name that is set more than once in a
// function could stand for anything and is left alone.
#include <string.h>

#include "design/lua_tokens.h"
#include "design/settle.h"
#include "rulebook/check.h"

enum { NAMES_MOST = 60 };

struct named {
  const struct token *name;
  int times;       // declared or assigned
  uint64_t kinds;  // what it is known to be; 0: anything
  bool limits;     // it is the table of the limits
};

struct scan {
  struct checking *checking;
  const char *bytes;
  const struct token *at, *end;  // of the function's body
  struct named names[NAMES_MOST];
  size_t count;
  bool quiet;  // complaints come when the path is walked once more
};

// ---- tokens --------------------------------------------------------------------------------------------------------

static bool is_word(const char *bytes, const struct token *token, const char *word) {
  size_t length = strlen(word);
  return token->sort == TOKEN_NAME && token->to - token->from == length &&
         memcmp(bytes + token->from, word, length) == 0;
}

static bool is_mark(const struct token *token, char mark) { return token->sort == TOKEN_MARK && token->mark == mark; }

static bool same_name(const char *bytes, const struct token *a, const struct token *b) {
  return a->to - a->from == b->to - b->from && memcmp(bytes + a->from, bytes + b->from, a->to - a->from) == 0;
}

static int opens(const char *bytes, const struct token *token) {
  static const char *const words[] = {"function", "if", "do", "repeat"};
  for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
    if (is_word(bytes, token, words[i])) return 1;
  }
  return is_word(bytes, token, "end") || is_word(bytes, token, "until") ? -1 : 0;
}

// From `function` to behind its `end`.
static const struct token *end_of_function(const char *bytes, const struct token *at) {
  int depth = 0;
  for (; at->sort != TOKEN_END; at++) {
    depth += opens(bytes, at);
    if (depth == 0) return at;
  }
  return at;
}

// ---- names of the function -----------------------------------------------------------------------------------------

static struct named *find(struct scan *scan, const struct token *name) {
  for (size_t i = 0; i < scan->count; i++) {
    if (same_name(scan->bytes, scan->names[i].name, name)) return &scan->names[i];
  }
  return NULL;
}

static struct named *declare(struct scan *scan, const struct token *name) {
  struct named *named = find(scan, name);
  if (!named && scan->count < NAMES_MOST) {
    named = &scan->names[scan->count++];
    *named = (struct named){.name = name};
  }
  if (named) named->times++;
  return named;
}

// `a, b, c`: declares each; behind them.
static const struct token *declare_list(struct scan *scan, const struct token *at) {
  while (at->sort == TOKEN_NAME) {
    declare(scan, at++);
    if (!is_mark(at, ',')) break;
    at++;
  }
  return at;
}

static bool follows_point(const struct scan *scan, const struct token *at) {
  return at > scan->at && (is_mark(at - 1, '.') || is_mark(at - 1, ':'));
}

// Behind what is declared at this token; the next token where nothing is.
static const struct token *declare_at(struct scan *scan, const struct token *at) {
  if (is_word(scan->bytes, at, "local")) return declare_list(scan, at + 1 + is_word(scan->bytes, at + 1, "function"));
  if (is_word(scan->bytes, at, "for")) return declare_list(scan, at + 1);
  if (is_word(scan->bytes, at, "function")) {
    while (at < scan->end && !is_mark(at, '(')) at++;
    return declare_list(scan, at + 1);
  }
  if (at->sort == TOKEN_NAME && is_mark(at + 1, '=') && !follows_point(scan, at)) declare(scan, at);
  return at + 1;
}

// ---- paths ---------------------------------------------------------------------------------------------------------

struct reached {
  uint64_t kinds, members;  // an entity of these; a list of these
  const struct row *row;    // a number or a word; NULL: neither, or of several sorts
};

static struct reached reached_by(const struct row *row) {
  if (row->sort == SORT_REFERENCE) return (struct reached){.kinds = row->targets};
  if (row->sort == SORT_REFERENCES) return (struct reached){.members = row->targets};
  if (row->sort == SORT_PARTS || row->sort == SORT_BACK) return (struct reached){.members = kind_bit(row->part)};
  return (struct reached){.row = row_is_number(row) || row->sort == SORT_CHOICE ? row : NULL};
}

static bool is_for_all(const char *name) { return strcmp(name, "kind") == 0 || strcmp(name, "name") == 0; }

static void complain_name(struct scan *scan, const struct token *token, uint64_t kinds, const char *name) {
  struct checking *checking = scan->checking;
  if (scan->quiet) return;
  struct text said = text_in(checking->arena);
  const char *nearest = catalogue_nearest_row(checking->arena, kinds, name, true);
  text_add(&said, "a ");
  catalogue_write_kinds(&said, kinds, " or ");
  text_printf(&said, " has no `%s`", name);
  check_complain(checking, token->line, NULL, text_end(&said), NULL,
                 nearest ? text_phrase(checking->arena, "`%s`, if that is meant", nearest) : NULL);
}

// One step of a path. A name that is not there is told, and leads to nothing.
static struct reached step(struct scan *scan, const struct token *token, uint64_t kinds) {
  const char *name = arena_copy(scan->checking->arena, scan->bytes + token->from, token->to - token->from);
  enum kind single = catalogue_kind_named(name, strlen(name));
  struct reached reached = {0};
  bool known = is_for_all(name);
  for (int kind = 0; kind < KIND_COUNT; kind++) {
    enum row_id row =
        kinds_hold(kinds, (enum kind)kind) ? catalogue_row_named((enum kind)kind, name, strlen(name)) : ROW_COUNT;
    if (row == ROW_COUNT) continue;
    struct reached one = reached_by(catalogue_row(row));
    known = true;
    reached.kinds |= one.kinds;
    reached.members |= one.members;
    reached.row = one.row;
  }
  if (known) return reached;
  if (single != KIND_COUNT && catalogue_kind(single)->single) return (struct reached){.kinds = kind_bit(single)};
  complain_name(scan, token, kinds, name);
  return reached;
}

// Behind the path that begins at a name; where it leads.
static const struct token *walk(struct scan *scan, const struct token *at, uint64_t kinds, struct reached *reached) {
  *reached = (struct reached){.kinds = kinds};
  for (at++; is_mark(at, '.') && at[1].sort == TOKEN_NAME; at += 2) {
    if (!reached->kinds) break;
    *reached = step(scan, at + 1, reached->kinds);
  }
  if (is_mark(at, '.') || is_mark(at, '(') || is_mark(at, '[') || is_mark(at, ':')) *reached = (struct reached){0};
  return at;
}

static const struct token *walk_quietly(struct scan *scan, const struct token *at, uint64_t kinds,
                                        struct reached *reached) {
  scan->quiet = true;
  const struct token *behind = walk(scan, at, kinds, reached);
  scan->quiet = false;
  return behind;
}

static void check_limit_name(struct scan *scan, const struct token *token) {
  struct checking *checking = scan->checking;
  const struct limits *limits = &checking->rule->own;
  const char *name = arena_copy(checking->arena, scan->bytes + token->from, token->to - token->from);
  const char **names = arena_array(checking->arena, limits->count + 1, sizeof *names);
  for (size_t i = 0; i < limits->count; i++) {
    names[i] = limits->list[i].name;
    if (strcmp(names[i], name) == 0) return;
  }
  const char *nearest = text_nearest(name, names, limits->count);
  check_complain(checking, token->line, NULL, text_phrase(checking->arena, "the rule has no limit `%s`", name), NULL,
                 nearest ? text_phrase(checking->arena, "`%s`, if that is meant", nearest)
                         : text_phrase(checking->arena, "limit = { %s = \"...\" }", name));
}

// ---- the function --------------------------------------------------------------------------------------------------

static bool ends_statement(const struct scan *scan, const struct token *at) {
  static const char *const operators[] = {"and", "or"};
  for (size_t i = 0; i < sizeof operators / sizeof *operators; i++) {
    if (is_word(scan->bytes, at, operators[i])) return false;
  }
  return at->sort == TOKEN_NAME || at->sort == TOKEN_END || is_mark(at, ';');
}

static uint64_t known_kinds(struct scan *scan, const struct token *at) {
  const struct named *named = at->sort == TOKEN_NAME && !follows_point(scan, at) ? find(scan, at) : NULL;
  return named && named->times == 1 ? named->kinds : 0;
}

// `local pool = spill.into`: from then on pool is known.
static void learn_local(struct scan *scan, const struct token *at) {
  struct named *named = find(scan, at + 1);
  uint64_t kinds = is_mark(at + 2, '=') ? known_kinds(scan, at + 3) : 0;
  struct reached reached;
  if (!named || !kinds) return;
  if (ends_statement(scan, walk_quietly(scan, at + 3, kinds, &reached))) named->kinds = reached.kinds;
}

// `for _, stone in ipairs(pool.stones_beside) do`
static void learn_loop(struct scan *scan, const struct token *at) {
  if (at + 6 >= scan->end || !is_mark(at + 2, ',') || !is_word(scan->bytes, at + 4, "in") ||
      !is_word(scan->bytes, at + 5, "ipairs") || !is_mark(at + 6, '('))
    return;
  struct named *named = find(scan, at + 3);
  uint64_t kinds = known_kinds(scan, at + 7);
  struct reached reached;
  if (!named || !kinds) return;
  if (is_mark(walk_quietly(scan, at + 7, kinds, &reached), ')')) named->kinds = reached.members;
}

// ---- comparisons that are never true, and say nothing --------------------------------------------------------------

static bool compares_equal(const struct scan *scan, const struct token *at) {
  const char *bytes = scan->bytes + at->from;
  return at->sort == TOKEN_MARK && at->to - at->from == 2 &&
         (memcmp(bytes, "==", 2) == 0 || memcmp(bytes, "~=", 2) == 0);
}

// A count and a share are plain numbers in a function; all else has a unit.
static bool is_plain(const struct row *row) { return row->dimension == DIM_COUNT || row->dimension == DIM_RATIO; }

static void check_word(struct scan *scan, const struct token *text, const struct row *row) {
  struct checking *checking = scan->checking;
  size_t length;
  const char *word = lua_token_text(checking->arena, scan->bytes, text, &length);
  if (catalogue_word_named(row->words, word, length) != WORD_COUNT) return;
  check_complain(checking, text->line, NULL, text_phrase(checking->arena, "`%s` is never this word", row->name),
                 arena_copy(checking->arena, word, length), store_word_choices(checking->arena, row->words));
}

// `spill.drop == 24`, `basin.purpose == "bowel"`, `pipe.valve == nil`. at: behind the path.
static void check_equality(struct scan *scan, const struct token *at, const struct row *row) {
  struct checking *checking = scan->checking;
  if (!row || at + 1 >= scan->end || !compares_equal(scan, at)) return;
  if (at[1].sort == TOKEN_NUMBER && row->sort != SORT_CHOICE && !is_plain(row))
    check_complain(checking, at->line, NULL,
                   text_phrase(checking->arena, "`%s` has a unit and never equals a plain number", row->name), NULL,
                   "q\"...\" with its unit in the place of the number, or at_least and at_most");
  if (at[1].sort == TOKEN_TEXT && row->sort == SORT_CHOICE) check_word(scan, &at[1], row);
  if (is_word(scan->bytes, &at[1], "nil"))
    check_complain(checking, at->line, NULL, "a rule cannot ask whether something is there", NULL,
                   "the comparison without it: what is missing makes the rule unanswered");
}

static void check_body(struct scan *scan) {
  struct reached reached;
  for (const struct token *at = scan->at; at < scan->end; at++) {
    if (is_word(scan->bytes, at, "local")) learn_local(scan, at);
    if (is_word(scan->bytes, at, "for")) learn_loop(scan, at);
    const struct named *named = at->sort == TOKEN_NAME && !follows_point(scan, at) ? find(scan, at) : NULL;
    if (!named || named->times != 1 || !is_mark(at + 1, '.') || at[2].sort != TOKEN_NAME) continue;
    if (named->limits)
      check_limit_name(scan, at + 2);
    else if (named->kinds) {
      const struct token *behind = walk(scan, at, named->kinds, &reached);
      check_equality(scan, behind, reached.row);
      at = behind - 1;
    }
  }
}

// at: the `function` of a check, when or fix.
static void check_function(struct checking *checking, const char *bytes, const struct token *at) {
  struct scan *scan = arena_alloc(checking->arena, sizeof *scan);
  *scan = (struct scan){.checking = checking, .bytes = bytes, .at = at, .end = end_of_function(bytes, at)};
  for (const struct token *next = at; next < scan->end;) next = declare_at(scan, next);
  if (is_mark(at + 1, '(') && at[2].sort == TOKEN_NAME) {
    struct named *entity = find(scan, at + 2);
    if (entity) entity->kinds = checking->rule->kinds;
    struct named *limits = is_mark(at + 3, ',') && at[4].sort == TOKEN_NAME ? find(scan, at + 4) : NULL;
    if (limits) limits->limits = true;
  }
  check_body(scan);
}

static const struct token *begin_of_rule(struct checking *checking, const struct tokens *tokens) {
  size_t length;
  for (const struct token *at = tokens->list; at->sort != TOKEN_END; at++) {
    if (!is_word(tokens->bytes, at, "rule") || at[1].sort != TOKEN_TEXT) continue;
    const char *id = lua_token_text(checking->arena, tokens->bytes, at + 1, &length);
    if (strlen(checking->rule->facts.id) == length && memcmp(id, checking->rule->facts.id, length) == 0) return at + 2;
  }
  return NULL;
}

static bool is_key_of_function(const char *bytes, const struct token *at) {
  bool key = is_word(bytes, at, "check") || is_word(bytes, at, "when") || is_word(bytes, at, "fix");
  return key && is_mark(at + 1, '=') && is_word(bytes, at + 2, "function");
}

// Tokens never run past their end: it is no mark and no name, and nothing above looks further than one that is.
void check_names(struct checking *checking) {
  const struct rule *rule = checking->rule;
  if (rule->check == NO_REF && rule->when_function == NO_REF && rule->fix == NO_REF) return;
  const struct file_bytes *file = &rule->file->bytes;
  struct tokens tokens = lua_tokens(checking->arena, file->bytes, file->length);
  const struct token *at = begin_of_rule(checking, &tokens);
  if (!at) return;
  int depth = 0;
  do {
    depth += is_mark(at, '{') - is_mark(at, '}');
    if (depth == 1 && is_key_of_function(tokens.bytes, at)) {
      check_function(checking, tokens.bytes, at + 2);
      at = end_of_function(tokens.bytes, at + 2);
    }
    if (at->sort == TOKEN_END) return;
    at++;
  } while (depth > 0);
}
