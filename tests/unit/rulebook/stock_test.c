// SPDX-License-Identifier: MIT
// Stock as rule files state it. SI values: computed with Python from exact factors (1 gal is 231 in3, 1 in is 0.0254
// m).
#include "rulebook/stock.h"

#include <math.h>

#include "unit/rulebook/firm.h"

static const char house[] =
    "stock {\n"
    "  pumps = {\n"
    "    { model = \"mid 1900\", type = \"submersible\", power = \"110 W\", price = \"$240\",\n"
    "      curve = { {\"0 gal/h\", \"14 ft\"}, {flow = \"1,900 gal/h\", head = \"0 ft\"} } },\n"
    "    { model = \"v2.5 [old]\", type = \"dry\", curve = { {\"0 gal/h\", \"9' 6\\\"\"}, {\"900 gal/h\", \"0 ft\"} } "
    "},\n"
    "  },\n"
    "  pipe_sizes = { { size = \"2 in\", material = \"HDPE\", price = \"$1.90\" }, { size = \"2 in\" } },\n"
    "  prices = { gravel = \"$38\", haul = \"$190\" },\n"
    "  rates = { soil_per_day = \"22 yd3\", stones_per_day = 6 },\n"
    "  tolerances = { tape = \"1/2 in\", [\"maker's curve\"] = \"5 %\" },\n"
    "}\n";

static struct firm *firm_of_layers(const char *first, const char *second) {
  struct firm *firm = firm_new();
  assert_true(firm_read(firm, "house", "h.lua", first));
  if (second) assert_true(firm_read(firm, "crew", "c.lua", second));
  rulebook_finish(firm->rulebook, &firm->problems);
  return firm;
}

static void check_problems(const char *text, const char *problems) {
  struct firm *firm = firm_of_layers(text, NULL);
  assert_string_equal(firm_problems(firm), problems);
  firm_free(firm);
}

static void all_lists_are_read(void **state) {
  (void)state;
  struct firm *firm = firm_of_layers(house, NULL);
  assert_string_equal(firm_problems(firm), "");
  const struct stock *stock = rulebook_stock(firm->rulebook);
  assert_int_equal(stock->states_pumps, 1);
  assert_int_equal(stock->pump_count, 2);
  const struct stock_pump *pump = &stock->pumps[0];
  assert_string_equal(pump->model, "mid 1900");
  assert_near(pump->price, 240);
  assert_int_equal(pump->point_count, 2);
  assert_near(pump->curve[1].flow, 0.0019978562193333333);
  assert_near(pump->curve[0].head, 4.2672);
  assert_string_equal(pump->from.layer, "house");
  assert_int_equal(pump->from.at.line, 3);
  assert_true(isnan(stock->pumps[1].price));
  assert_int_equal(stock->pipe_count, 2);
  assert_int_equal(stock->pipes[1].material, WORD_pipe_material_pvc);
  assert_near(stock->pipes[0].price, 1.9);
  assert_int_equal(stock->pipes[0].from.at.line, 7);
  assert_int_equal(stock->figure_count, 4);
  assert_int_equal(stock->figures[0].row, ROW_prices_gravel);
  assert_string_equal(stock->figures[0].text, "$38");
  assert_int_equal(stock->figures[3].row, ROW_crew_soil_per_day);
  assert_near(stock->figures[3].value, 16.820206875648);
  firm_free(firm);
}

static void givens_are_ready_to_write(void **state) {
  (void)state;
  struct firm *firm = firm_of_layers(house, NULL);
  const struct stock *stock = rulebook_stock(firm->rulebook);
  const struct stock_pump *pump = &stock->pumps[0];
  assert_int_equal(pump->given_count, 3);
  assert_int_equal(pump->givens[0].row, ROW_pump_type);
  assert_string_equal(pump->givens[0].text, "submersible");
  assert_int_equal(pump->givens[1].row, ROW_pump_curve);
  assert_null(pump->givens[1].text);
  assert_string_equal(pump->givens[1].lua, "{ {\"0 gal/h\", \"14 ft\"}, {\"1,900 gal/h\", \"0 ft\"} }");
  assert_string_equal(pump->givens[1].json, "[ [\"0 gal/h\", \"14 ft\"], [\"1,900 gal/h\", \"0 ft\"] ]");
  assert_string_equal(pump->givens[2].text, "110 W");
  assert_string_equal(stock->pumps[1].givens[1].lua, "{ {\"0 gal/h\", \"9' 6\\\"\"}, {\"900 gal/h\", \"0 ft\"} }");
  firm_free(firm);
}

static void tolerances_by_way(void **state) {
  (void)state;
  struct firm *firm = firm_of_layers(house, NULL);
  const struct stock *stock = rulebook_stock(firm->rulebook);
  assert_near(stock_tolerance(stock, "tape")->value, 0.0127);
  assert_int_equal(stock_tolerance(stock, "tape")->is_share, 0);
  assert_near(stock_tolerance(stock, "maker's curve")->value, 0.05);
  assert_int_equal(stock_tolerance(stock, "maker's curve")->is_share, 1);
  assert_null(stock_tolerance(stock, "eye"));
  firm_free(firm);
}

static void nothing_stated_is_not_an_empty_list(void **state) {
  (void)state;
  struct firm *firm = firm_of_layers("stock { prices = { gravel = \"$38\" } }", NULL);
  assert_int_equal(rulebook_stock(firm->rulebook)->states_pumps, 0);
  firm_free(firm);
  firm = firm_of_layers("stock { pumps = {} }", NULL);
  assert_string_equal(firm_problems(firm), "");
  assert_int_equal(rulebook_stock(firm->rulebook)->states_pumps, 1);
  assert_int_equal(rulebook_stock(firm->rulebook)->pump_count, 0);
  assert_int_equal(rulebook_stock(firm->rulebook)->states_pipes, 0);
  firm_free(firm);
}

static void later_layers_take_the_place(void **state) {
  (void)state;
  struct firm *firm =
      firm_of_layers(house,
                     "\nstock { pumps = { { model = \"mid 1900\", type = \"submersible\", price = \"$260\",\n"
                     "  curve = { {\"0 gal/h\", \"13 ft\"}, {\"1,900 gal/h\", \"0 ft\"} } } },\n"
                     "  prices = { gravel = \"$41\" }, tolerances = { tape = \"1/4 in\" }, pipe_sizes = {} }");
  const struct stock *stock = rulebook_stock(firm->rulebook);
  assert_string_equal(firm_problems(firm), "");
  assert_int_equal(stock->pump_count, 2);
  assert_near(stock->pumps[0].price, 260);
  assert_string_equal(stock->pumps[0].from.layer, "crew");
  assert_string_equal(stock->figures[0].text, "$41");
  assert_int_equal(stock->pipe_count, 0);
  assert_int_equal(stock->change_count, 5);
  assert_string_equal(stock->changes[0].what, "pump \"mid 1900\"");
  assert_string_equal(stock->changes[0].had.layer, "house");
  assert_int_equal(stock->changes[0].had.at.line, 3);
  assert_int_equal(stock->changes[0].has.at.line, 2);
  assert_string_equal(stock->changes[1].what, "pipe 2 in, HDPE");
  assert_int_equal(stock->changes[1].dropped, 1);
  assert_string_equal(stock->changes[3].what, "prices.gravel");
  assert_string_equal(stock->changes[3].was, "$38");
  assert_string_equal(stock->changes[3].by, "$41");
  firm_free(firm);
}

#define PUMP(more)                                                                                                \
  "stock { pumps = {\n  { model = \"a\", type = \"dry\", curve = { {\"0 gal/h\", \"9 ft\"}, {\"900 gal/h\", \"0 " \
  "ft\"} }" more " } } }"

static void pumps_that_cannot_be_used(void **state) {
  (void)state;
  check_problems(PUMP(""), "");
  check_problems(PUMP(", prise = \"$3\""),
                 "h.lua:2: stock.pumps: a pump in stock has no `prise`; write `price`, if that is meant\n");
  check_problems(PUMP(", price = \"3\""), "h.lua:2: stock.pumps.price: has no unit; read \"3\"; write $3\n");
  check_problems(PUMP(", speed = \"80 %\""),
                 "h.lua:2: stock.pumps: `speed` says how a design uses a pump, not what is bought; write it in the "
                 "design\n");
  check_problems(PUMP(",\n power = \"110 V\""),
                 "h.lua:3: pump \"a\".power: V is a voltage, a power is asked for; read \"110 V\"; write 110 W\n");
  check_problems(PUMP(",\n power = \"0 W\""),
                 "h.lua:3: pump \"a\".power: is too small; read \"0 W\"; write more than 0 W\n");
  check_problems(
      PUMP(" },\n  { model = \"a\", type = \"dry\", curve = { {\"0 gal/h\", \"9 ft\"}, {\"900 gal/h\", \"0 ft\"} }"),
      "h.lua:3: stock: pump \"a\" stands already in h.lua, line 2; the first one holds; write one of the "
      "two\n");
  check_problems(
      "stock { pumps = { { model = \"a\", type = \"dry\", curve = { {\"0 gal/h\", \"9 ft\"},\n"
      "{\"900 gal/h\", \"11 ft\"} } } } }",
      "h.lua:2: pump \"a\".curve[2].head: is over the head of the point before; read \"11 ft\"; write a head "
      "that falls as the flow grows\n");
  check_problems("stock { pumps = { { model = \"a\", type = \"dry\" } } }",
                 "h.lua:1: stock.pumps: the pump has no curve; write curve = { {\"0 gal/h\", \"14 ft\"}, {\"2,100 "
                 "gal/h\", \"0 ft\"} }\n");
  check_problems(
      "stock { pumps = { \"mid 1900\" } }",
      "h.lua:1: stock.pumps: is a list, and something else stands in it; read \"mid 1900\"; write { { ... }, "
      "{ ... } }\n");
}

static void models_are_plain_text(void **state) {
  (void)state;
  check_problems("stock { pumps = { { model = \"v2.\\n5\", type = \"dry\" } } }",
                 "h.lua:1: stock.pumps: holds control characters in its model; read \"v2. 5\"; write plain text on one "
                 "line\n");
  check_problems("stock { pumps = { { model = 1900, type = \"dry\" } } }",
                 "h.lua:1: stock.model: is not a text; read \"1900\"; write words in quotes\n");
}

static void other_lists_that_cannot_be_used(void **state) {
  (void)state;
  check_problems("stock { pipe_sizes = { { size = \"1 1/3 in\" } } }",
                 "h.lua:1: stock.pipe_sizes: is no size in the table of pipes; read \"1 1/3 in\"; write 1 1/4 in\n");
  check_problems("stock { pipe_sizes = { { size = \"2 in\", material = \"HDPI\" } } }",
                 "h.lua:1: stock.pipe_sizes: is no material of a pipe; read \"HDPI\"; write `HDPE`, if that is "
                 "meant\n");
  check_problems("stock { pipe_sizes = { { price = \"$2\" } } }",
                 "h.lua:1: stock.pipe_sizes: a pipe in stock has no size; write size = \"1 1/2 in\"\n");
  check_problems("stock { pipe_sizes = { { size = \"2 in\" },\n{ size = \"2 in\" } } }",
                 "h.lua:2: stock: pipe 2 in, PVC schedule 40 stands already in h.lua, line 1; the first one holds; "
                 "write one of the two\n");
  check_problems("stock {\n prices = {\n gravle = \"$3\" } }",
                 "h.lua:3: prices: `gravle` is not known here; read \"gravle\"; write `gravel`, if that is meant\n");
  check_problems("stock { prices = { gravel = \"-$3\" } }",
                 "h.lua:1: prices.gravel: is too small; read \"-$3\"; write at least $0\n");
  check_problems("stock { rates = { days = 3 } }",
                 "h.lua:1: stock.rates: `days` belongs to a job and not to the firm; write it in the design\n");
  check_problems("stock { rates = { fall_zone_kept = \"stated\" } }",
                 "h.lua:1: stock.rates: `fall_zone_kept` belongs to a job and not to the firm; write it in the "
                 "design\n");
  check_problems("stock { tolerances = { eyes = \"3 in\" } }",
                 "h.lua:1: stock.tolerances: names no way to take a value; read \"eyes\"; write `eye`, if that is "
                 "meant\n");
  check_problems(
      "stock { tolerances = { tape = \"5 %\" } }",
      "h.lua:1: stock.tolerances.tape: is not what this is uncertain by; read \"5 %\"; write a length, \"1/2 "
      "in\"\n");
  check_problems("stock { tolerances = { eye = \"0 in\" } }",
                 "h.lua:1: stock.tolerances.eye: is no width; read \"0 in\"; write a length or a share of the value, "
                 "\"10 %\"\n");
  check_problems("stock { pump = {} }",
                 "h.lua:1: stock: stock has no such list; read \"pump\"; write `pumps`, if that is meant\n");
  check_problems("stock { pumps = \"none\" }", "h.lua:1: stock.pumps: is not a table; read \"none\"; write { ... }\n");
  check_problems("stock { }",
                 "h.lua:1: stock: is empty; read \"{ }\"; write pumps, pipe_sizes, prices, rates or tolerances\n");
  check_problems("stock { prices = { gravel = \"$3\" } }\nstock { prices = { gravel = \"$4\" } }",
                 "h.lua:2: stock: prices.gravel stands already in h.lua, line 1; the first one holds; write one of the "
                 "two\n");
}

static void stock_has_no_name(void **state) {
  (void)state;
  struct firm *firm = firm_new();
  firm_read(firm, "house", "h.lua", "stock \"mine\" { pumps = {} }");
  assert_string_equal(firm_problems(firm),
                      "h.lua:1: `stock` needs a table in { }, and has no name; write stock { pumps = { ... } }\n");
  firm_free(firm);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(all_lists_are_read),          cmocka_unit_test(givens_are_ready_to_write),
      cmocka_unit_test(tolerances_by_way),           cmocka_unit_test(nothing_stated_is_not_an_empty_list),
      cmocka_unit_test(later_layers_take_the_place), cmocka_unit_test(pumps_that_cannot_be_used),
      cmocka_unit_test(models_are_plain_text),       cmocka_unit_test(other_lists_that_cannot_be_used),
      cmocka_unit_test(stock_has_no_name),
  };
  return cmocka_run_group_tests_name("rulebook/stock", tests, NULL, NULL);
}
