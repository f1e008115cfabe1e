// SPDX-License-Identifier: MIT
// The words for lists, texts and numbers. What Lua's own would give is from the Lua 5.4 Reference Manual, section 6
// (from memory), unless a remark says that ours differ.
#include <stdlib.h>

#include "unit/script/runner.h"

static void pairs_walks_in_one_order(void **state) {
  (void)state;
  for (int i = 0; i < 20; i++)  // each state has its own hash seed
    gives(
        "local t = { zeta = 1, alpha = 2, Beta = 3, [10] = 4, [2] = 5, [-1] = 6, [1.5] = 7, [false] = 8, [true] = 9,\n"
        "  [\"\"] = 10, [\"al\"] = 11, ['\\xc3\\xa9'] = 12 }\n"
        "local r = {} for k, v in pairs(t) do table.insert(r, v) end return table.concat(r, \" \")",
        "6 7 5 4 10 3 11 2 1 12 8 9");
}

static void pairs_sees_the_list_as_it_was(void **state) {
  (void)state;
  gives(
      "local t, r = { a = 1, b = 2, c = 3 }, {}\n"
      "for k, v in pairs(t) do t.b = nil t.d = 4 table.insert(r, k) end return table.concat(r, \" \")",
      "a c");
  fails("for k in pairs({ [{}] = 1 }) do end", SCRIPT_MISUSE, "a table that has a table for a key has no fixed order");
  fails("for k in pairs(nil) do end", SCRIPT_MISUSE, "pairs walks a table and was given nothing (nil)");
  fails("for k in ipairs(3) do end", SCRIPT_MISUSE, "ipairs walks a table and was given number");
  gives("local n = 0 for i, v in ipairs({ 5, 6, nil, 7 }) do n = n + i * v end return n", "17");
  gives("local n = 0 for k in pairs(string) do n = n + 1 end return n, #math", "5|0");
}

static void tostring_tells_no_address(void **state) {
  (void)state;
  gives("return tostring(nil), tostring(true), tostring(12), tostring(-0.5), tostring({}), tostring(pairs)",
        "nil|true|12|-0.5|table|function");
  gives("return tostring(3.0), tostring(0.1 + 0.2), tostring(1 / 0), tostring(-1 / 0)", "3|0.3|infinite|-infinite");
  gives("return tostring(q\"2 ft 6 in\")", "30 in");
  gives("return type(nil), type(1), type(\"\"), type({}), type(type), type(q\"1 ft\")",
        "nil|number|string|table|function|quantity");
}

static void tonumber_reads_plain_numbers(void **state) {
  (void)state;
  gives(
      "return tonumber(\"2,400\"), tonumber(\" 1.5 \"), tonumber(\"-3\"), tonumber(\"0x10\"), tonumber(\"\"), "
      "tonumber(\"3 ft\"), tonumber({}), tonumber(7), tonumber(q\"40 %\")",
      "2400|1.5|-3|nil|nil|nil|nil|7|0.4");
  fails("return tonumber(q\"1 ft\")", SCRIPT_MISUSE, "a length cannot be used as a bare number");
}

static void lists_are_changed_as_in_lua(void **state) {
  (void)state;
  gives("local t = { 1, 2, 3 } table.insert(t, 4) table.insert(t, 1, 0) return table.concat(t, \",\")", "0,1,2,3,4");
  gives("local t = { 1, 2, 3 } local a, b = table.remove(t, 1), table.remove(t) return a, b, #t, t[1]", "1|3|1|2");
  gives("return table.remove({})", "");
  gives("return table.unpack({ 1, 2, 3 }, 2)", "2|3");
  gives(
      "return table.concat({ \"a\", 2, 1.5, q\"3 ft\" }, \"; \"), table.concat({}), table.concat({ 1, 2, 3 }, \"\", 2, "
      "3)",
      "a; 2; 1.5; 3 ft||23");
  fails("table.insert({ 1 }, 3, 9)", SCRIPT_MISUSE, "table.insert has no place 3 in a list of places 1 to 2");
  fails("table.insert({ 1 })", SCRIPT_MISUSE, "table.insert has too few or too many values");
  fails("table.insert(nil, 1)", SCRIPT_MISUSE, "table.insert works on a list and was given nothing (nil)");
  fails("return table.concat({ 1, {} })", SCRIPT_MISUSE, "table.concat joins texts and values; place 2 holds table");
  gives("return table.concat({}, \"\", 9223372036854775807, 9223372036854775806)", "");
}

static void sort_is_stable(void **state) {
  (void)state;
  gives(
      "local t = {} for i = 1, 100 do t[i] = { key = i * 7 % 5, at = i } end\n"
      "table.sort(t, function(a, b) return a.key < b.key end)\n"
      "for i = 2, 100 do local a, b = t[i - 1], t[i]\n"
      "  if a.key > b.key or a.key == b.key and a.at > b.at then return \"wrong\", i end end\n"
      "return \"right\"",
      "right");
  gives("local t = { \"b\", \"B\", \"a\", \"\", \"ab\" } table.sort(t) return table.concat(t, \",\")", ",B,a,ab,b");
  gives("local t = { q\"3 ft\", q\"2 in\", q\"1 m\" } table.sort(t) return table.concat(t, \", \")",
        "2 in, 3 ft, 3 ft 3 1/2 in");
  gives("local t = { 3 } table.sort(t) local e = {} table.sort(e) return t[1], #e", "3|0");
  fails("table.sort({ 1, \"a\" })", SCRIPT_MISUSE, "a text in quotes cannot be compared with a bare number");
}

static void a_contradicting_comparison_harms_nobody(void **state) {
  (void)state;
  gives(
      "local t = {} for i = 1, 333 do t[i] = i end\n"
      "table.sort(t, function() return true end)\n"
      "local n = 0 for i = 1, 333 do n = n + t[i] end return #t, n",
      "333|55611");
  gives(
      "local t, odd = {}, false for i = 1, 333 do t[i] = i end\n"
      "table.sort(t, function(a, b) odd = not odd return odd end)\n"
      "local n = 0 for i = 1, 333 do n = n + t[i] end return #t, n",
      "333|55611");
  gives("local t = { 3, 2, 1 } table.sort(t, function(a, b) t[1] = nil return a < b end) return t[1], t[2], t[3]",
        "1|2|3");
}

static void format_pads_and_rounds(void **state) {
  (void)state;
  gives("return string.format(\"[%5d|%-5d|%05d|%+d|%d]\", 42, 42, -42, 42, 3.0)", "[   42|42   |-0042|+42|3]");
  gives("return string.format(\"[%.2f|%8.3f|%-8.1f|%f|%+.1f]\", 1.005, 2.5, 2.5, 0.5, 2)",
        "[1.01|   2.500|2.5     |0.500000|+2.0]");  // 1.005 rounds as written, Lua's own would give 1.00
  gives("return string.format(\"[%s|%6s|%-6s|%.2s|%%]\", true, \"ab\", \"ab\", \"abc\")", "[true|    ab|ab    |ab|%]");
  gives("return string.format(\"%s and %s\", q\"2 ft\", {}), (\"%d\"):format(5)", "24 in and table|5");
  gives("return string.format(\"%.2s|\", \"a\xC3\xA9\")", "a|");  // never half a letter
  gives("return string.format(\"%s\", \"a\\0b\"):len()", "3");
  fails("return string.format(\"%d\", 1.5)", SCRIPT_MISUSE, "%d shows whole numbers and was given another");
  fails("return string.format(\"%d\", q\"1 ft\")", SCRIPT_MISUSE,
        "a length cannot be shown by %d; %s shows it with its unit");
  fails("return string.format(\"%q\", 1)", SCRIPT_MISUSE, "string.format does not know %q");
  fails("return string.format(\"%\")", SCRIPT_MISUSE, "string.format does not know %?");
  fails("return string.format(\"%s\")", SCRIPT_BROKEN, "bad argument #2 to 'format' (value expected)");
}

static void numbers_and_quantities_share_math(void **state) {
  (void)state;
  gives("return math.abs(-3), math.abs(-2.5), math.floor(2.7), math.floor(-2.1), math.ceil(2.1), math.sqrt(9)",
        "3|2.5|2|-3|3|3");
  gives("return math.max(1, 5, 3), math.min(4, 2.5), math.fmod(7, 3), math.tointeger(3.0), math.floor(q\"250 %\")",
        "5|2.5|1|3|2");
  gives(
      "return math.max(q\"1 ft\", q\"13 in\") .. \"\", math.min(q\"1 ft\", q\"13 in\") .. \"\", math.abs(-q\"4 in\") "
      ".. \"\"",
      "13 in|12 in|4 in");
  fails("return math.max(q\"1 ft\", q\"1 h\")", SCRIPT_MISUSE, "a time cannot be compared with a length");
  fails("return math.max(q\"1 ft\", 2)", SCRIPT_MISUSE, "a bare number cannot be compared with a length");
  fails("return math.sqrt(q\"1 ft\")", SCRIPT_MISUSE, "a length cannot be taken the square root of");
  fails("return math.sqrt(-1)", SCRIPT_MISUSE, "a negative number has no square root");
  fails("return math.floor(\"3\")", SCRIPT_MISUSE, "a text in quotes cannot be rounded down");
  gives("return math.pi > 3.14159 and math.pi < 3.1416, math.huge > 1e308", "true|true");
}

static void select_is_lua_s_own(void **state) {
  (void)state;
  gives("return select(2, 1, 2, 3), select('#', nil, nil), select(-1, 1, 2)", "2|2|2");
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(pairs_walks_in_one_order),
      cmocka_unit_test(pairs_sees_the_list_as_it_was),
      cmocka_unit_test(tostring_tells_no_address),
      cmocka_unit_test(tonumber_reads_plain_numbers),
      cmocka_unit_test(lists_are_changed_as_in_lua),
      cmocka_unit_test(sort_is_stable),
      cmocka_unit_test(a_contradicting_comparison_harms_nobody),
      cmocka_unit_test(format_pads_and_rounds),
      cmocka_unit_test(numbers_and_quantities_share_math),
      cmocka_unit_test(select_is_lua_s_own),
  };
  return cmocka_run_group_tests_name("script/words", tests, NULL, NULL);
}
