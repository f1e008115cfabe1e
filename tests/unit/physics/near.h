// SPDX-License-Identifier: MIT
// Checks of doubles that print both sides. For the tests of this folder.
#ifndef FOREBAY_TEST_PHYSICS_NEAR_H
#define FOREBAY_TEST_PHYSICS_NEAR_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
// cmocka wants the four above first
#include <cmocka.h>

#define NOT_A_NUMBER ((double)NAN)
#define ENDLESS ((double)INFINITY)

#define assert_near(got, expected, tolerance) near_check(got, expected, tolerance, #got, __FILE__, __LINE__)
#define assert_equal(got, expected) near_check(got, expected, 0, #got, __FILE__, __LINE__)
#define assert_no_number(got) number_check(got, #got, __FILE__, __LINE__)
#define assert_less(small, large) less_check(small, large, #small, #large, __FILE__, __LINE__)

static inline void near_check(double got, double expected, double tolerance, const char *what, const char *file,
                              int line) {
  if (fabs(got - expected) <= tolerance || (isinf(expected) && got >= expected && got <= expected)) return;
  print_error("%s: got %.17g, expected %.17g +/- %g\n", what, got, expected, tolerance);
  _fail(file, line);
}

static inline void number_check(double got, const char *what, const char *file, int line) {
  if (isnan(got)) return;
  print_error("%s: got %.17g, expected no number\n", what, got);
  _fail(file, line);
}

static inline void less_check(double small, double large, const char *what, const char *other, const char *file,
                              int line) {
  if (small < large) return;
  print_error("%s is %.17g, which is not below %s, %.17g\n", what, small, other, large);
  _fail(file, line);
}

#endif
