// SPDX-License-Identifier: MIT
#include "chance/draw.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "unit/physics/near.h"

// The first outputs of the reference generator splitmix64.c (Vigna, public domain) begun at 1234567, as they are
// published with tests of it in many languages: from memory; 0 as in the tests of SplittableRandom: from memory.
static void is_splitmix64(void **state) {
  (void)state;
  static const uint64_t from_1234567[] = {UINT64_C(6457827717110365317), UINT64_C(3203168211198807973),
                                          UINT64_C(9817491932198370423), UINT64_C(4593380528125082431),
                                          UINT64_C(16408922859458223821)};
  for (size_t i = 0; i < 5; i++) assert_int_equal(draw_bits(1234567, i), from_1234567[i]);
  assert_int_equal(draw_bits(0, 0), UINT64_C(0xE220A8397B1DCDAF));
  assert_int_equal(draw_bits(0, 1), UINT64_C(0x6E789E6AA1B965F4));
}

// Test vectors of IETF draft-eastlake-fnv: from memory.
static void names_are_hashed_by_fnv_1a(void **state) {
  (void)state;
  assert_int_equal(draw_hash(""), UINT64_C(0xCBF29CE484222325));
  assert_int_equal(draw_hash("a"), UINT64_C(0xAF63DC4C8601EC8C));
  assert_int_equal(draw_hash("foobar"), UINT64_C(0x85944171F73967E8));
}

enum { DRAWS = 100000, CLASSES = 100 };

// Chi-square of 100 classes: 99 degrees of freedom, 148.2 is passed once in a thousand (computed with scipy 1.10).
static void draws_are_even(void **state) {
  (void)state;
  uint64_t key = draw_key(1, "basin \"lower\".depth", 0);
  unsigned counts[CLASSES] = {0};
  double chi2 = 0, each = (double)DRAWS / CLASSES;
  for (uint64_t n = 0; n < DRAWS; n++) {
    double u = draw_uniform(key, n);
    assert_less(-1e-300, u);
    assert_less(u, 1);
    counts[(size_t)(u * CLASSES)]++;
  }
  for (size_t c = 0; c < CLASSES; c++) chi2 += (counts[c] - each) * (counts[c] - each) / each;
  assert_less(chi2, 148.2);
  assert_less(40, chi2);  // too even would be no chance either
}

static double correlation(uint64_t one, uint64_t other, uint64_t lag) {
  double sum = 0;
  for (uint64_t n = 0; n < DRAWS; n++) sum += (draw_uniform(one, n) - 0.5) * (draw_uniform(other, n + lag) - 0.5);
  return sum / DRAWS * 12;
}

// Of independent draws the correlation has a standard deviation of 1/sqrt(n), here 0.0032: four of them.
static void draws_know_nothing_of_each_other(void **state) {
  (void)state;
  static const char *const names[] = {"basin \"a\".depth", "basin \"b\".depth", "basin \"a\".rim",
                                      "basin \"a\".shelves[1].width", "basin \"a\".shelves[2].width"};
  for (size_t i = 0; i < 5; i++) {
    uint64_t key = draw_key(7, names[i], 0);
    for (size_t k = 0; k < i; k++) assert_near(correlation(key, draw_key(7, names[k], 0), 0), 0, 0.0126);
    assert_near(correlation(key, draw_key(8, names[i], 0), 0), 0, 0.0126);
    assert_near(correlation(key, draw_key(7, names[i], 1), 0), 0, 0.0126);
    assert_near(correlation(key, key, 1), 0, 0.0126);
  }
}

static void a_draw_is_what_its_key_says(void **state) {
  (void)state;
  uint64_t key = draw_key(3, "spill \"lip\".crest", 2);
  double fifth = draw_uniform(key, 5);
  for (uint64_t n = 0; n < 9; n++) draw_uniform(draw_key(3, "spill \"other\".crest", 2), n);
  assert_equal(draw_uniform(draw_key(3, "spill \"lip\".crest", 2), 5), fifth);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(is_splitmix64),
      cmocka_unit_test(names_are_hashed_by_fnv_1a),
      cmocka_unit_test(draws_are_even),
      cmocka_unit_test(draws_know_nothing_of_each_other),
      cmocka_unit_test(a_draw_is_what_its_key_says),
  };
  return cmocka_run_group_tests_name("chance/draw", tests, NULL, NULL);
}
