// SPDX-License-Identifier: MIT
// The takeoff page. Amounts are sums and products done by hand beside each design.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>
// clang-format on

#include "report/takeoff.h"
#include "design/read.h"

#define HEAD "project { name = \"Yard\", units = \"us\" }\n"
#define BASIN                                                                                                          \
  "basin \"pool\" { purpose = \"display\", outline = rectangle { \"10 ft\", \"10 ft\" }, rim = \"1 in\", water_level " \
  "= \"0 in\","                                                                                                        \
  " depth = \"1 ft\" }\n"

static int set_up(void **state) {
  *state = arena_new();
  return 0;
}

static int tear_down(void **state) {
  arena_free(*state);
  return 0;
}

static const char *page_of(struct arena *arena, const char *design, enum unit_system units, bool working) {
  struct problems problems = problems_in(arena);
  struct file_bytes file = {.name = "yard.lua", .bytes = design, .length = strlen(design)};
  struct store *store = design_read(arena, &file, &problems);
  struct text said = text_in(arena), page = text_in(arena);
  problems_write(&said, &problems, 20);
  if (!store) fail_msg("%s", text_end(&said));
  takeoff_write(&page, evaluation_in(arena, store, &problems), units, working);
  return text_end(&page);
}

static const char *page(struct arena *arena, const char *design) { return page_of(arena, design, UNITS_US, false); }

// The lines of one group, without its heading.
static const char *group(struct arena *arena, const char *of, const char *title) {
  struct text heading = text_in(arena);
  text_printf(&heading, "\n\n%s\n", title);
  const char *from = strstr(of, text_end(&heading));
  if (!from) return "no such group";
  from += heading.length;
  const char *to = strstr(from, "\n\n");
  return arena_copy(arena, from, to ? (size_t)(to + 1 - from) : strlen(from));
}

static void pipe_of_one_size_is_one_line(void **state) {
  static const char design[] = HEAD BASIN
      "junction \"tee\" { at = \"-1 ft\" }\n"
      "pipe \"a\" { from = \"tee\", to = \"knee\", size = \"2 in\", length = \"7 ft\", valve = \"gate\","
      " fittings = { { type = \"tee run\" }, { type = \"elbow 45\", count = 3 } } }\n"
      "junction \"knee\" { at = \"-1 ft\" }\n"
      "pipe \"b\" { from = \"knee\", to = \"foot\", size = \"2 in\", length = \"5 ft\", valve = \"gate\","
      " fittings = { { type = \"elbow 45\", count = 2 } } }\n"
      "junction \"foot\" { at = \"-1 ft\" }\n"
      "pipe \"c\" { from = \"foot\", to = \"end\", size = \"2 in\", length = \"4 ft\", material = \"HDPE\" }\n"
      "junction \"end\" { at = \"-1 ft\" }\n";
  assert_string_equal(group(*state, page(*state, design), "PIPE, FITTINGS, VALVES"),
                      "  PVC schedule 40, 2 in ........... 12 ft\n"
                      "  HDPE, 2 in ...................... 4 ft\n"
                      "  tee run, 2 in ................... 1\n"
                      "  elbow 45, 2 in .................. 5\n"
                      "  gate valve, 2 in ................ 2\n"
                      "  all pipe ........................ 16 ft\n");
}

// 120 ft of wall 3 ft tall in pieces of 3 ft; 0.5 x 120 x (1 + 2 x 0.5) ft = 120 ft3 = 4.44 yd3, a fifth more 5.33 yd3,
// 144 ft3 of 100 lb = 7.2 tons.
static void a_wall_with_its_caps_and_base(void **state) {
  static const char design[] = HEAD BASIN
      "wall \"back\" { length = \"120 ft\", footing_to_top = \"3 ft\", thickness = \"12 in\", base_pad = \"6 in\" }\n"
      "coping \"caps\" { on = \"back\", length = \"3 ft\", depth = \"14 in\", thickness = \"2 in\", overhang = \"1 "
      "in\" }\n";
  assert_string_equal(group(*state, page(*state, design), "WALLS, CAPS, BASE"),
                      "  back: face, foot to top ......... 360 ft2\n"
                      "  back: solid ..................... 360.0 ft3\n"
                      "  caps: pieces .................... 40\n"
                      "  base, compacted, paving too ..... 4.4 yd3\n"
                      "  base stone to order, loose ...... 5.3 yd3\n"
                      "  weight of that base stone ....... 7.2 ton\n");
}

// 40 ft2 and 60 ft2 at $5 are $500.
static void a_total_says_what_it_leaves_out(void **state) {
  static const char design[] = HEAD BASIN
      "prices { paving = \"$5\" }\n"
      "paving \"one\" { area = \"40 ft2\", base = \"0 in\", thickness = \"2 in\" }\n"
      "paving \"two\" { area = \"60 ft2\", base = \"0 in\", thickness = \"2 in\" }\n";
  assert_string_equal(group(*state, page(*state, design), "PRICE, at what the firm pays"),
                      "  paving stone .................... $500.00\n"
                      "  crew ............................ no price; missing: crew.paving_per_day;\n"
                      "                                    prices.crew_day\n"
                      "  total ........................... $500.00 for 1 of 2 lines; the others have no\n"
                      "                                    price\n");
}

static void without_prices_no_line_is_listed(void **state) {
  static const char design[] =
      HEAD BASIN "paving \"one\" { area = \"40 ft2\", base = \"0 in\", thickness = \"2 in\" }\n";
  assert_string_equal(group(*state, page(*state, design), "PRICE, at what the firm pays"),
                      "  None: neither the design (prices) nor a firm's layer gives one that a line\n"
                      "    could be worked out with.\n");
}

static void a_long_name_has_its_value_below(void **state) {
  static const char design[] = HEAD BASIN
      "planting \"the long bed of irises beside the kitchen door\" { basin = \"pool\", area = \"8 ft2\", plants = 12 "
      "}\n";
  assert_string_equal(group(*state, page(*state, design), "PLANTS"),
                      "  the long bed of irises beside the kitchen door: plants\n"
                      "                                    12\n"
                      "  the long bed of irises beside the kitchen door: soil\n"
                      "                                    missing: planting \"the long bed of irises\n"
                      "                                    beside the kitchen door\".soil_depth\n");
}

// Cable is one line a sort; what nobody named stands by itself.
static void cable_by_sort(void **state) {
  static const char design[] = HEAD BASIN
      "pump \"p\" { from = \"pool\", type = \"submersible\", curve = { { \"0 gal/h\", \"9 ft\" }, { \"900 gal/h\", \"0 "
      "ft\" } } }\n"
      "circuit \"one\" { volts = \"120 V\", wire = \"12 AWG copper\", run = \"70 ft\", feeds = { \"p\" } }\n"
      "light \"spot\" { volts = \"12 V\", power = \"5 W\", wire = \"12 AWG copper\", run = \"20 ft\" }\n"
      "light \"glow\" { volts = \"12 V\", power = \"5 W\", run = \"9 ft\" }\n";
  assert_string_equal(group(*state, page(*state, design), "POWER"),
                      "  cable, 12 AWG copper ............ 90 ft\n"
                      "  cable, sort not given ........... 9 ft\n"
                      "  circuits ........................ 1\n"
                      "  all cable ....................... 99 ft\n");
}

static void working_stands_under_each_line(void **state) {
  static const char design[] = HEAD BASIN
      "liner \"sheet\" { of = \"pool\", length = \"20 ft\", width = \"15 ft\", underlay = \"both sides\" }\n";
  assert_string_equal(group(*state, page_of(*state, design, UNITS_US, true), "LINER AND UNDERLAY"),
                      "  liner \"sheet\" ................... 20 ft by 15 ft\n"
                      "    = length and width of the piece\n"
                      "  all liner ....................... 300 ft2\n"
                      "    = sum of area of all liners [geometry (worked out)]\n"
                      "  all underlay .................... 600 ft2\n"
                      "    = sum of underlay_area of all liners [geometry (worked out)]\n");
}

// 20 ft = 6.096 m, 15 ft = 4.572 m, 300 ft2 = 27.87 m2.
static void metric_on_request(void **state) {
  static const char design[] =
      HEAD BASIN "liner \"sheet\" { of = \"pool\", length = \"20 ft\", width = \"15 ft\", underlay = \"none\" }\n";
  assert_string_equal(group(*state, page_of(*state, design, UNITS_SI, false), "LINER AND UNDERLAY"),
                      "  liner \"sheet\" ................... 6.10 m by 4.57 m\n"
                      "  all liner ....................... 27.87 m2\n");
}

static void what_is_not_in_the_design_is_not_on_the_page(void **state) {
  const char *bare = page(*state, HEAD BASIN);
  assert_string_equal(group(*state, bare, "STONE"), "no such group");
  assert_string_equal(group(*state, bare, "PRICE, at what the firm pays"), "no such group");
  assert_string_equal(group(*state, bare, "THE FIRST FILLING"), "  pool: water ..................... 748 gal\n");
}

int main(void) {
#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)
  const struct CMUnitTest tests[] = {
      TEST(pipe_of_one_size_is_one_line),
      TEST(a_wall_with_its_caps_and_base),
      TEST(a_total_says_what_it_leaves_out),
      TEST(without_prices_no_line_is_listed),
      TEST(a_long_name_has_its_value_below),
      TEST(cable_by_sort),
      TEST(working_stands_under_each_line),
      TEST(metric_on_request),
      TEST(what_is_not_in_the_design_is_not_on_the_page),
  };
  return cmocka_run_group_tests_name("report/takeoff", tests, NULL, NULL);
}
