// SPDX-License-Identifier: MIT
// A value exactly at its limit satisfies it: whatever the datum, the units it is written in, and the sum, difference or
// quotient it comes from. A thousand of them, judged by data rules and by functions; and each a little past it is
// flagged. The exact factors below (0.0254 m, 231 in3) are definitions; the program's own are not used.
#include <stdio.h>

#include "unit/rulebook/firm.h"

enum { TRIES = 1000 };

// A small generator, so that every run tries the same.
static uint32_t state_of_chance = 20240607;
static uint32_t chance(uint32_t below) {
  state_of_chance = state_of_chance * 1664525u + 1013904223u;
  return (state_of_chance >> 8) % below;
}

static const char head[] = "title = \"t\", why = \"w\", source = \"s\", stage = \"layout\", severity = \"hold\",";

// One example judged by a data rule and by the same rule as a function, in examples that expect what is asked.
static void expect(const char *kind, const char *judged, const char *sense, const char *limit, const char *fields,
                   const char *outcome) {
  struct firm *firm = firm_new();
  struct text text = text_in(firm->arena);
  struct rule_test_counts counts;
  text_printf(&text, "rule \"data\" { %s for_each = \"%s\", judges = \"%s\", %s = \"%s\",\n", head, kind, judged, sense,
              limit);
  text_printf(&text, "  examples = { { \"x\", %s = { %s }, outcome = \"%s\" } } }\n", kind, fields, outcome);
  text_printf(&text, "rule \"function\" { %s for_each = \"%s\", limit = { it = \"%s\" },\n", head, kind, limit);
  text_printf(&text, "  check = function(it, limit) return %s(it.%s, limit.it) end,\n", sense, judged);
  text_printf(&text, "  examples = { { \"x\", %s = { %s }, outcome = \"%s\" } } }\n", kind, fields, outcome);
  firm_read(firm, "house", "a.lua", text_end(&text));
  rulebook_finish(firm->rulebook, &firm->problems);
  assert_string_equal(firm_problems(firm), "");
  const char *said = firm_test_text(firm, &counts);
  if (counts.failed) fail_msg("%s\n%s", text_end(&text), said);
  firm_free(firm);
}

static void expect_both_senses(const char *kind, const char *judged, const char *limit, const char *fields) {
  expect(kind, judged, "at_least", limit, fields, "clear");
  expect(kind, judged, "at_most", limit, fields, "clear");
}

// Whole inches, halves, quarters ... sixteenths over a datum anywhere from 200 ft under to 8,000 ft over the sea.
static void differences_of_heights(void **state) {
  (void)state;
  for (int i = 0; i < TRIES / 5; i++) {
    int parts = 1 << chance(5), gap = 1 + (int)chance(200), datum = (int)chance(98400) - 2400;
    char limit[32], fields[128], past[128];
    snprintf(limit, sizeof limit, "%d/%d in", gap, parts);
    snprintf(fields, sizeof fields, "water_level = \"%d in\", rim = \"%.6f in\"", datum, datum + (double)gap / parts);
    snprintf(past, sizeof past, "water_level = \"%d in\", rim = \"%.6f in\"", datum,
             datum + (double)gap / parts - 0.001);
    expect_both_senses("basin", "freeboard", limit, fields);
    expect("basin", "freeboard", "at_least", limit, past, "flagged");
  }
}

// The limit in inches, the heights in millimetres, and the other way round: an inch is 25.4 mm.
static void differences_across_units(void **state) {
  (void)state;
  for (int i = 0; i < TRIES / 5; i++) {
    int gap = 1 + (int)chance(60), datum = (int)chance(2500000) - 60000;
    char limit[32], fields[128], past[128];
    snprintf(limit, sizeof limit, "%d in", gap);
    snprintf(fields, sizeof fields, "water_level = \"%d mm\", rim = \"%.1f mm\"", datum, datum + gap * 25.4);
    snprintf(past, sizeof past, "water_level = \"%d mm\", rim = \"%.2f mm\"", datum, datum + gap * 25.4 - 0.01);
    expect_both_senses("basin", "freeboard", limit, fields);
    expect("basin", "freeboard", "at_least", limit, past, "flagged");
  }
}

static void quotients(void **state) {
  (void)state;
  for (int i = 0; i < TRIES / 5; i++) {
    int whole = 1 + (int)chance(120), share = 1 + (int)chance(99);
    char limit[32], fields[128], past[128];
    snprintf(limit, sizeof limit, "%d %%", share);
    snprintf(fields, sizeof fields, "height = \"%d in\", embedment = \"%.4f in\"", whole, whole * share / 100.0);
    snprintf(past, sizeof past, "height = \"%d in\", embedment = \"%.4f in\"", whole, whole * share / 100.0 - 0.0001);
    expect_both_senses("boulder", "embedded_share", limit, fields);
    expect("boulder", "embedded_share", "at_least", limit, past, "flagged");
  }
}

// gal/h over inches: 231 in3 each.
static void flows_over_widths(void **state) {
  (void)state;
  for (int i = 0; i < TRIES / 5; i++) {
    int width = 1 + (int)chance(60), each = 1 + (int)chance(250);
    char limit[32], fields[128], past[128];
    snprintf(limit, sizeof limit, "%d gal/h/in", each);
    snprintf(fields, sizeof fields, "flow = \"%d gal/h\", lip_width = \"%.1f mm\"", each * width, width * 25.4);
    snprintf(past, sizeof past, "flow = \"%d gal/h\", lip_width = \"%.3f mm\"", each * width, width * 25.4 + 0.001);
    expect_both_senses("spill", "flow_per_width", limit, fields);
    expect("spill", "flow_per_width", "at_least", limit, past, "flagged");
  }
}

// Tenths added one by one, as in a function of a firm's own.
static void sums(void **state) {
  (void)state;
  for (int i = 0; i < TRIES / 5; i++) {
    struct firm *firm = firm_new();
    struct text text = text_in(firm->arena);
    struct rule_test_counts counts;
    int count = 2 + (int)chance(20), tenths = 1 + (int)chance(40);
    text_printf(&text, "rule \"sum\" { %s for_each = \"basin\", limit = { it = \"%d.%d in\" },\n", head,
                count * tenths / 10, count * tenths % 10);
    text_printf(&text,
                "  check = function(basin, limit)\n    local sum = q\"0 in\"\n"
                "    for _, shelf in ipairs(basin.shelves) do sum = sum + shelf.width end\n"
                "    return at_least(sum, limit.it) or at_most(sum, limit.it)\n  end,\n  examples = {\n");
    for (int past = 0; past < 2; past++) {
      text_printf(&text, "    { \"%d\", basin = { shelves = {", past);
      for (int n = 0; n < count; n++)
        text_printf(&text, " { width = \"%d.%d%s in\" },", tenths / 10, tenths % 10, past && n == 0 ? "0001" : "");
      text_printf(&text, " } }, outcome = \"%s\" },\n", past ? "flagged" : "clear");
    }
    text_add(&text, "} }\n");
    firm_read(firm, "house", "a.lua", text_end(&text));
    rulebook_finish(firm->rulebook, &firm->problems);
    assert_string_equal(firm_problems(firm), "");
    const char *said = firm_test_text(firm, &counts);
    if (counts.failed || counts.passed != 2) fail_msg("%s\n%s", text_end(&text), said);
    firm_free(firm);
  }
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(differences_of_heights),
      cmocka_unit_test(differences_across_units),
      cmocka_unit_test(quotients),
      cmocka_unit_test(flows_over_widths),
      cmocka_unit_test(sums),
  };
  return cmocka_run_group_tests_name("rules/at_limit", tests, NULL, NULL);
}
