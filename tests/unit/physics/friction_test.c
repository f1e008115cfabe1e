// SPDX-License-Identifier: MIT
#include "physics/friction.h"

#include "near.h"

static void every_interface_has_its_row(void **state) {
  (void)state;
  for (int i = 0; i < FRICTION_INTERFACES; i++) {
    const struct friction_row *row = friction_row((enum friction_interface)i);
    assert_non_null(row);
    assert_int_equal(row->interface, i);
    assert_less(0, row->coefficient);
    assert_less(row->coefficient, 1);
    assert_non_null(row->mark);
    assert_non_null(row->source);
  }
}

static void nothing_is_more_slippery_than_what_stands_for_the_unnamed(void **state) {
  (void)state;
  const double unnamed = friction_row(FRICTION_SMOOTH_MEMBRANE)->coefficient;
  for (int i = 0; i < FRICTION_INTERFACES; i++) {
    if (i != FRICTION_SMOOTH_MEMBRANE) assert_less(unnamed, friction_row((enum friction_interface)i)->coefficient);
  }
}

static void a_stranger_has_no_row(void **state) {
  (void)state;
  assert_null(friction_row(FRICTION_INTERFACES));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(every_interface_has_its_row),
      cmocka_unit_test(nothing_is_more_slippery_than_what_stands_for_the_unnamed),
      cmocka_unit_test(a_stranger_has_no_row),
  };
  return cmocka_run_group_tests_name("physics/friction", tests, NULL, NULL);
}
