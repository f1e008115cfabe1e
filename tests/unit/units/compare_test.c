// SPDX-License-Identifier: MIT
#include "units/compare.h"

#include <math.h>

// cmocka.h asks for the others before it.
// clang-format off
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
// clang-format on

static void band_of_one_in_a_billion(void **state) {
  (void)state;
  static const struct {
    double value, limit, scale;
    enum standing standing;
  } rows[] = {
      {1, 2, 0, STANDS_BELOW},
      {2, 1, 0, STANDS_ABOVE},
      {1, 1, 0, STANDS_AT},
      {0, 0, 0, STANDS_AT},
      {-0.0, 0, 0, STANDS_AT},
      {1 + 0.9e-9, 1, 0, STANDS_AT},
      {1 - 0.9e-9, 1, 0, STANDS_AT},
      {1 + 1.1e-9, 1, 0, STANDS_ABOVE},
      {1 - 1.1e-9, 1, 0, STANDS_BELOW},
      {-1 - 1.1e-9, -1, 0, STANDS_BELOW},
      {1e6 + 0.9e-3, 1e6, 0, STANDS_AT},
      {1e-6 + 0.9e-15, 1e-6, 0, STANDS_AT},
      {1e-6 + 1.1e-15, 1e-6, 0, STANDS_ABOVE},
      // a difference of heights: what rounds is the heights
      {1e-10, 0, 0, STANDS_ABOVE},
      {1e-10, 0, 1, STANDS_AT},
      {-1e-10, 0, 1, STANDS_AT},
      {-1.1e-9, 0, 1, STANDS_BELOW},
      {1e-8, 0, 12, STANDS_AT},
      {1e-8, 0, -12, STANDS_AT},
      {5, INFINITY, 0, STANDS_BELOW},
      {INFINITY, 5, 0, STANDS_ABOVE},
      {INFINITY, INFINITY, 0, STANDS_AT},
      {-INFINITY, INFINITY, 0, STANDS_BELOW},
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
    enum standing found = compare(rows[i].value, rows[i].limit, rows[i].scale);
    if (found != rows[i].standing) {
      fail_msg("%.17g against %.17g, scale %g: %d", rows[i].value, rows[i].limit, rows[i].scale, (int)found);
    }
  }
}

// What two ways of working out the same figure give: 0.1 ten times over against 1.
static void rounding_does_not_decide(void **state) {
  (void)state;
  double sum = 0;
  for (int i = 0; i < 10; i++) sum += 0.1;
  assert_true(sum < 1);
  assert_int_equal(compare(sum, 1, 0), STANDS_AT);
  assert_int_equal(compare(0.3048 * 3 - 0.0254 * 36, 0, 0.9144), STANDS_AT);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(band_of_one_in_a_billion),
      cmocka_unit_test(rounding_does_not_decide),
  };
  return cmocka_run_group_tests_name("units/compare", tests, NULL, NULL);
}
