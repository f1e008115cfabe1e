// SPDX-License-Identifier: MIT
#include "chance/sensitivity.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "chance/draw.h"
#include "unit/physics/near.h"

enum { MOST = 8, DRAWS = 1 << 15 };

typedef double function(const double *u, size_t factors);  // u within 0 to 1

// Ishigami and Homma 1990 with a = 7, b = 0.1, each factor even from -pi to pi.
static double ishigami(const double *u, size_t factors) {
  const double pi = 3.141592653589793;
  double x[3];
  (void)factors;
  for (int i = 0; i < 3; i++) x[i] = pi * (2 * u[i] - 1);
  return sin(x[0]) + 7 * sin(x[1]) * sin(x[1]) + 0.1 * pow(x[2], 4) * sin(x[0]);
}

static const double weights[] = {0, 1, 4.5, 9, 99, 99, 99, 99};

// Sobol's g-function with the weights that Saltelli uses it with.
static double sobol_g(const double *u, size_t factors) {
  double product = 1;
  for (size_t i = 0; i < factors; i++) product *= (fabs(4 * u[i] - 2) + weights[i]) / (1 + weights[i]);
  return product;
}

static void fill(double *y, function f, size_t factors, const size_t *from_b) {
  for (size_t n = 0; n < DRAWS; n++) {
    double u[MOST];
    for (size_t i = 0; i < factors; i++) {
      char name[2] = {(char)('a' + i), 0};
      u[i] = draw_uniform(draw_key(20, name, from_b[i]), n);
    }
    y[n] = f(u, factors);
  }
}

struct drawn {
  double a[DRAWS], b[DRAWS], ab[DRAWS];
};

static void work_out(function f, size_t factors, struct sensitivity *found) {
  struct drawn *drawn = malloc(sizeof *drawn);
  assert_non_null(drawn);
  fill(drawn->a, f, factors, (const size_t[MOST]){0});
  fill(drawn->b, f, factors, (const size_t[MOST]){1, 1, 1, 1, 1, 1, 1, 1});
  for (size_t i = 0; i < factors; i++) {
    size_t from_b[MOST] = {0};
    from_b[i] = 1;
    fill(drawn->ab, f, factors, from_b);
    assert_int_equal(sensitivity_of(drawn->a, drawn->b, drawn->ab, DRAWS, &found[i]), 1);
  }
  free(drawn);
}

static void assert_within(double value, double band, double right) {
  assert_near(value, right, 0.02);
  assert_near(value, right, 1.5 * band + 1e-4);
  assert_less(band, 0.03);
}

// Indices as published with the function (Saltelli et al., Global Sensitivity Analysis, 2008): second hand; the same
// from its closed form.
static void finds_what_drives_ishigamis_function(void **state) {
  (void)state;
  static const double first[] = {0.3139, 0.4424, 0}, total[] = {0.5576, 0.4424, 0.2437};
  struct sensitivity found[3];
  work_out(ishigami, 3, found);
  for (size_t i = 0; i < 3; i++) {
    assert_within(found[i].first, found[i].first_band, first[i]);
    assert_within(found[i].total, found[i].total_band, total[i]);
  }
}

// In closed form: V_i = 1/3 / (1 + a_i)^2, V = product of (1 + V_i) less 1, S_i = V_i / V,
// T_i = V_i * product over the others of (1 + V_j) / V.
static void finds_what_drives_sobols_g(void **state) {
  (void)state;
  struct sensitivity found[MOST];
  double part[MOST], all = 1;
  for (size_t i = 0; i < MOST; i++) all *= 1 + (part[i] = 1 / (3 * (1 + weights[i]) * (1 + weights[i])));
  work_out(sobol_g, MOST, found);
  for (size_t i = 0; i < MOST; i++) {
    assert_within(found[i].first, found[i].first_band, part[i] / (all - 1));
    assert_within(found[i].total, found[i].total_band, part[i] * all / (1 + part[i]) / (all - 1));
  }
}

static double one_alone(const double *u, size_t factors) { return 5 + 3 * u[0] + 0 * u[factors - 1]; }

static void what_stands_alone_drives_all(void **state) {
  (void)state;
  struct sensitivity found[2];
  work_out(one_alone, 2, found);
  assert_within(found[0].first, found[0].first_band, 1);
  assert_within(found[0].total, found[0].total_band, 1);
  assert_equal(found[1].first, 0);
  assert_equal(found[1].total, 0);
}

static void what_does_not_vary_has_no_drivers(void **state) {
  (void)state;
  double same[64], few[4] = {1, 2, 3, 4};
  struct sensitivity found;
  for (size_t i = 0; i < 64; i++) same[i] = 0.1;
  assert_int_equal(sensitivity_of(same, same, same, 64, &found), 0);
  assert_int_equal(sensitivity_of(few, few, few, 4, &found), 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(finds_what_drives_ishigamis_function),
      cmocka_unit_test(finds_what_drives_sobols_g),
      cmocka_unit_test(what_stands_alone_drives_all),
      cmocka_unit_test(what_does_not_vary_has_no_drivers),
  };
  return cmocka_run_group_tests_name("chance/sensitivity", tests, NULL, NULL);
}
