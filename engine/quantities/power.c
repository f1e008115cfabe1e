// SPDX-License-Identifier: MIT
// J. Power.
#include <math.h>
#include <string.h>

#include "base/number.h"
#include "catalogue/trade.h"
#include "physics/wire.h"
#include "quantities/read.h"

#define FOREBAY_ROWS "catalogue/power.def"

#define POWER_FACTOR 0.7    // of a small motor whose current is not written down; common practice, no source
#define STARTING_TIMES 7.0  // of its running current: the careful end of 5 to 7; common practice, no source
#define KILOWATT_HOUR 3.6e6

// ---- Who feeds what ----

static bool is_fed(struct evaluation *ev, struct circuit_ref circuit, int entity) {
  for (size_t i = 0; i < circuit_count_feeds(ev, circuit); i++) {
    if (link_get_to(ev, circuit_feeds_at(ev, circuit, i)).at == entity) return true;
  }
  return false;
}

static double circuits_of(struct evaluation *ev, int entity) {
  const struct store *design = evaluation_design(ev);
  size_t count = 0;
  for (size_t i = 0; i < store_count(design, KIND_circuit); i++) {
    count += is_fed(ev, (struct circuit_ref){store_of_kind(design, KIND_circuit, i)}, entity);
  }
  return (double)count;
}

static double circuit_count_of_pump(struct evaluation *ev, struct pump_ref pump) { return circuits_of(ev, pump.at); }
static double circuit_count_of_light(struct evaluation *ev, struct light_ref light) {
  return circuits_of(ev, light.at);
}

static struct any_ref fed_at(struct evaluation *ev, struct circuit_ref circuit, size_t i) {
  return link_get_to(ev, circuit_feeds_at(ev, circuit, i));
}

static double motor_count_of_circuit(struct evaluation *ev, struct circuit_ref circuit) {
  size_t count = 0;
  for (size_t i = 0; i < circuit_count_feeds(ev, circuit); i++) {
    count += kind_of(ev, fed_at(ev, circuit, i)) == KIND_pump;
  }
  return (double)count;
}

// ---- Currents ----

static double motor_current(struct evaluation *ev, struct pump_ref pump, double volts) {
  if (pump_states_running_current(ev, pump)) return pump_get_running_current(ev, pump);
  return wire_current(pump_get_power(ev, pump), volts, POWER_FACTOR);
}

static double light_power(struct evaluation *ev, struct light_ref light) {
  return light_get_power(ev, light) * light_get_count(ev, light);
}

static double current_of(struct evaluation *ev, struct any_ref fed, double volts) {
  if (kind_of(ev, fed) == KIND_pump) return motor_current(ev, (struct pump_ref){fed.at}, volts);
  return light_power(ev, (struct light_ref){fed.at}) / volts;
}

static double running_current_of_circuit(struct evaluation *ev, struct circuit_ref circuit) {
  double volts = circuit_get_volts(ev, circuit), sum = 0;
  for (size_t i = 0; i < circuit_count_feeds(ev, circuit); i++) sum += current_of(ev, fed_at(ev, circuit, i), volts);
  return sum;
}

static double breaker_share_of_circuit(struct evaluation *ev, struct circuit_ref circuit) {
  return circuit_get_running_current(ev, circuit) / circuit_get_breaker(ev, circuit);
}

static double motor_load_of_circuit(struct evaluation *ev, struct circuit_ref circuit) {
  double volts = circuit_get_volts(ev, circuit), largest = 0;
  for (size_t i = 0; i < circuit_count_feeds(ev, circuit); i++) {
    struct any_ref fed = fed_at(ev, circuit, i);
    if (kind_of(ev, fed) == KIND_pump) largest = fmax(largest, motor_current(ev, (struct pump_ref){fed.at}, volts));
  }
  return circuit_get_running_current(ev, circuit) + largest / 4;
}

static double motor_load_share_of_circuit(struct evaluation *ev, struct circuit_ref circuit) {
  return circuit_get_motor_load(ev, circuit) / circuit_get_breaker(ev, circuit);
}

static double running_current_of_light(struct evaluation *ev, struct light_ref light) {
  return light_power(ev, light) / light_get_volts(ev, light);
}

// ---- Voltage lost in the wire ----

static double metric_ohms(const char *words) {
  double square_mm = 0;
  size_t read = number_read(words, strlen(words), &square_mm);
  const struct wire_metric *size = wire_metric(square_mm);
  return read > 0 && strcmp(words + read, " mm2 copper") == 0 && size ? size->stranded : (double)NAN;
}

// "12 AWG copper" or "2.5 mm2 copper": ohm per m at 75 C, or NaN.
static double read_wire(const char *words) {
  double gauge = 0;
  size_t read = number_read(words, strlen(words), &gauge);
  if (read == 0 || strcmp(words + read, " AWG copper") != 0) return metric_ohms(words);
  const struct wire_size *size = gauge >= 1 && gauge <= 99 && floor(gauge) >= gauge ? wire_size((unsigned)gauge) : NULL;
  return size ? size->stranded : (double)NAN;
}

static double ohms_of(struct evaluation *ev, const char *wire, int entity, enum row_id given) {
  if (evaluation_marked(ev)) return (double)NAN;
  double ohms = read_wire(wire);
  if (isnan(ohms)) {
    evaluation_impossible(ev, entity, given, "is no wire that the table has",
                          "18, 16, 14, 12, 10, 8 or 6 AWG copper, or 0.75, 1, 1.5, 2.5, 4, 6, 10 or 16 mm2 copper");
  }
  return ohms;
}

static double voltage_drop_of_circuit(struct evaluation *ev, struct circuit_ref circuit) {
  double run = circuit_get_run(ev, circuit), current = circuit_get_running_current(ev, circuit);
  return wire_drop(ohms_of(ev, circuit_get_wire(ev, circuit), circuit.at, ROW_circuit_wire), run, current);
}

static double voltage_drop_share_of_circuit(struct evaluation *ev, struct circuit_ref circuit) {
  return circuit_get_voltage_drop(ev, circuit) / circuit_get_volts(ev, circuit);
}

static double starting_current(struct evaluation *ev, struct pump_ref pump, double volts) {
  if (pump_states_starting_current(ev, pump)) return pump_get_starting_current(ev, pump);
  return STARTING_TIMES * motor_current(ev, pump, volts);
}

// After a power cut all of them start in the same second.
static double voltage_left_at_start_of_circuit(struct evaluation *ev, struct circuit_ref circuit) {
  double volts = circuit_get_volts(ev, circuit), sum = 0;
  for (size_t i = 0; i < circuit_count_feeds(ev, circuit); i++) {
    struct any_ref fed = fed_at(ev, circuit, i);
    if (kind_of(ev, fed) == KIND_pump) sum += starting_current(ev, (struct pump_ref){fed.at}, volts);
  }
  double one_way = circuit_get_run(ev, circuit);
  double ohms = ohms_of(ev, circuit_get_wire(ev, circuit), circuit.at, ROW_circuit_wire);
  if (evaluation_marked(ev)) return (double)NAN;
  return sum > 0 ? wire_left_at_start(ohms, one_way, volts, sum, 1) : 1;
}

static double voltage_drop_of_light(struct evaluation *ev, struct light_ref light) {
  double run = light_get_run(ev, light), current = light_get_running_current(ev, light);
  return wire_drop(ohms_of(ev, light_get_wire(ev, light), light.at, ROW_light_wire), run, current);
}

static double voltage_drop_share_of_light(struct evaluation *ev, struct light_ref light) {
  return light_get_voltage_drop(ev, light) / light_get_volts(ev, light);
}

// ---- Energy ----

static double energy_of(struct evaluation *ev, struct any_ref fed) {
  if (kind_of(ev, fed) == KIND_pump) {
    struct pump_ref pump = {fed.at};
    return wire_yearly_energy(pump_get_power(ev, pump), pump_get_on_share(ev, pump));
  }
  struct light_ref light = {fed.at};
  return wire_yearly_energy(light_power(ev, light), light_get_on_share(ev, light));
}

static double energy_per_year_of_circuit(struct evaluation *ev, struct circuit_ref circuit) {
  double sum = 0;
  for (size_t i = 0; i < circuit_count_feeds(ev, circuit); i++) sum += energy_of(ev, fed_at(ev, circuit, i));
  return sum;
}

static double cost_per_year_of_circuit(struct evaluation *ev, struct circuit_ref circuit) {
  struct prices_ref prices = {store_of_kind(evaluation_design(ev), KIND_prices, 0)};
  return circuit_get_energy_per_year(ev, circuit) / KILOWATT_HOUR * prices_get_energy(ev, prices);
}

// ---- Cable ----

static double cover_asked_of_circuit(struct evaluation *ev, struct circuit_ref circuit) {
  enum word cable = circuit_get_cable(ev, circuit);
  return evaluation_marked(ev) ? (double)NAN : trade_cover(cable);
}

static double cover_to_spare_of_circuit(struct evaluation *ev, struct circuit_ref circuit) {
  return circuit_get_cover_depth(ev, circuit) - circuit_get_cover_asked(ev, circuit);
}

// ---- People in the water ----

// 15 V: what a wet body may touch (NFPA 70 art. 100, low voltage contact limit; from memory).
static bool is_off_to_enter(struct evaluation *ev, struct circuit_ref circuit) {
  return circuit_get_volts(ev, circuit) <= 15 || circuit_get_pump_off_to_enter(ev, circuit) == WORD_stated_stated;
}

// A pump on no circuit that anyone described counts as live.
static bool is_live(struct evaluation *ev, struct pump_ref pump) {
  if (pump_get_type(ev, pump) != WORD_pump_type_submersible) return false;
  const struct store *design = evaluation_design(ev);
  bool fed = false, off = true;
  for (size_t i = 0; i < store_count(design, KIND_circuit); i++) {
    struct circuit_ref circuit = {store_of_kind(design, KIND_circuit, i)};
    if (!is_fed(ev, circuit, pump.at)) continue;
    fed = true;
    off = off && is_off_to_enter(ev, circuit);
  }
  return !fed || !off;
}

static double live_pumps_of_basin(struct evaluation *ev, struct basin_ref basin) {
  size_t live = 0;
  for (size_t i = 0; i < basin_count_pumps(ev, basin); i++) live += is_live(ev, basin_pumps_at(ev, basin, i));
  for (size_t i = 0; i < basin_count_intakes(ev, basin); i++) {
    struct intake_ref intake = basin_intakes_at(ev, basin, i);
    for (size_t k = 0; k < intake_count_pumps(ev, intake); k++) live += is_live(ev, intake_pumps_at(ev, intake, k));
  }
  return (double)live;
}

#include "quantities/export.h"
