// SPDX-License-Identifier: MIT
// Every design in projects/: it reads without a problem, no rule breaks on it, nothing impossible turns up while
// working, and two reviews give the same bytes. Where the datum lies, or whether the design is Lua or JSON, changes no
// outcome.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

#include "designs/judged.h"
#include "forebay/forebay.h"

// ---- Through the public API ----

static void fail_on(const fb_problems *problems, const char *of) {
  for (size_t i = 0; i < fb_problems_count(problems); i++) {
    const struct fb_problem *it = fb_problems_at(problems, i);
    print_error("%s:%d: %s: %s\n", it->file ? it->file : of, it->line, it->where ? it->where : "", it->said);
  }
  assert_int_equal(fb_problems_count(problems), 0);
}

static struct fb_file as_public(struct file_bytes file) {
  return (struct fb_file){.name = file.name, .bytes = file.bytes, .length = file.length};
}

static fb_rulebook *trade_rules(struct judged *files, fb_problems *problems) {
  const char **names;
  size_t count;
  assert_true(file_list(&files->problems, judged_path(files->arena, "rules/trade"), ".lua", &names, &count, NULL));
  struct fb_file *read = arena_array(files->arena, count, sizeof *read);
  for (size_t i = 0; i < count; i++) read[i] = as_public(judged_file(files, names[i]));
  const struct fb_layer layer = {.name = "trade", .files = read, .count = count};
  return fb_rulebook_new(&layer, 1, NULL, NULL, NULL, problems);
}

// A report that the caller frees; *counts as the review had them.
static fb_text *reviewed(struct judged *files, const char *path, struct fb_counts *counts) {
  fb_problems *problems = fb_problems_new();
  struct fb_file file = as_public(judged_file(files, path));
  fb_design *design = fb_design_new(&file, NULL, 0, problems);
  fail_on(problems, path);
  assert_non_null(design);
  fb_rulebook *rulebook = trade_rules(files, problems);
  fb_review *review = fb_review_new(design, rulebook, FB_LAYOUT, NULL, NULL, problems);
  fail_on(problems, path);
  assert_non_null(review);
  assert_true(fb_rulebook_whole(rulebook));
  *counts = fb_review_counts(review);
  fb_text *report = fb_report_text_new(review, NULL);
  assert_non_null(report);
  fb_review_free(review);
  fb_rulebook_free(rulebook);
  fb_design_free(design);
  fb_problems_free(problems);
  return report;
}

static void check_demo(struct judged *files, const char *path) {
  struct fb_counts counts, again;
  fb_text *first = reviewed(files, path, &counts), *second = reviewed(files, path, &again);
  assert_int_equal(counts.broken, 0);
  assert_in_range(counts.rules, 20, 1000);
  assert_in_range(counts.entities, 10, 5000);
  assert_in_range(counts.clear, 20, 100000);
  assert_null(strstr(fb_text_bytes(first), "\nPROBLEMS"));
  assert_string_equal(fb_text_bytes(first), fb_text_bytes(second));
  fb_text_free(first);
  fb_text_free(second);
}

static void each_demo(void (*check)(struct judged *files, const char *path)) {
  struct judged files = {.arena = arena_new()};
  files.problems = problems_in(files.arena);
  const char **names;
  size_t count;
  assert_true(file_list(&files.problems, judged_path(files.arena, "projects"), ".lua", &names, &count, NULL));
  assert_in_range(count, 3, 100);
  for (size_t i = 0; i < count; i++) check(&files, names[i]);
  arena_free(files.arena);
}

static void demos_review_whole_and_alike(void **state) {
  (void)state;
  each_demo(check_demo);
}

// ---- The same design another way ----

static const char *entity_of(const struct judged *judged, const struct outcome *outcome) {
  return judged_name(judged, outcome->entity);
}

// Each outcome of `of` is found again in `other`, with the same severity.
static void check_found_again(const struct judged *of, const struct judged *other, const char *what) {
  assert_int_equal(of->review.outcome_count, other->review.outcome_count);
  for (size_t i = 0; i < of->review.outcome_count; i++) {
    const struct outcome *it = &of->review.outcomes[i];
    const char *rule = of->review.rules[it->rule].id;
    const struct outcome *twin = judged_outcome(other, rule, entity_of(of, it));
    if (!twin) fail_msg("%s: no outcome of %s on %s", what, rule, entity_of(of, it));
    if (twin->sort != it->sort || twin->severity != it->severity) {
      fail_msg("%s: %s on %s is %s, %s before", what, rule, entity_of(of, it), outcome_word(twin->sort),
               outcome_word(it->sort));
    }
  }
}

// Every height of the design, written, measured or by default.
static void raise_all(struct store *store, double by) {
  size_t raised = 0;
  for (size_t i = 0; i < store->slot_count; i++) {
    int entity;
    const struct row *row = catalogue_row(store_row_of_slot(store, (int)i, &entity));
    struct slot *slot = &store->slots[i];
    bool stands = slot->condition == CONDITION_GIVEN || slot->condition == CONDITION_DEFAULT;
    if (row->sort != SORT_NUMBER || row->dimension != DIM_ELEVATION || !stands) continue;
    slot->value += by;
    raised++;
  }
  for (size_t i = 0; i < store->measurement_count; i++) {
    int entity;
    const struct row *row = catalogue_row(store_row_of_slot(store, store->measurements[i].slot, &entity));
    if (row->dimension == DIM_ELEVATION) store->measurements[i].value += by;
  }
  assert_in_range(raised, 5, 10000);
}

static void check_raised(struct judged *files, const char *path) {
  (void)files;
  const char *name = path + strlen(FOREBAY_ROOT) + 1;
  struct judged as_drawn = judged_read(name), raised = judged_read(name);
  raise_all(raised.store, 100 * 0.3048);
  judged_judge(&as_drawn);
  judged_judge(&raised);
  judged_fail_on_problems(&raised, name);
  check_found_again(&as_drawn, &raised, name);
  judged_free(&as_drawn);
  judged_free(&raised);
}

static void datum_changes_nothing(void **state) {
  (void)state;
  each_demo(check_raised);
}

// The copy is kept by hand: whoever changes the design changes both.
static void json_says_the_same(void **state) {
  (void)state;
  struct judged lua = judged_read("projects/stone-court.lua"), json = judged_read("tests/designs/stone-court.json");
  judged_judge(&lua);
  judged_judge(&json);
  check_found_again(&lua, &json, "stone-court.json");
  judged_free(&lua);
  judged_free(&json);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(demos_review_whole_and_alike),
      cmocka_unit_test(datum_changes_nothing),
      cmocka_unit_test(json_says_the_same),
  };
  return cmocka_run_group_tests_name("designs/demo", tests, NULL, NULL);
}
