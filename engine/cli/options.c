// SPDX-License-Identifier: MIT
#include "cli/options.h"

#include <string.h>

#include "forebay/forebay.h"

enum option_kind { FLAG, VALUE, CHOICE, LIST };

// In the order of what they stand for, which counts from 1; NULL ends each.
static const char *const units_words[] = {[FB_UNITS_US - 1] = "us", [FB_UNITS_SI - 1] = "si", [FB_UNITS_SI] = NULL};
static const char *const format_words[] = {"text", NULL};
static const char *const stage_words[] = {"layout", "dig",    "liner",    "stone",     "plumbing",
                                          "power",  "finish", "water-up", "hand-over", NULL};
static const char *const test_format_words[] = {
    [TEST_FORMAT_TEXT - 1] = "text", [TEST_FORMAT_TAP - 1] = "tap", [TEST_FORMAT_TAP] = NULL};
static const char *const fail_at_words[] = {
    [FAIL_AT_HOLD - 1] = "hold",     [FAIL_AT_REVISE - 1] = "revise",
    [FAIL_AT_ADVISE - 1] = "advise", [FAIL_AT_UNANSWERED - 1] = "unanswered",
    [FAIL_AT_UNANSWERED] = NULL,
};

struct option_row {
  const char *name;
  char letter;
  enum option_kind kind;
  const char *value;
  const char *const *words;
  const char *says;
  size_t field;  // where in struct settings
};

static const struct option_row rows[OPTIONS] = {
#define OPTION(field, letter, kind, value, words, says) \
  [OPTION_##field] = {#field, letter, kind, value, words, says, offsetof(struct settings, field)},
#include "cli/options.def"
#undef OPTION
};

struct command_line {
  struct arena *arena;
  const struct options_of *of;
  int argc, next;
  char *const *argv;
  struct settings *settings;
  struct text *wrong;
};

static bool has(unsigned options, size_t row) { return (options >> row & 1u) != 0; }

// without_house is --without-house, short_ is --short.
static const char *long_name(struct arena *arena, const struct option_row *row) {
  char *name = arena_copy(arena, row->name, strlen(row->name));
  for (char *c = strchr(name, '_'); c; c = strchr(c, '_')) *c = c[1] ? '-' : '\0';
  return name;
}

static const struct option_row *find_long(struct command_line *r, const char *name) {
  for (size_t i = 0; i < OPTIONS; i++) {
    if (has(r->of->options, i) && strcmp(long_name(r->arena, &rows[i]), name) == 0) return &rows[i];
  }
  return NULL;
}

static const struct option_row *find_letter(const struct command_line *r, char letter) {
  for (size_t i = 0; i < OPTIONS; i++) {
    if (has(r->of->options, i) && rows[i].letter == letter) return &rows[i];
  }
  return NULL;
}

static bool unknown_option(struct command_line *r, const char *name) {
  const char *names[OPTIONS];
  size_t count = 0;
  for (size_t i = 0; i < OPTIONS; i++) {
    if (has(r->of->options, i)) names[count++] = long_name(r->arena, &rows[i]);
  }
  const char *near = text_nearest(name, names, count);
  text_printf(r->wrong, "unknown option --%s", name);
  if (near) text_printf(r->wrong, "; did you mean --%s?", near);
  return false;
}

static void push(struct arena *arena, struct words *words, const char *word) {
  const char **longer = arena_array(arena, words->count + 1, sizeof *longer);
  if (words->count > 0) memcpy(longer, words->at, words->count * sizeof *longer);
  longer[words->count++] = word;
  words->at = longer;
}

static bool set_choice(struct command_line *r, const struct option_row *row, const char *value, int *to) {
  size_t count = 0;
  for (; row->words[count]; count++) {
    if (strcmp(row->words[count], value) == 0) *to = (int)count + 1;
  }
  if (*to > 0 && strcmp(row->words[*to - 1], value) == 0) return true;
  const char *near = text_nearest(value, row->words, count);
  text_printf(r->wrong, "--%s does not know \"%s\"", long_name(r->arena, row), value);
  text_add(r->wrong, count == 1 ? "; there is only " : "; there are ");
  for (size_t i = 0; i < count; i++) {
    text_add(r->wrong, i == 0 ? "" : i + 1 == count ? " and " : ", ");
    text_add(r->wrong, row->words[i]);
  }
  if (near) text_printf(r->wrong, "; did you mean %s?", near);
  return false;
}

static bool set(struct command_line *r, const struct option_row *row, const char *value) {
  void *to = (char *)r->settings + row->field;
  if (row->kind == FLAG) *(bool *)to = true;
  if (row->kind == VALUE) *(const char **)to = value;
  if (row->kind == LIST) push(r->arena, to, value);
  return row->kind != CHOICE || set_choice(r, row, value, to);
}

// The value stands behind the name (`inside`) or is the next word.
static bool set_with_value(struct command_line *r, const struct option_row *row, const char *inside) {
  if (row->kind == FLAG && inside) {
    text_printf(r->wrong, "--%s takes no value", long_name(r->arena, row));
    return false;
  }
  if (row->kind == FLAG) return set(r, row, "");
  const char *value = inside ? inside : r->next < r->argc ? r->argv[r->next++] : "";
  if (*value) return set(r, row, value);
  text_printf(r->wrong, "--%s needs a value: %s", long_name(r->arena, row), row->value);
  return false;
}

static bool read_long(struct command_line *r, const char *word) {
  const char *equals = strchr(word, '=');
  const char *name = equals ? arena_copy(r->arena, word, (size_t)(equals - word)) : word;
  const struct option_row *row = find_long(r, name);
  return row ? set_with_value(r, row, equals ? equals + 1 : NULL) : unknown_option(r, name);
}

// -o FILE, -oFILE; flags may stand together.
static bool read_letters(struct command_line *r, const char *letters) {
  for (; *letters; letters++) {
    const struct option_row *row = find_letter(r, *letters);
    if (!row) {
      text_printf(r->wrong, "unknown option -%.1s", letters);
      return false;
    }
    if (row->kind != FLAG) return set_with_value(r, row, letters[1] ? letters + 1 : NULL);
    set(r, row, "");
  }
  return true;
}

static bool check_operands(struct command_line *r) {
  const struct words *operands = &r->settings->operands;
  if (r->settings->help || r->settings->version) return true;
  if (r->settings->check) {
    if (operands->count == 0) text_add(r->wrong, "--check needs a rule file, or a folder of them");
    return operands->count > 0;
  }
  size_t least = r->settings->list ? 0 : r->of->least, most = r->settings->list ? 1 : r->of->most;
  if (operands->count < least) {
    text_printf(r->wrong, "missing: %s", r->of->operands);
    return false;
  }
  if (operands->count <= most) return true;
  text_printf(r->wrong, "one word too many: \"%s\"", operands->at[most]);
  return false;
}

bool options_read(struct arena *arena, const struct options_of *of, int argc, char *const *argv,
                  struct settings *settings, struct text *wrong) {
  struct command_line r = {.arena = arena, .of = of, .argc = argc, .argv = argv, .settings = settings, .wrong = wrong};
  bool plain = false;
  *settings = (struct settings){0};
  while (r.next < argc) {
    const char *word = argv[r.next++];
    bool option = !plain && word[0] == '-' && word[1];
    if (option && strcmp(word, "--") == 0) {
      plain = true;
    } else if (!option) {
      push(arena, &settings->operands, word);
    } else if (!(word[1] == '-' ? read_long(&r, word + 2) : read_letters(&r, word + 1))) {
      return false;
    }
  }
  return check_operands(&r);
}

static void write_row(struct text *text, const struct option_row *row) {
  struct text head = text_in(text->arena);
  text_add(&head, "  ");
  if (row->letter) text_printf(&head, "-%c, ", row->letter);
  text_printf(&head, "--%s", long_name(text->arena, row));
  if (row->value) text_printf(&head, "=%s", row->value);
  text_printf(text, "%s\n      ", text_end(&head));
  text_wrap(text, row->says, 6, 80);
  text_add(text, "\n");
}

void options_write(struct text *text, unsigned options) {
  for (size_t i = 0; i < OPTIONS; i++) {
    if (has(options, i)) write_row(text, &rows[i]);
  }
}
