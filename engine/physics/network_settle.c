// SPDX-License-Identifier: MIT
// The level of the basin that pumps draw from, while they run: water is neither made nor lost, so what stands over lips
// and runs in channels is missing there. The lower it sinks the less its pumps lift, so what is out of place grows with
// its level and one bracket holds the answer.
#include <math.h>

#include "physics/network_inside.h"

enum { GREATEST_TRIES = 60 };
#define NEAR_ENOUGH 1e-9  // m of level

struct tried {
  double level, surplus;  // water beyond what there is, m3
};

struct settling {
  struct network_solver *solver;
  const struct network_water *water;
  const struct network_storage *drawn;
  const struct network_answer *answer;
  double before;  // head of the drawn basin as the caller had it
};

static double volume_moved(const struct network_storage *storage, double level) {
  return storage->volume(level, storage->with) - storage->volume(storage->still, storage->with);
}

static struct tried try_level(struct settling *settling, double level) {
  const struct network_water *water = settling->water;
  settling->solver->network->nodes[settling->drawn->node].head = level;
  settling->answer = network_solve(settling->solver, true);
  struct tried tried = {.level = level, .surplus = 0};
  if (!settling->answer->converged) return (struct tried){.level = level, .surplus = (double)NAN};
  for (size_t i = 0; i < water->count; i++) {
    const struct network_storage *storage = &water->storages[i];
    tried.surplus += volume_moved(storage, settling->answer->heads[storage->node]);
  }
  if (water->in_flight) tried.surplus += water->in_flight(settling->answer, water->with);
  return tried;
}

// Area of the water just below a level; none once the basin is empty.
static double area_at(const struct network_storage *drawn, double level) {
  return (drawn->volume(level, drawn->with) - drawn->volume(level - 1e-3, drawn->with)) / 1e-3;
}

// How far the basin sinks for a volume; a millimetre at the least.
static double sink_for(const struct network_storage *drawn, double level, double volume) {
  return fmin(fmax(1.05 * volume / area_at(drawn, level), 1e-3), 1e3);
}

static struct tried between(struct settling *settling, struct tried low, struct tried high) {
  struct tried middle = low;
  for (int i = 0; i < GREATEST_TRIES && high.level - low.level > NEAR_ENOUGH; i++) {
    const double share = low.surplus / (low.surplus - high.surplus);
    middle = try_level(settling, low.level + (high.level - low.level) * fmin(0.99, fmax(0.01, share)));
    if (isnan(middle.surplus) || !(fabs(middle.surplus) > 0)) return middle;
    if (middle.surplus < 0) {
      low = middle, high.surplus /= 2;
    } else {
      high = middle, low.surplus /= 2;
    }
  }
  return middle;
}

static const struct network_answer *end(struct settling *settling, enum network_status status) {
  struct network_answer *answer = &settling->solver->base.answer;
  if (answer->converged && status != NETWORK_SOLVED) {
    answer->status = status;
    answer->where = settling->drawn->node;
    answer->converged = false;
  }
  if (!answer->converged) settling->solver->network->nodes[settling->drawn->node].head = settling->before;
  return answer;
}

static bool is_usable(const struct network_solver *solver, const struct network_water *water) {
  if (water->drawn >= water->count) return false;
  for (size_t i = 0; i < water->count; i++) {
    if (water->storages[i].node >= solver->nodes || !water->storages[i].volume) return false;
  }
  return solver->network->nodes[water->storages[water->drawn].node].fixed;
}

const struct network_answer *network_settle(struct network_solver *solver, const struct network_water *water) {
  if (!is_usable(solver, water)) {
    network_blank_answer(&solver->base);
    solver->base.answer.status = NETWORK_BAD_NODE;
    return &solver->base.answer;
  }
  struct settling settling = {.solver = solver, .water = water, .drawn = &water->storages[water->drawn]};
  settling.before = solver->network->nodes[settling.drawn->node].head;
  struct tried high = try_level(&settling, settling.drawn->still), low = high;
  for (int i = 0; i < GREATEST_TRIES && low.surplus > 0; i++) {
    high = low;
    if (!(area_at(settling.drawn, high.level) > 0)) return end(&settling, NETWORK_NOT_ENOUGH);
    low = try_level(&settling, high.level - sink_for(settling.drawn, high.level, high.surplus) * (1 << (i / 4)));
  }
  for (int i = 0; i < GREATEST_TRIES && high.surplus < 0; i++) {
    low = high;
    high = try_level(&settling, low.level + sink_for(settling.drawn, low.level, -low.surplus) * (1 << (i / 4)));
  }
  if (!(low.surplus <= 0 && high.surplus >= 0)) return end(&settling, NETWORK_UNSETTLED);
  const struct tried last = between(&settling, low, high);
  return end(&settling, area_at(settling.drawn, last.level) > 0 ? NETWORK_SOLVED : NETWORK_NOT_ENOUGH);
}
