// SPDX-License-Identifier: MIT
// Memory of the state: what it holds, what it refuses, and what is left when an allocation fails.
#include "script/state.h"

#include "unit/script/runner.h"

static const struct script_owner rules = {.profile = SCRIPT_RULES};

// Touches what allocates in different ways: texts, tables, closures, quantities, sorting, formatting, joining.
static const char busy[] =
    "local t, f = {}, function(a) return function() return a end end\n"
    "for i = 1, 90 do t[i] = tostring(i) .. \" ft\" end\n"
    "for k, v in pairs({ b = 1, a = 2, 3 }) do t[#t + 1] = string.format(\"%s %d\", k, v) end\n"
    "table.sort(t)\n"
    "local sum = q\"2 ft\" for i = 1, 10 do sum = sum + q\"3 in\" * i end\n"
    "return table.concat(t, \", \"):upper(), sum .. \"\", f(3)(), math.max(q\"1 ft\", sum)\n";

static void a_state_is_small(void **state) {
  (void)state;
  struct script *script = script_new((struct script_budget){0}, rules);
  assert_in_range(script_memory(script), 1, 64 * 1024);
  assert_ptr_equal(script_of(script_lua(script)), script);
  script_free(script);
  script_free(NULL);
}

static void memory_is_given_back(void **state) {
  (void)state;
  struct outcome outcome;
  struct script *script = script_new((struct script_budget){0}, rules);
  size_t before = script_memory(script);
  for (int i = 0; i < 20; i++) {
    static const char text[] = "local t = {} for i = 1, 20000 do t[i] = { i } end";
    runner_run(script, text, strlen(text), 1000000, &outcome);
    assert_int_equal(outcome.failure.kind, SCRIPT_FINE);
  }
  lua_gc(script_lua(script), LUA_GCCOLLECT);
  assert_in_range(script_memory(script), 1, 2 * before);
  script_free(script);
}

static void a_state_goes_on_after_each_failure(void **state) {
  (void)state;
  static const struct {
    const char *text;
    enum script_failing kind;
  } failing[] = {{"while true do end", SCRIPT_STOPPED},
                 {"local s = \"x\" while true do s = s .. s end", SCRIPT_STOPPED},
                 {"local function f() return 1 + f() end f()", SCRIPT_STOPPED},
                 {"return q\"1 ft\" + q\"1 h\"", SCRIPT_MISUSE},
                 {"return nil + 1", SCRIPT_BROKEN},
                 {"return {", SCRIPT_SYNTAX}};
  struct outcome outcome;
  struct script *script = script_new((struct script_budget){0}, rules);
  for (size_t i = 0; i < sizeof failing / sizeof *failing; i++) {
    runner_run(script, failing[i].text, strlen(failing[i].text), 1000000, &outcome);
    assert_int_equal(outcome.failure.kind, failing[i].kind);
    runner_run(script, busy, strlen(busy), 1000000, &outcome);
    assert_int_equal(outcome.failure.kind, SCRIPT_FINE);
  }
  script_free(script);
}

static void a_ceiling_anywhere_is_told_as_one(void **state) {
  (void)state;
  size_t none = 0, stopped = 0, fine = 0;
  for (size_t memory = 2048; memory < 96 * 1024; memory += 100) {
    struct outcome outcome;
    struct script *script = script_new((struct script_budget){.memory = memory}, rules);
    if (!script) {
      none++;
      continue;
    }
    runner_run(script, busy, strlen(busy), 1000000, &outcome);
    if (outcome.failure.kind != SCRIPT_FINE) assert_int_equal(outcome.failure.kind, SCRIPT_STOPPED);
    *(outcome.failure.kind == SCRIPT_FINE ? &fine : &stopped) += 1;
    script_free(script);
  }
  assert_in_range(none, 20, 1000);
  assert_in_range(stopped, 20, 1000);
  assert_in_range(fine, 20, 1000);
}

static bool take_slip(void *with, const struct script_slip *slip) {
  struct problem problem = {.at = slip->at, .said = slip->said, .read = slip->read, .right = slip->right};
  problem_add(with, problem);
  return true;
}

struct fault_run {
  struct problems problems;
  enum script_failing kind;
  bool opened;
};

static void run_once(struct arena *arena, struct fault_run *run) {
  static const char slips[] = "local a, b = unknwon.x, q\"3 inches long\" tabel() return tostring(a), b\n";
  struct outcome outcome;
  struct script_owner owner = {.profile = SCRIPT_RULES, .slipped = take_slip, .with = &run->problems, .arena = arena};
  struct script *script = script_new((struct script_budget){0}, owner);
  run->opened = script != NULL;
  if (!script) return;
  runner_run(script, busy, strlen(busy), 1000000, &outcome);
  run->kind = outcome.failure.kind;
  if (run->kind == SCRIPT_FINE) {
    runner_run(script, slips, strlen(slips), 1000000, &outcome);
    run->kind = outcome.failure.kind;
  }
  script_free(script);
}

// Each allocation fails once, and with it all of that call. ASan's leak check sees to the rest.
static void any_allocation_may_fail(void **state) {
  (void)state;
  enum { FINE_IN_A_ROW = 60 };
  int unopened = 0, stopped = 0, in_a_row = 0;
  for (long n = 1; in_a_row < FINE_IN_A_ROW; n++) {
    struct arena *arena = arena_new();
    struct fault_run run = {.problems = problems_in(arena)};
    arena_fail_nth(n);
    run_once(arena, &run);
    arena_fail_nth(0);
    if (run.opened && run.kind != SCRIPT_FINE) assert_int_equal(run.kind, SCRIPT_STOPPED);
    bool fine = run.opened && run.kind == SCRIPT_FINE;
    if (fine) assert_int_equal(run.problems.count, 3);
    in_a_row = fine ? in_a_row + 1 : 0;
    unopened += !run.opened;
    stopped += run.opened && !fine;
    arena_free(arena);
  }
  assert_in_range(unopened, 100, 10000);
  assert_in_range(stopped, 100, 10000);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_state_is_small),
      cmocka_unit_test(memory_is_given_back),
      cmocka_unit_test(a_state_goes_on_after_each_failure),
      cmocka_unit_test(a_ceiling_anywhere_is_told_as_one),
      cmocka_unit_test(any_allocation_may_fail),
  };
  return cmocka_run_group_tests_name("script/state", tests, NULL, NULL);
}
