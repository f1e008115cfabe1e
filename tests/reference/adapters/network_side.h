// SPDX-License-Identifier: MIT
// Adapter: network. A row names a case below and the link or node it asks for; the case is built, solved and freed.
// Links and nodes count as their sources count them (from 1), or in the order of a comment beside the case.
#ifndef FOREBAY_REFERENCE_NETWORK_SIDE_H
#define FOREBAY_REFERENCE_NETWORK_SIDE_H

#include "row.h"
#include "unit/physics/network_rig.h"

#define GPM (GAL / 60)

enum { CURVE_POINTS = 401 };

struct join {
  size_t from, to;
  double length, bore, r;  // r: where it is given as such
};

static void draw(struct rig *rig, size_t node, double flow) { rig->nodes[node].inflow -= flow; }

// Nodes 0 (not used, a level by itself) to count; all of them free.
static struct rig *rig_of(size_t count) {
  struct rig *rig = rig_new();
  rig_level(rig, 0);
  for (size_t i = 0; i < count; i++) rig_junction(rig, 0);
  return rig;
}

static void set_level(struct rig *rig, size_t node, double head) {
  rig->nodes[node].fixed = true;
  rig->nodes[node].head = head;
}

static void add_losses(struct rig *rig, const struct join *joins, size_t count, double n) {
  for (size_t i = 0; i < count; i++) rig_power(rig, joins[i].from, joins[i].to, joins[i].r, n);
}

// Hazen-Williams as EPANET 2.2 writes it: ft, ft3/s.
static double hazen_williams(double length, double bore, double c) {
  const double cubic_foot = FT * FT * FT;
  return FT * 4.727 * (length / FT) / (pow(c, 1.852) * pow(bore / FT, 4.871)) / pow(cubic_foot, 1.852);
}

static void add_hazen_williams(struct rig *rig, const struct join *joins, size_t count, double c) {
  for (size_t i = 0; i < count; i++) {
    rig_power(rig, joins[i].from, joins[i].to, hazen_williams(joins[i].length, joins[i].bore, c), 1.852);
  }
}

// head = shut_off - fall x flow^2 to the end of the curve.
static void fill_curve(struct pump_point points[CURVE_POINTS], double shut_off, double fall, double end) {
  for (size_t i = 0; i < CURVE_POINTS; i++) {
    const double flow = end * (double)i / (CURVE_POINTS - 1);
    points[i] = (struct pump_point){.flow = flow, .head = fmax(0, shut_off - fall * flow * flow)};
  }
}

// Link 1 is the pump, then pipes 1 to 6.
static struct rig *tutorial(void) {
  static struct pump_point points[CURVE_POINTS];
  static const struct join pipes[] = {{2, 3, 3000 * FT, FT, 0},         {3, 6, 5000 * FT, FT, 0},
                                      {3, 4, 5000 * FT, FT * 2 / 3, 0}, {4, 5, 5000 * FT, FT * 2 / 3, 0},
                                      {5, 6, 5000 * FT, FT * 2 / 3, 0}, {6, 7, 7000 * FT, FT * 5 / 6, 0}};
  static const double drawn[] = {325, 75, 100, 75};  // nodes 3 to 6, gpm
  struct rig *rig = rig_of(7);
  const double rated = 1000 * GPM, head = 200 * FT;
  fill_curve(points, head * 4 / 3, head / 3 / (rated * rated), 2 * rated);
  set_level(rig, 1, 700 * FT);
  set_level(rig, 7, 855 * FT);
  for (size_t i = 0; i < 4; i++) draw(rig, 3 + i, drawn[i] * GPM);
  rig_pump(rig, 1, 2, points, CURVE_POINTS);
  add_hazen_williams(rig, pipes, 6, 100);
  return rig;
}

// Nodes: 1 top left, 2 top right, 3 middle left, 4 middle, 5 middle right, 6 bottom left, 7 bottom, 8 bottom right.
static const struct join THREE_LOOPS[] = {
    {1, 2, 250, .30, 159.7828},  {2, 5, 100, .20, 535.9666},  {5, 4, 125, .20, 669.9582}, {3, 4, 125, .20, 669.9582},
    {1, 3, 100, .20, 535.9666},  {4, 7, 100, .15, 2430.5356}, {7, 6, 125, .25, 207.7883}, {3, 6, 100, .15, 2430.5356},
    {5, 8, 100, .15, 2430.5356}, {7, 8, 125, .25, 207.7883}};

static struct rig *three_loops_nodes(void) {
  struct rig *rig = rig_of(8);
  set_level(rig, 1, 20);
  draw(rig, 4, 0.04);
  draw(rig, 6, 0.02);
  draw(rig, 8, 0.02);
  return rig;
}

static struct rig *three_loops(void) {
  struct rig *rig = three_loops_nodes();
  add_losses(rig, THREE_LOOPS, 10, 2);
  return rig;
}

static struct rig *three_loops_colebrook(void) {
  struct rig *rig = three_loops_nodes();
  rig->network.viscosity = 1.023053e-6;
  for (size_t i = 0; i < 10; i++) {
    const size_t pipe =
        rig_pipe(rig, THREE_LOOPS[i].from, THREE_LOOPS[i].to, THREE_LOOPS[i].length, THREE_LOOPS[i].bore);
    rig->links[pipe].pipe.pipe.roughness = 0.25e-3;
    rig->links[pipe].pipe.pipe.minor = 0;
  }
  return rig;
}

// Nodes: 1 A, 2 B, 3 C (the supply), 4 D.
static struct rig *two_loops(void) {
  static const struct join pipes[] = {
      {3, 1, 0, 0, 200}, {1, 4, 0, 0, 2500}, {3, 4, 0, 0, 500}, {1, 2, 0, 0, 800}, {4, 2, 0, 0, 300}};
  struct rig *rig = rig_of(4);
  set_level(rig, 3, 0);
  draw(rig, 2, 0.5);
  add_losses(rig, pipes, 5, 2);
  return rig;
}

// Feet and cubic feet a second all through; the solver does not mind. Nodes: 1 to 4, 5 A, 6 B.
static struct rig *two_reservoirs(void) {
  static const struct join pipes[] = {{5, 1, 0, 0, 0.38}, {1, 2, 0, 0, 2.89}, {1, 4, 0, 0, 2.53}, {4, 2, 0, 0, 12.13},
                                      {3, 2, 0, 0, 2.17}, {3, 4, 0, 0, 2.89}, {6, 3, 0, 0, 0.94}};
  static const double drawn[] = {2, 4, 1, 3};
  struct rig *rig = rig_of(6);
  set_level(rig, 5, 100);
  set_level(rig, 6, 90);
  for (size_t i = 0; i < 4; i++) draw(rig, 1 + i, drawn[i]);
  add_losses(rig, pipes, 7, 2);
  return rig;
}

static struct rig *todini(void) {
  static const size_t pairs[][2] = {{1, 2}, {1, 3}, {2, 3}, {2, 5}, {2, 4}, {3, 5}, {4, 5}};
  struct rig *rig = rig_of(5);
  set_level(rig, 1, 100);
  for (size_t i = 2; i <= 5; i++) draw(rig, i, 0.01 * (double)(i - 1));
  for (size_t i = 0; i < 7; i++) rig_power(rig, pairs[i][0], pairs[i][1], hazen_williams(1000, 0.5, 100), 1.852);
  return rig;
}

static struct rig *zero_flow(void) {
  static const size_t pairs[][2] = {{1, 2}, {2, 3}, {1, 3}, {2, 4}, {3, 5}, {4, 5},
                                    {4, 6}, {5, 7}, {6, 7}, {6, 8}, {7, 8}};
  struct rig *rig = rig_of(8);
  set_level(rig, 1, 40);
  draw(rig, 8, 0.08);
  for (size_t i = 0; i < 11; i++) rig_power(rig, pairs[i][0], pairs[i][1], hazen_williams(1000, 0.25, 120), 1.852);
  return rig;
}

// Two levels a hand's breadth of very wide pipe away, and a dead end. The source leaves C open: equal for all.
static struct rig *gorev(void) {
  static const struct join pipes[] = {{1, 3, 0.25, 1.2, 0}, {2, 3, 0.5, 1.2, 0}, {3, 4, 1000, 1.2, 0}};
  struct rig *rig = rig_of(4);
  set_level(rig, 1, 10);
  set_level(rig, 2, 10);
  draw(rig, 3, 0.003);
  add_hazen_williams(rig, pipes, 3, 100);
  return rig;
}

static void add_copper(struct rig *rig, size_t from, size_t to, double length, double minor, double at) {
  const size_t pipe = rig_pipe(rig, from, to, length, 0.015);
  rig->links[pipe].pipe.pipe.minor = minor;
  rig->links[pipe].falls = to == NETWORK_AWAY;
  rig->links[pipe].at = at;
}

// Node 1 is the main, 2 the branching. Links: 1 common, 2 shower, 3 tank.
static struct rig *plumbing(bool shower_only) {
  struct rig *rig = rig_of(2);
  rig->network.viscosity = 1.002e-3 / 998;
  set_level(rig, 1, 200e3 / (998 * 9.81));
  add_copper(rig, 1, 2, 5, 0, 0);
  add_copper(rig, 2, NETWORK_AWAY, 6, 24.7, 2);
  add_copper(rig, 2, NETWORK_AWAY, 1, 26.9, 1);
  rig->links[2].shut = shower_only;
  return rig;
}

static struct rig *shower(void) { return plumbing(true); }
static struct rig *shower_and_tank(void) { return plumbing(false); }

// Node 1 A, 2 B, 3 C, 4 the junction. Links: 1 from A, 2 to B, 3 to C.
static struct rig *reservoirs(const double heads[3], const double r[3], double n) {
  struct rig *rig = rig_of(4);
  for (size_t i = 0; i < 3; i++) {
    set_level(rig, 1 + i, heads[i]);
    rig_power(rig, i == 0 ? 1 : 4, i == 0 ? 4 : 1 + i, r[i], n);
  }
  return rig;
}

static struct rig *reservoirs_1(void) {
  return reservoirs((const double[]){135, 120, 112}, (const double[]){0.7594, 36.33, 8.168}, 2);
}

static double metric_hazen_williams(double length, double bore, double c) {
  return 10.67 * length / (pow(c, 1.852) * pow(bore, 4.87));
}

static struct rig *reservoirs_2(void) {
  const double r[] = {metric_hazen_williams(200, 0.5, 100), metric_hazen_williams(2000, 0.5, 100),
                      metric_hazen_williams(400, 0.2, 140)};
  return reservoirs((const double[]){200, 180, 185}, r, 1.852);
}

static struct rig *reservoirs_3(void) {
  const double r[] = {0.01 * 1500 / 3 / pow(0.30, 5), 0.01 * 800 / 3 / pow(0.25, 5), 0.01 * 400 / 3 / pow(0.20, 5)};
  return reservoirs((const double[]){60, 30, 15}, r, 2);
}

static struct rig *reservoirs_4(void) {
  const double quarter_pi = atan(1), k = 0.02 / (2 * 32.174 * quarter_pi * quarter_pi);  // ft, ft3/s
  return reservoirs((const double[]){100, 20, 0}, (const double[]){1000 * k, 500 * k, 400 * k}, 2);
}

// Node 1 the joined line, 2 the branch, 3 the run. Both K count on the joined speed, so each is put on its own.
static struct rig *joining_tee(void) {
  const double bore = 4.026 * 0.0254;
  struct rig *rig = rig_of(3);
  set_level(rig, 1, 0);
  draw(rig, 2, -100 * GPM);
  draw(rig, 3, -300 * GPM);
  rig_valve(rig, 2, 1, -0.042 * (400. / 100) * (400. / 100), bore);
  rig_valve(rig, 3, 1, 0.325 * (400. / 300) * (400. / 300), bore);
  return rig;
}

// H = 30 - 0.006 Q^2 (ft, gpm), one pump or two on a header; the system asks 8 + 0.0045 Q^2. Link 3 is the line.
static struct rig *header(double pumps) {
  static struct pump_point points[CURVE_POINTS];
  const double gpm2 = GPM * GPM;
  struct rig *rig = rig_of(3);
  fill_curve(points, 30 * FT, 0.006 * FT / gpm2, sqrt(30 / 0.006) * GPM);
  set_level(rig, 1, 0);
  set_level(rig, 3, 8 * FT);
  for (size_t i = 0; i < 2; i++) {
    rig_pump(rig, 1, 2, points, CURVE_POINTS);
    rig->links[i].check = true;
    rig->links[i].shut = (double)i >= pumps;
  }
  rig_power(rig, 2, 3, 0.0045 * FT / gpm2, 2);
  return rig;
}

static struct rig *one_pump(void) { return header(1); }
static struct rig *two_pumps(void) { return header(2); }

static const char *const CASES[] = {"tutorial",     "three_loops",  "colebrook",    "two_loops",    "two_reservoirs",
                                    "todini",       "zero_flow",    "gorev",        "shower",       "shower_and_tank",
                                    "reservoirs_1", "reservoirs_2", "reservoirs_3", "reservoirs_4", "tee",
                                    "one_pump",     "two_pumps"};
static struct rig *(*const MAKERS[])(void) = {
    tutorial, three_loops,     three_loops_colebrook, two_loops,    two_reservoirs, todini,       zero_flow,   gorev,
    shower,   shower_and_tank, reservoirs_1,          reservoirs_2, reservoirs_3,   reservoirs_4, joining_tee, one_pump,
    two_pumps};

static struct rig *rig_in(struct row *r) {
  struct rig *rig = MAKERS[word_in(r, "case", CASES, sizeof CASES / sizeof *CASES)]();
  if (!rig_solve(rig, false)->converged) spoil(r, "not solved:", text_in(r, "case"));
  return rig;
}

static double network_flow(struct row *r) {
  struct rig *rig = rig_in(r);
  const size_t link = (size_t)in(r, "link") - 1;
  const double flow = link < rig->network.link_count ? rig_solve(rig, true)->flows[link] : NAN;
  rig_free(rig);
  return flow;
}

static double network_head(struct row *r) {
  struct rig *rig = rig_in(r);
  const size_t node = (size_t)in(r, "node");
  const double head = node < rig->network.node_count ? rig_solve(rig, true)->heads[node] : NAN;
  rig_free(rig);
  return head;
}

// The hose is off at a node, at the level that is drawn from.
static double parted_flow(struct row *r) {
  struct rig *rig = rig_in(r);
  const size_t link = (size_t)in(r, "link") - 1, node = (size_t)in(r, "node");
  const struct network_answer *answer = network_parted(rig->solver, node, 1);
  const double flow = answer->converged && link < rig->network.link_count ? answer->flows[link] : NAN;
  rig_free(rig);
  return flow;
}

#define NETWORK_SIDE \
  {"network_solve.flow", network_flow}, {"network_solve.head", network_head}, { "network_parted.flow", parted_flow }

#endif
