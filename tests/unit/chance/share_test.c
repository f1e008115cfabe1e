// SPDX-License-Identifier: MIT
#include "chance/share.h"

#include "unit/physics/near.h"

// scipy.stats.binomtest(k, n).proportion_ci(0.95, 'wilson'): computed with scipy 1.10. The rows of 81 of 263, 15 of
// 148, 0 of 20 are those of Newcombe, Statistics in Medicine 17 (1998), Table I, method 3: 0.2553 to 0.3662, 0.0624 to
// 0.1605, 0.0000 to 0.1611 (from memory, to four places as printed there).
static void is_wilsons(void **state) {
  (void)state;
  static const struct {
    size_t count, of;
    double low, high;
  } rows[] = {
      {81, 263, 0.2552885198782742, 0.36620957698280004},
      {15, 148, 0.06238639953073629, 0.16048724172330803},
      {0, 20, 0, 0.16112515805281935},
      {0, 10, 0, 0.27753279986288926},
      {1, 10, 0.017876213095072896, 0.4041500267952385},
      {5, 10, 0.236593090512564, 0.7634069094874361},
      {9, 10, 0.5958499732047615, 0.9821237869049271},
      {31, 100, 0.22779697212376043, 0.4062605571948941},
      {0, 1000, 0, 0.0038267584855551234},
      {7, 1000, 0.0033948684009907646, 0.014378315465766588},
      {9990, 10000, 0.9981600556125619, 0.9994567140135028},
      {10000, 10000, 0.9996160016293234, 1},
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
    struct share_band band = share_band(rows[i].count, rows[i].of);
    assert_near(band.low, rows[i].low, 1e-12);
    assert_near(band.high, rows[i].high, 1e-12);
  }
}

static void of_nothing_nothing_is_known(void **state) {
  (void)state;
  assert_equal(share_band(0, 0).low, 0);
  assert_equal(share_band(0, 0).high, 1);
  assert_equal(share_band(3, 2).low, 0);
}

int main(void) {
  const struct CMUnitTest tests[] = {cmocka_unit_test(is_wilsons), cmocka_unit_test(of_nothing_nothing_is_known)};
  return cmocka_run_group_tests_name("chance/share", tests, NULL, NULL);
}
