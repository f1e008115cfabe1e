// SPDX-License-Identifier: MIT
// Values with units in scripts. Expected values follow from exact definitions alone: 1 in = 0.0254 m, 1 gal = 231 in3
// (NIST Special Publication 811, appendix B; from memory), reckoned by hand.
#include "script/quantity.h"

#include <math.h>

#include "unit/script/runner.h"

static void near(double value, double expected) {
  if (fabs(value - expected) <= 1e-12 * fabs(expected)) return;
  print_error("%.17g, expected %.17g\n", value, expected);
  fail();
}

// What the expression gives: a quantity, copied out of the state.
struct got {
  struct script_quantity quantity;
  bool is_quantity;
};

static int copy_out(lua_State *L) {
  struct got *got = lua_touserdata(L, 1);
  struct script_quantity *quantity = script_to_quantity(L, 2);
  got->is_quantity = quantity != NULL;
  if (quantity) got->quantity = *quantity;
  return 0;
}

static int with_elevations(lua_State *L) {
  script_push_environment(L);
  struct script_quantity *high = script_push_quantity(L, 0.5, dimension_row(DIM_ELEVATION)->powers);
  high->entity = 4, high->row = 9, high->flags = SCRIPT_STALE | SCRIPT_OUTSIDE;
  script_set_word(L, -2, "high");
  script_push_quantity(L, -0.25, dimension_row(DIM_ELEVATION)->powers);
  script_set_word(L, -2, "low");
  script_push_quantity(L, 3, dimension_row(DIM_COUNT)->powers);
  script_set_word(L, -2, "three");
  return 1;
}

static struct script_failure run_expression(const char *expression, struct got *got) {
  char text[200];
  struct script_failure failure;
  struct script *script = script_new((struct script_budget){0}, (struct script_owner){.profile = SCRIPT_RULES});
  snprintf(text, sizeof text, "return %s", expression);
  *got = (struct got){0};
  assert_int_equal(script_protect(script, with_elevations, NULL, 0, 1, &failure), true);
  assert_int_equal(script_load(script, "a.lua", text, strlen(text), &failure), true);
  if (script_call(script, 0, 1, 0, &failure)) script_protect(script, copy_out, got, 1, 0, &failure);
  failure.file = NULL;
  script_free(script);
  return failure;
}

static struct script_quantity value_of(const char *expression) {
  struct got got;
  struct script_failure failure = run_expression(expression, &got);
  if (failure.kind != SCRIPT_FINE) print_error("%s: %s\n", expression, failure.said);
  assert_int_equal(failure.kind, SCRIPT_FINE);
  assert_int_equal(got.is_quantity, true);
  return got.quantity;
}

static void values_are_reckoned_in_si(void **state) {
  (void)state;
  static const struct {
    const char *expression;
    double value;
    enum dimension dimension;
  } sums[] = {
      {"q\"2 ft 6 in\"", 30 * 0.0254, DIM_LENGTH},
      {"q\"2 ft 6 in\" + q\"3 in\"", 33 * 0.0254, DIM_LENGTH},
      {"q\"2 ft\" - q\"3 ft\"", -12 * 0.0254, DIM_LENGTH},
      {"q\"2 ft\" * q\"3 ft\"", 6 * 144 * 0.0254 * 0.0254, DIM_AREA},
      {"2 * q\"3 in\"", 6 * 0.0254, DIM_LENGTH},
      {"q\"3 in\" / 2", 1.5 * 0.0254, DIM_LENGTH},
      {"q\"3 in\" ^ 3", 27 * 0.0254 * 0.0254 * 0.0254, DIM_VOLUME},
      {"q\"1,155 gal/h\" * q\"1 h\"", 1155 * 231 * 0.0254 * 0.0254 * 0.0254, DIM_VOLUME},
      {"q\"500 gal\" / q\"1 h\"", 500 * 231 * 0.0254 * 0.0254 * 0.0254 / 3600, DIM_FLOW},
      {"q\"1 ft\" / q\"3 in\"", 4, DIM_RATIO},
      {"1 + q\"1 ft\" / q\"3 in\"", 5, DIM_RATIO},
      {"-q\"4 in\"", -4 * 0.0254, DIM_LENGTH},
      {"high - low", 0.75, DIM_LENGTH},
      {"high + q\"10 in\"", 0.754, DIM_ELEVATION},
      {"low - q\"10 in\"", -0.504, DIM_ELEVATION},
      {"three + 1", 4, DIM_COUNT},
      {"math.max(q\"1 ft\", q\"11 in\")", 12 * 0.0254, DIM_LENGTH},
  };
  for (size_t i = 0; i < sizeof sums / sizeof *sums; i++) {
    struct script_quantity quantity = value_of(sums[i].expression);
    near(quantity.value, sums[i].value);
    assert_string_equal(dimension_row(dimension_of_powers(quantity.powers))->name,
                        dimension_row(sums[i].dimension)->name);
  }
}

static void what_does_not_go_together_is_told(void **state) {
  (void)state;
  static const struct {
    const char *expression, *said, *right;
  } misuses[] = {
      {"q\"1 ft\" + q\"2 gal/h\"", "a length cannot be added to a flow", "two values of one sort"},
      {"q\"1 ft\" - q\"2 lb\"", "a length cannot be reduced by a weight (mass)", "two values of one sort"},
      {"q\"1 ft\" + 2", "a length cannot be added to a bare number", "the value with its unit, as in q\"2 ft 6 in\""},
      {"2 + q\"1 ft\"", "a bare number cannot be added to a length", "the value with its unit, as in q\"2 ft 6 in\""},
      {"q\"1 ft\" + \"2 ft\"", "a length cannot be added to a text in quotes",
       "the value with its unit, as in q\"2 ft 6 in\""},
      {"\"2 ft\" + 1", "a text in quotes is not a value to reckon with", "q before it, as in q\"2 ft 6 in\""},
      {"q\"1 ft\" + nil", "a length cannot be added to nothing (nil)", "two values of one sort"},
      {"q\"1 ft\" * {}", "a length cannot be multiplied by a table", "two values of one sort"},
      {"q\"1 ft\" < q\"1 h\"", "a length cannot be compared with a time", "two values of one sort"},
      {"q\"1 ft\" < 3", "a length cannot be compared with a bare number",
       "the value with its unit, as in q\"2 ft 6 in\""},
      {"q\"1 ft\" == q\"1 h\"", "a length cannot be compared with a time", "two values of one sort"},
      {"high + low", "a height over the site datum cannot be added to a height over the site datum",
       "two values of one sort"},
      {"high < q\"1 ft\"", "a height over the site datum cannot be compared with a length", "two values of one sort"},
      {"-high", "a height or a temperature cannot be turned negative", "the difference of two of them"},
      {"math.abs(low)", "a height or a temperature has no size without its sign", "the difference of two of them"},
      {"q\"1 ft\" / 0", "the result is not a number", "a divisor that is not 0"},
      {"q\"1 ft\" % 2", "% and // do not work on values with units", "+ - * / or ^"},
      {"q\"1 ft\" ^ 0.5", "a value with a unit is raised to 1, 2, 3 or 4 alone", "^ 2, ^ 3 or ^ 4"},
      {"q(\"1 ft\").value", "a length has no part `value`", "the value itself"},
      {"q(12)", "q reads a text with a unit", "the value in quotes, as in q\"2 ft 6 in\""},
      {"q\"12\"", "this value has no unit", "a number with its unit, as in 30 in"},
  };
  for (size_t i = 0; i < sizeof misuses / sizeof *misuses; i++) {
    struct got got;
    struct script_failure failure = run_expression(misuses[i].expression, &got);
    assert_int_equal(failure.kind, SCRIPT_MISUSE);
    assert_string_equal(failure.said, misuses[i].said);
    assert_string_equal(failure.right, misuses[i].right);
    assert_int_equal(failure.line, 1);
  }
}

static void comparison_has_a_band(void **state) {
  (void)state;
  gives("return q\"1 ft\" < q\"13 in\", q\"13 in\" < q\"1 ft\", q\"1 ft\" <= q\"12 in\", q\"1 ft\" < q\"12 in\"",
        "true|false|true|false");
  gives("return q\"1 ft\" == q\"12 in\", q\"1 ft\" ~= q\"12 in\", q\"1 ft\" == q\"13 in\"", "true|false|false");
  // 0.1 + 0.2 is not 0.3 in doubles; the sum of lengths is.
  gives("return q\"0.1 m\" + q\"0.2 m\" == q\"0.3 m\", q\"0.1 m\" + q\"0.2 m\" > q\"0.3 m\"", "true|false");
  gives("return q\"40 %\" < 0.5, 0.4 >= q\"40 %\"", "true|true");
}

// 100.1 - 100 is 0.1 within 1e-9 of 100, not of 0.1: the terms say how well the difference is known.
static void a_difference_is_known_as_well_as_its_terms(void **state) {
  (void)state;
  near(value_of("high - low").scale, 0.5);
  near(value_of("(q\"100 m\" - q\"99 m\") * 2").scale, 200);
  near(value_of("(q\"100 m\" - q\"99 m\") / 2").scale, 50);
  near(value_of("q\"100 m\" - q\"99 m\"").scale, 100);
  gives("return q\"100.1 m\" - q\"100 m\" == q\"0.1 m\"", "true");
  gives("return (q\"100.00000001 m\" - q\"100 m\") <= q\"0 m\", q\"0.00000001 m\" <= q\"0 m\"", "true|false");
}

static void doubt_travels_and_staleness_does_not(void **state) {
  (void)state;
  struct script_quantity quantity = value_of("high - low");
  assert_int_equal(quantity.flags, SCRIPT_OUTSIDE);
  assert_int_equal(quantity.entity, -1);
  quantity = value_of("high");
  assert_int_equal(quantity.flags, SCRIPT_STALE | SCRIPT_OUTSIDE);
  assert_int_equal(quantity.entity, 4);
  assert_int_equal(quantity.row, 9);
  assert_int_equal(value_of("low - q\"1 in\"").flags, 0);
}

static void a_tolerance_is_kept_as_read(void **state) {
  (void)state;
  near(value_of("q\"18 in +/- 2 in\"").tolerance, 2 * 0.0254);
  assert_int_equal(isnan(value_of("q\"18 in\"").tolerance) != 0, 1);
  assert_int_equal(isnan(value_of("q\"18 in +/- 2 in\" + q\"1 in\"").tolerance) != 0, 1);
}

static void values_show_in_the_owner_s_units(void **state) {
  (void)state;
  gives("return tostring(q\"18 in\"), \"depth \" .. q\"18 in\" .. \".\", 3 .. q\"1 ft\", q\"1 ft\" .. q\"2 in\"",
        "18 in|depth 18 in.|312 in|12 in2 in");
  struct script_owner metric = {.profile = SCRIPT_RULES, .units = UNITS_SI};
  assert_string_equal(runner_with(metric, "return q\"18 in\" .. \"\"").shown, "457 mm");
  fails("return q\"1 ft\" .. {}", SCRIPT_MISUSE, "a length cannot be joined with a table");
  fails("return q\"1 ft\" .. nil", SCRIPT_MISUSE, "a length cannot be joined with nothing (nil)");
}

static bool count_slip(void *with, const struct script_slip *slip) {
  assert_string_equal(slip->at.file, "a design.lua");
  *(int *)with += slip->at.line;
  return true;
}

static void a_design_reads_on_after_a_bad_value(void **state) {
  (void)state;
  int lines = 0;
  struct script_owner owner = {.profile = SCRIPT_DATA, .slipped = count_slip, .with = &lines};
  struct outcome outcome = runner_with(owner,
                                       "local bad = q\"12\"\n"
                                       "local sum = (bad + q\"1 ft\") * q\"2 h\" - bad\n"
                                       "local other = q(unknwon)\n"
                                       "return sum < q\"1 lb\", bad == sum, tostring(sum), q\"2 ft\" .. \"\"\n");
  assert_int_equal(outcome.failure.kind, SCRIPT_FINE);
  assert_string_equal(outcome.shown, "false|false|?|24 in");
  assert_int_equal(lines, 1 + 3);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(values_are_reckoned_in_si),
      cmocka_unit_test(what_does_not_go_together_is_told),
      cmocka_unit_test(comparison_has_a_band),
      cmocka_unit_test(a_difference_is_known_as_well_as_its_terms),
      cmocka_unit_test(doubt_travels_and_staleness_does_not),
      cmocka_unit_test(a_tolerance_is_kept_as_read),
      cmocka_unit_test(values_show_in_the_owner_s_units),
      cmocka_unit_test(a_design_reads_on_after_a_bad_value),
  };
  return cmocka_run_group_tests_name("script/quantity", tests, NULL, NULL);
}
