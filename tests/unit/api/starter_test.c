// SPDX-License-Identifier: MIT
// The design to start from, judged by the rules as shipped.
#include "forebay/forebay.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/file.h"

enum { LARGEST = 1 << 20 };

struct shipped {
  struct arena *arena;
  fb_problems *problems;
  fb_design *design;
  fb_rulebook *rulebook;
};

static fb_rulebook *trade_rules(struct shipped *shipped) {
  struct problems problems = problems_in(shipped->arena);
  const char **names;
  size_t count;
  assert_true(file_list(&problems, FOREBAY_ROOT "/rules/trade", ".lua", &names, &count, NULL));
  struct fb_file *files = arena_array(shipped->arena, count, sizeof *files);
  for (size_t i = 0; i < count; i++) {
    struct file_bytes bytes;
    assert_true(file_read(&problems, names[i], LARGEST, &bytes));
    files[i] = (struct fb_file){bytes.name, bytes.bytes, bytes.length};
  }
  struct fb_layer layer = {"trade", files, count};
  return fb_rulebook_new(&layer, 1, NULL, NULL, NULL, shipped->problems);
}

static int setup(void **state) {
  static struct shipped shipped;
  struct fb_file file = {"new.lua", fb_starter_design(), strlen(fb_starter_design())};
  shipped.arena = arena_new();
  shipped.problems = fb_problems_new();
  shipped.design = fb_design_new(&file, NULL, 0, shipped.problems);
  shipped.rulebook = trade_rules(&shipped);
  *state = &shipped;
  return !shipped.design || !shipped.rulebook;
}

static int teardown(void **state) {
  struct shipped *shipped = *state;
  fb_rulebook_free(shipped->rulebook);
  fb_design_free(shipped->design);
  fb_problems_free(shipped->problems);
  arena_free(shipped->arena);
  return 0;
}

static void test_it_is_read_without_a_problem(void **state) {
  const struct shipped *shipped = *state;
  for (size_t i = 0; i < fb_problems_count(shipped->problems); i++) {
    assert_string_equal(fb_problems_at(shipped->problems, i)->said, "");
  }
  assert_true(fb_rulebook_whole(shipped->rulebook));
}

static void test_every_rule_runs_on_it(void **state) {
  struct shipped *shipped = *state;
  fb_review *review = fb_review_new(shipped->design, shipped->rulebook, FB_LAYOUT, NULL, NULL, shipped->problems);
  struct fb_counts counts = fb_review_counts(review);
  assert_int_equal(counts.broken, 0);
  assert_int_equal(counts.rules, fb_rulebook_count(shipped->rulebook));
  assert_in_range(counts.clear, 10, 1000);
  assert_in_range(counts.hold, 1, 1000);  // its lines are not located: nothing new may be dug as it stands
  fb_review_free(review);
}

static void test_what_it_leaves_out_is_asked_for(void **state) {
  struct shipped *shipped = *state;
  fb_review *review = fb_review_new(shipped->design, shipped->rulebook, FB_LAYOUT, NULL, NULL, shipped->problems);
  fb_text *text = fb_report_text_new(review, NULL);
  assert_non_null(strstr(fb_text_bytes(text), "\nANSWER FIRST\n"));
  assert_non_null(strstr(fb_text_bytes(text), "\nTAKEOFF\n  gravel to order: "));
  assert_non_null(strstr(fb_text_bytes(text), "\n  Drowning: "));
  assert_null(strstr(fb_text_bytes(text), "PROBLEMS"));
  fb_text_free(text);
  fb_review_free(review);
}

int main(void) {
#define TEST(name) cmocka_unit_test_setup_teardown(name, setup, teardown)
  const struct CMUnitTest tests[] = {
      TEST(test_it_is_read_without_a_problem),
      TEST(test_every_rule_runs_on_it),
      TEST(test_what_it_leaves_out_is_asked_for),
  };
  return cmocka_run_group_tests_name("api/starter", tests, NULL, NULL);
}
