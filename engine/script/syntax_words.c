// SPDX-License-Identifier: MIT
// A slip is told from what Lua says and from the tokens around the place that it names.
#include "script/syntax_words.h"

#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "script/syntax_scan.h"

// One place that may be the one Lua means: its token and those around it.
struct look {
  const char *says;
  int opened;    // "(to close '{' at line 3)": 3; the named line when Lua gives none
  int unclosed;  // line of the innermost { that the file leaves open; 0: none
  struct syntax_token earliest, earlier, before, at, after;
};

static bool says(const struct look *look, const char *start) { return strncmp(look->says, start, strlen(start)) == 0; }

static bool in_table(const struct look *look) { return says(look, "'}' expected"); }

static void read_tokens(struct syntax_words *words, const struct syntax_token *first, const struct syntax_token *last) {
  if (!first->at || !last->at) return;  // nothing stands there
  size_t length = (size_t)(last->at + last->length - first->at);
  const char *stop = memchr(first->at, '\n', length);
  if (stop) length = (size_t)(stop - first->at);
  length = text_cut(first->at, length, sizeof words->read - 1);
  memcpy(words->read, first->at, length);
  words->read[length] = '\0';
}

static bool found(struct syntax_words *words, int line, const char *said, const char *right) {
  words->line = line;
  words->said = said;
  words->right = right;
  return true;
}

static bool foreign_letter(const struct look *look, struct syntax_words *words) {
  static const struct {
    const char *bytes, *said, *right;
  } letters[] = {
      {"\xE2\x80\x9C", "curly quotation marks do not begin or end a text", "straight ones: \"...\""},
      {"\xE2\x80\x9D", "curly quotation marks do not begin or end a text", "straight ones: \"...\""},
      {"\xE2\x80\x9E", "curly quotation marks do not begin or end a text", "straight ones: \"...\""},
      {"\xE2\x80\x98", "curly quotation marks do not begin or end a text", "straight ones: \"...\""},
      {"\xE2\x80\x99", "curly quotation marks do not begin or end a text", "straight ones: \"...\""},
      {"\xC2\xA0", "a special space, as word processors make them, stands here", "an ordinary space"},
      {"\xE2\x80\x93", "a dash of a word processor stands here", "the hyphen of the keyboard: -"},
      {"\xE2\x88\x92", "a minus sign of a word processor stands here", "the hyphen of the keyboard: -"},
  };
  if (look->at.kind != TOKEN_FOREIGN) return false;
  read_tokens(words, &look->at, &look->at);
  for (size_t i = 0; i < sizeof letters / sizeof *letters; i++)
    if (token_is(&look->at, letters[i].bytes)) return found(words, look->at.line, letters[i].said, letters[i].right);
  return found(words, look->at.line, "this letter has no meaning outside of quotation marks", NULL);
}

// "4' 6"": the second mark ends the text, the third begins another.
static bool inch_mark(const struct look *look, struct syntax_words *words) {
  bool touches = look->before.kind == TOKEN_TEXT && look->before.at + look->before.length == look->at.at;
  if (look->at.kind != TOKEN_TEXT || !touches) return false;
  read_tokens(words, &look->before, &look->before);
  return found(words, look->at.line, "the inch mark ends the text early", "ft and in, as in \"4 ft 6 in\"");
}

static bool unfinished_text(const struct look *look, struct syntax_words *words) {
  if (!says(look, "unfinished string") || look->at.kind != TOKEN_TEXT) return false;
  char quote = look->at.at[0];
  if (look->at.length > 1 && look->at.at[look->at.length - 1] == quote) return false;
  read_tokens(words, &look->at, &look->at);
  return found(words, look->at.line, "a text is not closed on its line", "the same quotation mark at its end");
}

static bool foreign_symbol(const struct look *look, struct syntax_words *words) {
  static const struct {
    const char *symbol, *said, *right;
  } symbols[] = {
      {"!=", "`not equal` is written otherwise here", "~="},
      {"&&", "`and` is written as a word here", "and"},
      {"||", "`or` is written as a word here", "or"},
      {"!", "`not` is written as a word here", "not"},
      {"//", "a remark begins otherwise here", "-- before the remark"},
      {"/*", "a remark begins otherwise here", "-- before each line of the remark"},
      {"#", "a remark begins otherwise here", "-- before the remark"},
  };
  for (size_t i = 0; i < sizeof symbols / sizeof *symbols; i++)
    if (token_is(&look->at, symbols[i].symbol)) {
      read_tokens(words, &look->at, &look->at);
      return found(words, look->at.line, symbols[i].said, symbols[i].right);
    }
  return false;
}

static bool value_without_quotes(const struct look *look, struct syntax_words *words) {
  bool unit = !token_is_keyword(&look->at) || token_is(&look->at, "in");
  bool apart = unit && look->before.kind == TOKEN_NUMBER && look->at.kind == TOKEN_NAME &&
               look->before.line == look->at.line && !token_is(&look->after, "=");
  bool together = look->at.kind == TOKEN_NUMBER && says(look, "malformed number");
  if (!apart && !together) return false;
  read_tokens(words, apart ? &look->before : &look->at, &look->at);
  return found(words, look->at.line, "a value with its unit stands in quotation marks", "\"...\" around it");
}

static bool key_with_hyphen(const struct look *look, struct syntax_words *words) {
  if (!token_is(&look->at, "=") || look->before.kind != TOKEN_NAME || !token_is(&look->earlier, "-")) return false;
  read_tokens(words, look->earliest.kind == TOKEN_NAME ? &look->earliest : &look->earlier, &look->before);
  return found(words, look->at.line, "a key cannot hold a hyphen", "_ instead of it, as in water_level");
}

static bool key_with_space(const struct look *look, struct syntax_words *words) {
  if (!in_table(look) || look->at.kind != TOKEN_NAME || !token_is(&look->after, "=")) return false;
  bool key_began = token_is(&look->earlier, ",") || token_is(&look->earlier, "{") || token_is(&look->earlier, ";");
  if (look->before.kind != TOKEN_NAME || !key_began || look->before.line != look->at.line) return false;
  read_tokens(words, &look->before, &look->at);
  return found(words, look->at.line, "a key cannot hold a space", "_ instead of it, as in water_level");
}

static bool key_in_quotes(const struct look *look, struct syntax_words *words) {
  if (!token_is(&look->at, "=") && !token_is(&look->at, ":")) return false;
  if (!in_table(look) || look->before.kind != TOKEN_TEXT) return false;
  read_tokens(words, &look->before, &look->at);
  return found(words, look->at.line,
               "a key stands without quotation marks and is followed by =", "as in depth = \"30 in\"");
}

static bool colon_for_equals(const struct look *look, struct syntax_words *words) {
  const struct syntax_token *colon = token_is(&look->at, ":") ? &look->at : &look->before;
  if (!token_is(colon, ":") || token_is(&look->after, "(")) return false;
  read_tokens(words, colon == &look->at ? &look->before : &look->earlier, colon);
  return found(words, colon->line, "a : stands where = belongs", "=, as in depth = \"30 in\"");
}

static bool keyword_as_key(const struct look *look, struct syntax_words *words) {
  if (!token_is_keyword(&look->at) || !token_is(&look->after, "=")) return false;
  read_tokens(words, &look->at, &look->at);
  return found(words, look->at.line, "this word has a meaning in Lua and cannot be a key", "another name");
}

static bool single_equals(const struct look *look, struct syntax_words *words) {
  if (!token_is(&look->at, "=") || in_table(look)) return false;
  if (!strstr(look->says, " expected near '='")) return false;
  read_tokens(words, &look->before, &look->after);
  return found(words, look->at.line, "one = sets a value, it does not compare", "==");
}

static bool ends_value(const struct syntax_token *token) {
  bool closing = token_is(token, "}") || token_is(token, ")") || token_is(token, "]");
  return closing || token->kind == TOKEN_TEXT || token->kind == TOKEN_NUMBER || token->kind == TOKEN_NAME;
}

static bool missing_comma(const struct look *look, struct syntax_words *words) {
  bool begins = look->at.kind == TOKEN_NAME || look->at.kind == TOKEN_TEXT || look->at.kind == TOKEN_NUMBER ||
                token_is(&look->at, "{") || token_is(&look->at, "[");
  bool closing_word = token_is_keyword(&look->at) && !token_is(&look->at, "true") && !token_is(&look->at, "false");
  if (!in_table(look) || !begins || closing_word || !ends_value(&look->before)) return false;
  read_tokens(words, &look->before, &look->before);
  return found(words, look->before.end_line, "a comma is missing after this", "a comma between the two");
}

static bool comma_too_many(const struct look *look, struct syntax_words *words) {
  bool separates = token_is(&look->at, ",") || token_is(&look->at, ";");
  bool alone = token_is(&look->before, ",") || token_is(&look->before, ";") || token_is(&look->before, "{");
  if (!separates || !alone) return false;
  read_tokens(words, &look->before, &look->at);
  return found(words, look->at.line, "there is a comma too many", "one between two values");
}

static bool missing_value(const struct look *look, struct syntax_words *words) {
  bool ends = token_is(&look->at, ",") || token_is(&look->at, "}") || token_is(&look->at, ";");
  if (!ends || !token_is(&look->before, "=")) return false;
  read_tokens(words, &look->earlier, &look->before);
  return found(words, look->before.line, "no value stands after =", "a value, as in depth = \"30 in\"");
}

static bool closed_too_often(const struct look *look, struct syntax_words *words) {
  bool closes =
      token_is(&look->at, "}") || token_is(&look->at, ")") || token_is(&look->at, "]") || token_is(&look->at, "end");
  if (!closes || !(says(look, "<eof> expected") || says(look, "unexpected symbol"))) return false;
  read_tokens(words, &look->at, &look->at);
  return found(words, look->at.line, "this closes something that is not open", NULL);
}

static bool name_without_quotes(const struct look *look, struct syntax_words *words) {
  if (!says(look, "syntax error") || look->at.kind != TOKEN_NAME || look->before.kind != TOKEN_NAME) return false;
  if (token_is_keyword(&look->at) || look->before.line != look->at.line) return false;
  read_tokens(words, &look->before, &look->at);
  return found(words, look->at.line, "the name of a thing stands in quotation marks", "as in basin \"lower\" { }");
}

// The first that fits wins: the surer ones stand first.
static bool (*const slips[])(const struct look *look, struct syntax_words *words) = {
    foreign_letter, inch_mark,     unfinished_text,  foreign_symbol,     value_without_quotes, key_with_hyphen,
    key_with_space, key_in_quotes, keyword_as_key,   colon_for_equals,   single_equals,        missing_comma,
    comma_too_many, missing_value, closed_too_often, name_without_quotes};

static bool any_slip(const struct look *look, struct syntax_words *words) {
  for (size_t i = 0; i < sizeof slips / sizeof *slips; i++)
    if (slips[i](look, words)) return true;
  words->read[0] = '\0';
  return false;
}

static int number_after(const char *words, const char *start) {
  const char *at = strstr(words, start);
  if (!at) return 0;
  int number = 0;
  for (at += strlen(start); *at >= '0' && *at <= '9'; at++) number = number * 10 + (*at - '0');
  return number;
}

// What Lua notices at the end of the file alone, or whatever the tokens are.
static bool slip_of_file(const struct look *look, struct syntax_words *words) {
  static const struct {
    const char *says, *said, *right;
  } ends[] = {{"'}' expected", "the { that begins here is not closed", "} after its last line"},
              {"')' expected", "the ( that begins here is not closed", ")"},
              {"']' expected", "the [ that begins here is not closed", "]"},
              {"'end' expected", "what begins here has no end", "end after its last line"}};
  if (says(look, "attempt to load a binary chunk"))
    return found(words, 0, "the file is a compiled one, and text alone is read", "the text that it was made from");
  if (says(look, "C stack overflow"))
    return found(words, 0, "lists or brackets stand within each other more than 200 times", "a flatter list");
  if (says(look, "unfinished long"))
    return found(words, number_after(look->says, "starting at line "), "a [[ that begins here is not closed", "]]");
  if (says(look, "unexpected symbol near <eof>") && look->unclosed)
    return found(words, look->unclosed, ends[0].said, ends[0].right);
  for (size_t i = 0; i < sizeof ends / sizeof *ends; i++)
    if (says(look, ends[i].says) && strstr(look->says, "near <eof>"))
      return found(words, look->opened, ends[i].said, ends[i].right);
  return false;
}

// Whether Lua's "near" may mean this token: on its line, of the same bytes. Lua tells a foreign letter by its first
// byte, an unfinished text up to where it noticed, and a symbol that it does not know by its first character.
static bool may_be_meant(const struct look *look, int line, const char *near, size_t near_length) {
  const struct syntax_token *at = &look->at;
  if (at->line > line || at->end_line < line) return false;
  if (at->kind == TOKEN_FOREIGN) return true;
  if (at->kind == TOKEN_TEXT && says(look, "unfinished string")) return true;
  size_t shorter = at->length < near_length ? at->length : near_length;
  bool whole = at->length == near_length || at->kind == TOKEN_SYMBOL || at->kind == TOKEN_NUMBER;
  return whole && shorter && memcmp(at->at, near, shorter) == 0;
}

// Lua itself nests no deeper than DEEPEST.
static int unclosed_brace(const char *bytes, size_t length) {
  enum { DEEPEST = 200 };
  int lines[DEEPEST], depth = 0;
  struct token_scan scan = token_scan_of(bytes, length);
  for (struct syntax_token token = token_next(&scan); token.kind != TOKEN_END; token = token_next(&scan)) {
    if (token_is(&token, "{") && depth < DEEPEST) lines[depth++] = token.line;
    if (token_is(&token, "}") && depth > 0) depth--;
  }
  return depth > 0 ? lines[depth - 1] : 0;
}

void syntax_words_find(struct syntax_words *words, const char *bytes, size_t length, int line, const char *lua_says) {
  *words = (struct syntax_words){.line = line};
  int opened = number_after(lua_says, "' at line ");
  struct look look = {.says = lua_says, .opened = opened ? opened : line, .unclosed = unclosed_brace(bytes, length)};
  if (slip_of_file(&look, words)) return;
  const char *near = strstr(lua_says, " near '");
  near = near ? near + strlen(" near '") : "";
  size_t near_length = strlen(near);
  if (near_length && near[near_length - 1] == '\'') near_length--;
  struct token_scan scan = token_scan_of(bytes, length);
  look.after = token_next(&scan);
  while (look.after.kind != TOKEN_END && look.after.line <= line) {
    look.earliest = look.earlier;
    look.earlier = look.before;
    look.before = look.at;
    look.at = look.after;
    look.after = token_next(&scan);
    if (may_be_meant(&look, line, near, near_length) && any_slip(&look, words)) return;
  }
}
