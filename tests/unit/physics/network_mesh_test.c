// SPDX-License-Identifier: MIT
#include "physics/network_mesh.h"

#include "near.h"

// 0 is a level; 1 hangs on it by 2, 2 hangs on 1 by 3: resistances in a row add.
static void a_row_of_two(void **state) {
  (void)state;
  const struct network_pair pairs[] = {{0, 1}, {1, 2}};
  const bool known[] = {true, false, false};
  double inflows[] = {0, 0, 1}, rises[3];
  struct network_mesh *mesh = network_mesh_new(3, pairs, 2);
  network_mesh_leave(mesh, 1, 2);
  network_mesh_join(mesh, 1, 3);
  network_mesh_solve(mesh, known, inflows, rises);
  assert_equal(rises[0], 0);
  assert_near(rises[1], 1. / 2, 1e-15);
  assert_near(rises[2], 1. / 2 + 1. / 3, 1e-15);
  network_mesh_free(mesh);
}

// A bridge of five equal resistances of 1 between 0 and 3: in balance, 1 in at 3 gives 1/2 in the middle and 1 there.
static void a_bridge_in_balance(void **state) {
  (void)state;
  const struct network_pair pairs[] = {{0, 1}, {0, 2}, {1, 2}, {1, 3}, {2, 3}};
  const bool known[] = {true, false, false, false};
  double inflows[] = {0, 0, 0, 1}, rises[4];
  struct network_mesh *mesh = network_mesh_new(4, pairs, 5);
  network_mesh_leave(mesh, 1, 1);
  network_mesh_leave(mesh, 2, 1);
  for (size_t i = 2; i < 5; i++) network_mesh_join(mesh, i, 1);
  network_mesh_solve(mesh, known, inflows, rises);
  assert_near(rises[1], 0.5, 1e-15);
  assert_near(rises[2], 0.5, 1e-15);
  assert_near(rises[3], 1, 1e-15);
  network_mesh_free(mesh);
}

// 1 pours into 2 by its own rise: what comes into 1 comes on into 2, and 2 sends nothing back.
static void pouring_goes_one_way(void **state) {
  (void)state;
  const struct network_pair pairs[] = {{1, 2}, {2, 1}, {1, 1}, {9, 1}};  // the last two are no pairs
  const bool known[] = {true, false, false};
  double inflows[] = {0, 1, 0}, rises[3];
  struct network_mesh *mesh = network_mesh_new(3, pairs, 4);
  for (size_t into_two = 0; into_two < 2; into_two++) {
    network_mesh_clear(mesh);
    network_mesh_pour(mesh, 0, 4);
    network_mesh_leave(mesh, 2, 5);
    inflows[1] = into_two ? 0 : 1;
    inflows[2] = into_two ? 1 : 0;
    network_mesh_solve(mesh, known, inflows, rises);
    assert_near(rises[1], into_two ? 0 : 1. / 4, 1e-15);
    assert_near(rises[2], 1. / 5, 1e-15);
  }
  network_mesh_free(mesh);
}

// Conductances 34 orders of magnitude apart cost no digits: 1 and 2 all but touch, and both hang by a thread.
static void far_apart_costs_no_digits(void **state) {
  (void)state;
  const struct network_pair pairs[] = {{0, 1}, {1, 2}};
  const bool known[] = {true, false, false};
  double inflows[] = {0, 0, 1}, rises[3];
  struct network_mesh *mesh = network_mesh_new(3, pairs, 2);
  network_mesh_leave(mesh, 1, 1e-20);
  network_mesh_join(mesh, 1, 1e14);
  network_mesh_solve(mesh, known, inflows, rises);
  assert_near(rises[1] * 1e-20, 1, 1e-15);
  assert_near(rises[2] * 1e-20, 1, 1e-15);
  network_mesh_free(mesh);
}

int main(void) {
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_row_of_two),
      cmocka_unit_test(a_bridge_in_balance),
      cmocka_unit_test(pouring_goes_one_way),
      cmocka_unit_test(far_apart_costs_no_digits),
  };
  return cmocka_run_group_tests_name("physics/network_mesh", tests, NULL, NULL);
}
