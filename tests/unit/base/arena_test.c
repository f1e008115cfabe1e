// SPDX-License-Identifier: MIT
#include "base/arena.h"

#include <stdalign.h>
#include <stdlib.h>
#include <string.h>

// cmocka.h asks for the others before it.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

static void allocations_are_zeroed_aligned_and_apart(void **state) {
  (void)state;
  struct arena *arena = arena_new();
  unsigned char *blocks[300];
  for (size_t i = 0; i < 300; i++) {
    blocks[i] = arena_alloc(arena, i * 7);
    assert_int_equal((uintptr_t)blocks[i] % alignof(max_align_t), 0);
    for (size_t k = 0; k < i * 7; k++) assert_int_equal(blocks[i][k], 0);
    memset(blocks[i], (int)(i % 255) + 1, i * 7);
  }
  for (size_t i = 0; i < 300; i++) {
    for (size_t k = 0; k < i * 7; k++) assert_int_equal(blocks[i][k], i % 255 + 1);
  }
  arena_free(arena);
}

static void large_ones_fit_too(void **state) {
  (void)state;
  struct arena *arena = arena_new();
  char *large = arena_alloc(arena, 5000000);
  large[4999999] = 'x';
  assert_string_equal(arena_words(arena, "behind it"), "behind it");
  assert_int_equal(large[4999999], 'x');
  arena_free(arena);
}

static void copies_end_in_nul(void **state) {
  (void)state;
  struct arena *arena = arena_new();
  char *copy = arena_copy(arena, "a\0bcd", 3);
  assert_memory_equal(copy, "a\0b\0", 4);
  assert_string_equal(arena_copy(arena, NULL, 0), "");
  arena_free(arena);
}

static void growing_keeps_what_was_there(void **state) {
  (void)state;
  struct arena *arena = arena_new();
  int *numbers = NULL;
  size_t room = 0;
  for (size_t count = 0; count < 1000; count++) {
    numbers = arena_grow(arena, numbers, count, &room, sizeof *numbers);
    assert_in_range(room, count + 1, 4 * count + 16);
    numbers[count] = (int)count;
  }
  for (int i = 0; i < 1000; i++) assert_int_equal(numbers[i], i);
  arena_free(arena);
}

static void free_allows_null(void **state) {
  (void)state;
  arena_free(NULL);
}

// ---- at_free ----

static char released[16];

static void note_release(void *what) {
  size_t length = strlen(released);
  released[length] = *(const char *)what;
  released[length + 1] = '\0';
}

static void releases_last_first(void **state) {
  (void)state;
  released[0] = '\0';
  struct arena *arena = arena_new();
  arena_at_free(arena, note_release, "a");
  arena_at_free(arena, note_release, "b");
  arena_at_free(arena, note_release, "c");
  assert_string_equal(released, "");
  arena_free(arena);
  assert_string_equal(released, "cba");
}

static void register_b(void *with) { arena_at_free(with, note_release, "b"); }

static void releases_at_once_without_memory(void **state) {
  (void)state;
  released[0] = '\0';
  struct arena *arena = arena_new();
  arena_fail_nth(1);
  assert_false(arena_try(arena, register_b, arena));
  assert_string_equal(released, "b");
  arena_free(arena);
  assert_string_equal(released, "b");
}

// ---- running out ----

static void do_nothing(void *with) { (void)with; }
static void give_up(void *with) { arena_give_up(with); }

static void tries(void **state) {
  (void)state;
  struct arena *arena = arena_new();
  assert_true(arena_try(arena, do_nothing, arena));
  assert_false(arena_try(arena, give_up, arena));
  assert_true(arena_try(arena, do_nothing, arena));
  arena_free(arena);
}

struct nest {
  struct arena *arena;
  bool inner, behind;
};

static void try_within(void *with) {
  struct nest *nest = with;
  nest->inner = arena_try(nest->arena, give_up, nest->arena);
  nest->behind = true;
  arena_alloc(nest->arena, 10);
}

static void try_within_and_give_up(void *with) {
  try_within(with);
  arena_give_up(((struct nest *)with)->arena);
}

static void tries_nest(void **state) {
  (void)state;
  struct arena *arena = arena_new();
  struct nest nest = {.arena = arena, .inner = true};
  assert_true(arena_try(arena, try_within, &nest));
  assert_false(nest.inner);
  assert_true(nest.behind);
  nest = (struct nest){.arena = arena, .inner = true};
  assert_false(arena_try(arena, try_within_and_give_up, &nest));
  assert_true(nest.behind);
  arena_free(arena);
}

static void ask_too_much(void *with) { arena_alloc(with, SIZE_MAX - 3); }
static void ask_for_overflow(void *with) { arena_array(with, SIZE_MAX / 2, 3); }
static void copy_too_much(void *with) { arena_copy(with, "", SIZE_MAX); }

static void sizes_that_overflow_give_up(void **state) {
  (void)state;
  struct arena *arena = arena_new();
  assert_false(arena_try(arena, ask_too_much, arena));
  assert_false(arena_try(arena, ask_for_overflow, arena));
  assert_false(arena_try(arena, copy_too_much, arena));
  arena_free(arena);
}

static void ask_for_much(void *with) {
  for (size_t i = 0; i < 100; i++) {
    arena_at_free(with, free, malloc(10));
    memset(arena_alloc(with, 1000), 1, 1000);
  }
}

// Each allocation fails once: nothing crashes, nothing leaks (the sanitizer run sees it), the last run succeeds.
static void each_allocation_may_fail(void **state) {
  (void)state;
  bool done = false;
  long n = 1;
  for (; !done && n < 1000; n++) {
    arena_fail_nth(n);
    struct arena *arena = arena_new();
    done = arena && arena_try(arena, ask_for_much, arena);
    if (n == 1) assert_null(arena);
    arena_fail_nth(0);
    arena_free(arena);
  }
  assert_in_range(n, 5, 100);
}

static void realloc_is_counted(void **state) {
  (void)state;
  arena_fail_nth(2);
  void *first = arena_counted_realloc(NULL, 10);
  assert_non_null(first);
  assert_null(arena_counted_realloc(first, 20));
  void *moved = arena_counted_realloc(first, 20);  // the old one is still there, and the switch has fired
  assert_non_null(moved);
  free(moved);
}

static void count_release(void *what) { ++*(int *)what; }

static void what_came_after_a_mark_goes_together(void **state) {
  (void)state;
  struct arena *arena = arena_new();
  int before = 0, after = 0;
  const char *kept = arena_words(arena, "kept");
  arena_at_free(arena, count_release, &before);
  struct arena_mark mark = arena_mark(arena);
  char *first = arena_alloc(arena, 40);
  memset(first, 'x', 40);
  arena_at_free(arena, count_release, &after);
  for (int i = 0; i < 100; i++) arena_alloc(arena, 10000);
  arena_release_to(arena, mark);
  assert_int_equal(before, 0);
  assert_int_equal(after, 1);
  assert_string_equal(kept, "kept");
  char *again = arena_alloc(arena, 40);
  assert_ptr_equal(again, first);
  assert_int_equal(again[39], 0);
  arena_free(arena);
  assert_int_equal(before, 1);
  assert_int_equal(after, 1);
}

// All that rounds of the same size take from the machine is what the first of them took.
static void rounds_that_are_released_take_no_more_memory(void **state) {
  (void)state;
  struct arena *arena = arena_new();
  arena_alloc(arena, 100);
  for (int round = 0; round < 50; round++) {
    struct arena_mark mark = arena_mark(arena);
    if (round == 1) arena_fail_nth(1);
    arena_alloc(arena, 300000);
    arena_release_to(arena, mark);
  }
  arena_fail_nth(0);
  arena_free(arena);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(what_came_after_a_mark_goes_together),
      cmocka_unit_test(rounds_that_are_released_take_no_more_memory),
      cmocka_unit_test(allocations_are_zeroed_aligned_and_apart),
      cmocka_unit_test(large_ones_fit_too),
      cmocka_unit_test(copies_end_in_nul),
      cmocka_unit_test(growing_keeps_what_was_there),
      cmocka_unit_test(free_allows_null),
      cmocka_unit_test(releases_last_first),
      cmocka_unit_test(releases_at_once_without_memory),
      cmocka_unit_test(tries),
      cmocka_unit_test(tries_nest),
      cmocka_unit_test(sizes_that_overflow_give_up),
      cmocka_unit_test(each_allocation_may_fail),
      cmocka_unit_test(realloc_is_counted),
  };
  return cmocka_run_group_tests_name("base/arena", tests, NULL, NULL);
}
