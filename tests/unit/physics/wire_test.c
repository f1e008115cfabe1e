// SPDX-License-Identifier: MIT
#include "physics/wire.h"

#include "near.h"

static void thicker_wire_has_less_resistance(void **state) {
  (void)state;
  for (size_t i = 1; i < wire_size_count; i++) {
    assert_less(wire_sizes[i].stranded, wire_sizes[i - 1].stranded);
    assert_less(wire_sizes[i - 1].area, wire_sizes[i].area);
  }
  assert_null(wire_size(13));
  assert_int_equal(wire_size(8)->gauge, 8);
}

static void the_drop_at_power_satisfies_the_circuit(void **state) {
  (void)state;
  const double per_length = wire_size(12)->stranded, resistance = 2 * per_length * 15;
  for (double power = 0; power < 100; power += 13) {
    const double drop = wire_drop_at_power(per_length, 15, 12, power), current = power / (12 - drop);
    assert_near(drop, current * resistance, 1e-12);
  }
}

static void more_power_than_the_wire_can_carry_gives_no_number(void **state) {
  (void)state;
  const double resistance = 2 * wire_size(12)->stranded * 100, most = 12 * 12 / (4 * resistance);
  assert_near(wire_drop_at_power(wire_size(12)->stranded, 100, 12, most * (1 - 1e-12)), 6, 1e-4);
  assert_no_number(wire_drop_at_power(wire_size(12)->stranded, 100, 12, most * 1.001));
}

static void a_short_wire_leaves_all_the_voltage(void **state) {
  (void)state;
  assert_near(wire_left_at_start(0.006, 0, 120, 5, 6), 1, 0);
  assert_less(wire_left_at_start(0.006, 20, 120, 5, 6), wire_left_at_start(0.006, 10, 120, 5, 6));
}

static void a_poor_power_factor_draws_more(void **state) {
  (void)state;
  assert_near(wire_current(960, 120, 0.8), 10, 1e-12);
  assert_near(wire_yearly_energy(100, 0.5), 100 * 0.5 * 365 * 86400, 1e-3);
}

static void no_motor_is_no_load(void **state) {
  (void)state;
  assert_equal(wire_motor_load(NULL, 0), 0);
  const double one[] = {8};
  assert_near(wire_motor_load(one, 1), 10, 1e-12);
}

static void bad_input_gives_no_number(void **state) {
  (void)state;
  const double bad[] = {3, -1};
  assert_no_number(wire_motor_load(bad, 2));
  assert_no_number(wire_drop(-1, 1, 1));
  assert_no_number(wire_current(100, 0, 1));
  assert_no_number(wire_current(100, 120, 1.1));
  assert_no_number(wire_resistance(1, 0));
  assert_no_number(wire_resistance_at(1, 0));
  assert_no_number(wire_left_at_start(0.006, 20, 120, 5, 0.5));
  assert_no_number(wire_yearly_energy(100, 1.1));
  assert_no_number(wire_continuous_load(NOT_A_NUMBER));
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(thicker_wire_has_less_resistance),
      cmocka_unit_test(the_drop_at_power_satisfies_the_circuit),
      cmocka_unit_test(more_power_than_the_wire_can_carry_gives_no_number),
      cmocka_unit_test(a_short_wire_leaves_all_the_voltage),
      cmocka_unit_test(a_poor_power_factor_draws_more),
      cmocka_unit_test(no_motor_is_no_load),
      cmocka_unit_test(bad_input_gives_no_number),
  };
  return cmocka_run_group_tests_name("physics/wire", tests, NULL, NULL);
}
