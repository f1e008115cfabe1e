// SPDX-License-Identifier: MIT
// Memory runs out at every place of a few draws and of their report once. Each time the call says that there is none,
// the review is not used any further, and nothing is left behind (the sanitizer build looks for leaks).
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
// cmocka wants the four above first
#include <cmocka.h>

#include "base/arena.h"
#include "forebay/forebay.h"

static const char rules[] =
    "rule \"foot\" { title = \"A foot in the ground\", for_each = \"boulder\", stage = \"stone\", severity = "
    "\"hold\",\n"
    "  judges = \"embedded_share\", at_least = \"30 %\", why = [[It falls.]], source = \"common practice, no source\" "
    "}\n"
    "rule \"lip\" { title = \"Every lip gets water\", for_each = \"spill\", stage = \"plumbing\", severity = "
    "\"revise\",\n"
    "  limit = { least = \"40 gal/h/in\" },\n"
    "  check = function(spill, limit) return at_least(spill.flow_per_width, limit.least) end,\n"
    "  why = [[A dry lip is no fall.]], source = \"common practice, no source\" }\n";

enum { MOST = 20000, BEYOND = 5, PARTS = 500 };  // a part in 500 of 1,000 draws: two

struct handles {
  fb_design *design;
  fb_rulebook *rulebook;
  fb_review *review;
  fb_problems *problems;
};

static void open_all(struct handles *handles) {
  struct fb_file design = {"starter.lua", fb_starter_design(), strlen(fb_starter_design())};
  struct fb_file file = {"rules.lua", rules, sizeof rules - 1};
  struct fb_layer layer = {"trade", &file, 1};
  handles->problems = fb_problems_new();
  handles->design = fb_design_new(&design, NULL, 0, handles->problems);
  handles->rulebook = fb_rulebook_new(&layer, 1, NULL, NULL, NULL, handles->problems);
  assert_non_null(handles->design);
  assert_non_null(handles->rulebook);
  handles->review = fb_review_new(handles->design, handles->rulebook, FB_LAYOUT, NULL, NULL, handles->problems);
  assert_non_null(handles->review);
}

static void close_all(struct handles *handles) {
  fb_review_free(handles->review);
  fb_rulebook_free(handles->rulebook);
  fb_design_free(handles->design);
  fb_problems_free(handles->problems);
}

static bool try_draws(const struct handles *handles) {
  const struct fb_tolerance_order order = {.samples = FB_TOLERANCE_FEWEST, .seed = 1};
  fb_tolerance *tolerance = fb_tolerance_of(handles->review, handles->rulebook, &order);
  if (!tolerance || !fb_tolerance_work(tolerance, FB_TOLERANCE_DRAWS, 0, PARTS)) return false;
  fb_text *found = fb_tolerance_found_new(tolerance, FB_TOLERANCE_DRAWS);
  fb_text *report = found ? fb_report_tolerance_new(tolerance, NULL) : NULL;
  bool done = report && fb_tolerance_sureness(tolerance).draws == FB_TOLERANCE_FEWEST / PARTS;
  fb_text_free(found);
  fb_text_free(report);
  return done;
}

static void every_allocation_of_draws_fails_once(void **state) {
  (void)state;
  long failed = 0, done = 0;
  for (long n = 1; n < MOST && done < BEYOND; n++) {
    struct handles handles;
    open_all(&handles);
    arena_fail_nth(n);
    bool works = try_draws(&handles);
    arena_fail_nth(0);
    if (!works && done) fail_msg("allocation %ld failed without a trace", n - 1);
    done += works;
    failed += !works;
    close_all(&handles);
  }
  assert_int_equal(done, BEYOND);
  assert_in_range(failed, 3, MOST);
}

static void too_few_draws_are_refused(void **state) {
  (void)state;
  struct handles handles;
  open_all(&handles);
  assert_null(fb_tolerance_of(handles.review, handles.rulebook, &(struct fb_tolerance_order){.samples = 999}));
  assert_null(fb_tolerance_of(handles.review, handles.rulebook,
                              &(struct fb_tolerance_order){.samples = (size_t)FB_TOLERANCE_MOST + 1}));
  fb_tolerance *tolerance =
      fb_tolerance_of(handles.review, handles.rulebook, &(struct fb_tolerance_order){.samples = 1000});
  assert_non_null(tolerance);
  assert_false(fb_tolerance_work(tolerance, FB_TOLERANCE_DRAWS, 2, 2));
  assert_false(fb_tolerance_add(tolerance, FB_TOLERANCE_DRAWS, "none", 4));
  close_all(&handles);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(every_allocation_of_draws_fails_once),
      cmocka_unit_test(too_few_draws_are_refused),
  };
  return cmocka_run_group_tests_name("fault/tolerance", tests, NULL, NULL);
}
