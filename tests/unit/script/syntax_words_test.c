// SPDX-License-Identifier: MIT
// The usual slips of someone who writes a design, and what is said of each. Lua's own words are those of Lua 5.4
// (seen).
#include "script/syntax_words.h"

#include "unit/script/runner.h"

struct slip {
  const char *text;
  int line;
  const char *said, *read, *cause;
};

static const struct slip slips[] = {
    // commas
    {"a = { b = \"x\",\n depth = \"30 in\"\n width = \"3 ft\" }", 2, "a comma is missing after this", "\"30 in\"",
     "'}' expected (to close '{' at line 1) near 'width'"},
    {"a = { depth = \"30 in\" width = \"3 ft\" }", 1, "a comma is missing after this", "\"30 in\"",
     "'}' expected near 'width'"},
    {"a = { { \"0 ft\", \"1 ft\" }\n { \"2 ft\", \"3 ft\" } }", 1, "a comma is missing after this", "}",
     "'}' expected (to close '{' at line 1) near '{'"},
    {"a = { on = q\"3 ft\" off = 3 }", 1, "a comma is missing after this", "\"3 ft\"", "'}' expected near 'off'"},
    {"a = { shelves = { 1 } -- note,\n rim = 2 }", 1, "a comma is missing after this", "}",
     "'}' expected (to close '{' at line 1) near 'rim'"},
    {"a = { \"0 ft\"\n\"1 ft\" }", 1, "a comma is missing after this", "\"0 ft\"",
     "'}' expected (to close '{' at line 1) near '\"1 ft\"'"},
    {"a = { b = 3,, c = 4 }", 1, "there is a comma too many", ",,", "unexpected symbol near ','"},
    {"a = { 1;; 2 }", 1, "there is a comma too many", ";;", "unexpected symbol near ';'"},
    {"a = { , 2 }", 1, "there is a comma too many", "{ ,", "unexpected symbol near ','"},
    // braces and ends
    {"b = 1\na = {\n depth = \"x\",\n", 2, "the { that begins here is not closed", "", "unexpected symbol near <eof>"},
    {"b = 1\na = {\n depth = \"x\"\n", 2, "the { that begins here is not closed", "",
     "'}' expected (to close '{' at line 2) near <eof>"},
    {"a = { 1 }\n}", 2, "this closes something that is not open", "}", "unexpected symbol near '}'"},
    {"f = (1 + 2", 1, "the ( that begins here is not closed", "", "')' expected near <eof>"},
    {"local function f()\n if x then return 1 end\n", 1, "what begins here has no end", "",
     "'end' expected (to close 'function' at line 1) near <eof>"},
    {"local x = 1 end", 1, "this closes something that is not open", "end", "<eof> expected near 'end'"},
    // keys
    {"a = { water level = \"3 in\" }", 1, "a key cannot hold a space", "water level", "'}' expected near 'level'"},
    {"a = { b = 1, water-level = \"3 in\" }", 1, "a key cannot hold a hyphen", "water-level", "'}' expected near '='"},
    {"a = { depth: \"30 in\" }", 1, "a : stands where = belongs", "depth:", "<name> expected near '\"30 in\"'"},
    {"a = { \"depth\": \"30 in\" }", 1,
     "a key stands without quotation marks and is followed by =", "\"depth\":", "'}' expected near ':'"},
    {"a = { \"depth\" = \"30 in\" }", 1,
     "a key stands without quotation marks and is followed by =", "\"depth\" =", "'}' expected near '='"},
    {"a = { end = \"30 in\" }", 1, "this word has a meaning in Lua and cannot be a key", "end",
     "unexpected symbol near 'end'"},
    {"a = { b = 1,\n depth = ,\n}", 2, "no value stands after =", "depth =", "unexpected symbol near ','"},
    // values
    {"a = { depth = 30 in, b = 1 }", 1, "a value with its unit stands in quotation marks", "30 in",
     "'}' expected near 'in'"},
    {"a = { depth = 30in }", 1, "a value with its unit stands in quotation marks", "30in",
     "malformed number near '30i'"},
    {"a = { depth = 30 ft\n}", 1, "a value with its unit stands in quotation marks", "30 ft", "'}' expected near 'ft'"},
    {"basin lower { }", 1, "the name of a thing stands in quotation marks", "basin lower", "syntax error near 'lower'"},
    // quotation marks
    {"a = { depth = \xE2\x80\x9C"
     "30 in\xE2\x80\x9D }",
     1, "curly quotation marks do not begin or end a text", "\xE2\x80\x9C", "unexpected symbol near '<\\226>'"},
    {"a = { depth = \"30 in }\n", 1, "a text is not closed on its line", "\"30 in }",
     "unfinished string near '\"30 in }'"},
    {"a = { depth = \"4' 6\"\", b = 1 }\n", 1, "the inch mark ends the text early", "\"4' 6\"",
     "unfinished string near '\", b = 1 }'"},
    {"a = { depth = \"4' 6\"\", b = \"1\" }", 1, "the inch mark ends the text early", "\"4' 6\"",
     "'}' expected near '\", b = \"'"},
    {"a = 1\nb = [[ why\n", 2, "a [[ that begins here is not closed", "",
     "unfinished long string (starting at line 2) near <eof>"},
    // comparing and other languages
    {"if a = b then end", 1, "one = sets a value, it does not compare", "a = b", "'then' expected near '='"},
    {"return a.b = 3", 1, "one = sets a value, it does not compare", "b = 3", "<eof> expected near '='"},
    {"while a = b do end", 1, "one = sets a value, it does not compare", "a = b", "'do' expected near '='"},
    {"if a != b then end", 1, "`not equal` is written otherwise here", "!=", "'then' expected near '!'"},
    {"if a && b then end", 1, "`and` is written as a word here", "&&", "unexpected symbol near '&'"},
    {"if a || b then end", 1, "`or` is written as a word here", "||", "unexpected symbol near '|'"},
    {"if !a then end", 1, "`not` is written as a word here", "!", "unexpected symbol near '!'"},
    {"// hello", 1, "a remark begins otherwise here", "//", "unexpected symbol near '//'"},
    {"/* hello */", 1, "a remark begins otherwise here", "/*", "unexpected symbol near '/'"},
    {"# hello", 1, "a remark begins otherwise here", "#", "unexpected symbol near '#'"},
    {"a =\xC2\xA0"
     "3",
     1, "a special space, as word processors make them, stands here", "\xC2\xA0", "unexpected symbol near '<\\194>'"},
    {"a = \xE2\x80\x93"
     "3",
     1, "a dash of a word processor stands here", "\xE2\x80\x93", "unexpected symbol near '<\\226>'"},
    {"a = { gr\xC3\xB6\xC3\x9F"
     "e = 3 }",
     1, "this letter has no meaning outside of quotation marks", "\xC3\xB6", "'}' expected near '<\\195>'"},
};

static void each_slip_has_plain_words_with_lua_s_under_them(void **state) {
  (void)state;
  for (size_t i = 0; i < sizeof slips / sizeof *slips; i++) {
    struct outcome outcome = run_rules(slips[i].text);
    if (strcmp(outcome.failure.said, slips[i].said) != 0) print_error("in: %s\n", slips[i].text);
    assert_int_equal(outcome.failure.kind, SCRIPT_SYNTAX);
    assert_string_equal(outcome.failure.said, slips[i].said);
    assert_string_equal(outcome.failure.read, slips[i].read);
    assert_string_equal(outcome.failure.cause, slips[i].cause);
    assert_int_equal(outcome.failure.line, slips[i].line);
  }
}

// What is right must not be blamed: the slip stands after the right text that resembles one.
static void right_text_before_a_slip_is_not_blamed(void **state) {
  (void)state;
  struct outcome outcome =
      run_rules("local t = { a = -b, c = x:y(1), d = \"3 in\" } local s = \"\xE2\x80\x9C\" x = = 3");
  assert_int_equal(outcome.failure.kind, SCRIPT_SYNTAX);
  assert_string_equal(outcome.failure.said, "unexpected symbol near '='");
  assert_string_equal(outcome.failure.read, "");
  assert_string_equal(outcome.failure.cause, "");
  outcome = run_rules("local t = { a = 1 } local u = { b = \"1\", b2 = 2 } local v = { b = 1 b = 2 }");
  assert_string_equal(outcome.failure.said, "a comma is missing after this");
  assert_string_equal(outcome.failure.read, "1");
}

static void other_words_of_lua_stay_as_they_are(void **state) {
  (void)state;
  struct syntax_words words;
  syntax_words_find(&words, "goto x", 6, 1, "no visible label 'x' for goto at line 1");
  assert_null(words.said);
  assert_int_equal(words.line, 1);
  syntax_words_find(&words, "", 0, 0, "");
  assert_null(words.said);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(each_slip_has_plain_words_with_lua_s_under_them),
      cmocka_unit_test(right_text_before_a_slip_is_not_blamed),
      cmocka_unit_test(other_words_of_lua_stay_as_they_are),
  };
  return cmocka_run_group_tests_name("script/syntax_words", tests, NULL, NULL);
}
