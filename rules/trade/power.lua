-- SPDX-License-Identifier: MIT
-- In here: the circuits that feed the feature.
-- Changes of your own go into rules/house, not in here: the next version replaces this file.
-- To try it: `forebay rule-test` runs the examples under each rule.
-- Units: every number is text with its unit ("5 ft", "15 A").

rule "gfci" {
  title = "Every circuit of the feature has ground-fault protection",
  for_each = "circuit", stage = "power", severity = "hold", life_safety = true,
  judges = "gfci", is = "fitted",
  why = [[A nicked cord under water puts the whole basin under voltage, and the breaker does not
    notice. Ground-fault protection trips before a heart does. It is asked for every pump and
    light of the feature, however far from the water its plug is.]],
  source = "NFPA 70, article 680 Part V, from memory",
  caution = [[Electricity and water kill. A licensed electrician does this work, and the adopted
    code and the inspector decide.]],
  fix = { set = "gfci", to = "fitted" },
  examples = {
    { "none", circuit = { gfci = "none" }, outcome = "flagged" },
    { "fitted", circuit = { gfci = "fitted" }, outcome = "clear" },
  },
}

rule "bonding" {
  title = "The metal parts of the feature are bonded",
  for_each = "circuit", stage = "power", severity = "hold", life_safety = true,
  judges = "bonding", is = "stated",
  why = [[Two pieces of metal at different voltage, and a hand on each, is all it takes. Bonding
    ties pipe, fittings, pump housings and any metal near the water together so that there is no
    difference left. It lies under the paving, so it is on the drawing or it is never done.]],
  source = "NFPA 70, 680.54(B) (2020 text), second hand; 680.26 where people enter, from memory",
  caution = [[A licensed electrician does this work, and the adopted code and the inspector
    decide. Where people get in, the rules for pools apply.]],
  fix = { set = "bonding", to = "stated" },
  examples = {
    { "not on the drawing", circuit = { bonding = "none" }, outcome = "flagged" },
    { "on the drawing", circuit = { bonding = "stated" }, outcome = "clear" },
  },
}

rule "disconnect" {
  title = "The disconnect is in sight of the pump and 5 ft from the water",
  for_each = "circuit", when = { motor_count = { at_least = 1 } },
  stage = "power", severity = "hold", life_safety = true,
  limit = { least = "5 ft", most = "50 ft" },
  check = function(circuit, limit)
    local near = at_least(circuit.disconnect_distance, limit.least)
    return (near and is(circuit.barrier, "stated") and near)
      or is(circuit.disconnect_seen, "yes") or at_most(circuit.disconnect_distance, limit.most)
  end,
  why = [[Whoever has a hand in the pump must see that nobody switches it on. And nobody should
    be able to reach the switch with the other hand in the water. So it goes within sight, no
    more than 50 ft off, and an arm and a step away from the water or behind a barrier that
    stays.]],
  source = [[NFPA 70, 680.13 (680.12 in older editions), and the 50 ft that "in sight" means
    there: from memory]],
  caution = "A licensed electrician does this work, and the adopted code and the inspector decide.",
  fix = { advise = "Draw it 5 ft or more from the water, where one at the pump can see it." },
  examples = {
    { "at the water's edge", circuit = { motor_count = 1, disconnect_distance = "3 ft",
      disconnect_seen = "yes", barrier = "none" }, outcome = "flagged" },
    { "the same behind a barrier", circuit = { motor_count = 1, disconnect_distance = "3 ft",
      disconnect_seen = "yes", barrier = "stated" }, outcome = "clear" },
    { "in the garage", circuit = { motor_count = 1, disconnect_distance = "40 ft",
      disconnect_seen = "no" }, outcome = "flagged" },
    { "seen, but far", circuit = { motor_count = 1, disconnect_distance = "60 ft",
      disconnect_seen = "yes" }, outcome = "flagged" },
    { "on the post", circuit = { motor_count = 1, disconnect_distance = "8 ft",
      disconnect_seen = "yes" }, outcome = "clear" },
    { "lights alone", circuit = { motor_count = 0 }, outcome = "not applicable" },
    { "at the limit", circuit = { motor_count = 1, disconnect_distance = "5 ft",
      disconnect_seen = "yes" }, outcome = "clear" },
  },
}

rule "pump-off-to-enter" {
  title = "No pump on mains voltage stands in the water while people are in it",
  for_each = "basin", when = { entered = "yes" }, stage = "power", severity = "hold",
  life_safety = true,
  judges = "live_pumps", at_most = "0",
  why = [[Protection against ground faults works until the day it does not, and a swimmer is the
    way to earth. Where people get in, wet pumps are off, and a rule on the wall and in the
    hand-over sheet says who switches them off.]],
  source = "common practice, no source; 15 V as what a wet body may touch: NFPA 70, from memory",
  caution = [[A licensed electrician decides what may stand in water that people get into; many
    codes allow no such pump at all.]],
  fix = { advise = [[Stand the pump beside the water, or write that it is switched off and locked
    before anyone gets in.]] },
  examples = {
    { "nobody says a word", basin = { entered = "yes", live_pumps = 1 }, outcome = "flagged" },
    { "a dry pump", basin = { entered = "yes", pumps = { { type = "dry" } } }, outcome = "clear" },
    { "nobody gets in", basin = { entered = "no" }, outcome = "not applicable" },
    { "at the limit", basin = { entered = "yes", live_pumps = 0 }, outcome = "clear" },
  },
}

rule "circuit-overloaded" {
  title = "What runs all day takes at most 80 % of the breaker",
  for_each = "circuit", stage = "power", severity = "hold",
  judges = "breaker_share", at_most = "80 %",
  why = [[A breaker that carries a full load day and night warms up and trips, on the hottest
    day, with fish in the basin. The code leaves a fifth of it free for loads that run on and
    on. A motor draws more than its watts over the volts: take the amps from its nameplate.]],
  source = [[NFPA 70, 210.20, from memory; power factor 0.7 where the nameplate is not written:
    common practice, no source]],
  caution = "A licensed electrician sizes the circuit; the adopted code and the inspector decide.",
  fix = { advise = "Share the pumps out over two circuits, or have a larger one drawn." },
  examples = {
    { "too much on one breaker",
      circuit = { volts = "120 V", breaker = "15 A",
        feeds = { { power = "700 W", running_current = "8.5 A" },
                  { power = "450 W", running_current = "5.5 A" } } }, outcome = "flagged" },
    { "watts alone, at a power factor of 0.7", circuit = { volts = "120 V", breaker = "15 A",
      feeds = { { power = "1,200 W", starting_current = "60 A" } } }, outcome = "flagged" },
    { "two small pumps",
      circuit = { volts = "120 V", breaker = "15 A",
        feeds = { { power = "110 W", running_current = "1.4 A" },
                  { power = "160 W", running_current = "2 A" } } }, outcome = "clear" },
    { "at the limit", circuit = { volts = "120 V", breaker = "15 A",
      feeds = { { running_current = "12 A" } } }, outcome = "clear" },
  },
}

rule "motors-overload" {
  title = "A breaker has room for its largest motor and a quarter more",
  for_each = "circuit", when = { motor_count = { at_least = 1 } },
  stage = "power", severity = "hold",
  judges = "motor_load_share", at_most = "100 %",
  why = [[A motor that starts, or labours against a clogged intake, draws past its nameplate. The
    code counts the largest on a circuit a quarter higher so that the wire does not cook before
    the breaker notices.]],
  source = "NFPA 70, 430.22 and 430.24, from memory",
  caution = "A licensed electrician sizes the circuit; the adopted code and the inspector decide.",
  fix = { advise = "Share the pumps out over two circuits, or have a larger one drawn." },
  examples = {
    { "13 A of pump on 15 A", circuit = { volts = "120 V", breaker = "15 A",
      feeds = { { running_current = "13 A" } } }, outcome = "flagged" },
    { "6 A of pump", circuit = { volts = "120 V", breaker = "15 A",
      feeds = { { running_current = "6 A" } } }, outcome = "clear" },
    { "at the limit", circuit = { volts = "120 V", breaker = "15 A",
      feeds = { { running_current = "12 A" } } }, outcome = "clear" },
  },
}

rule "voltage-drop" {
  title = "The wire loses little of the voltage on its way",
  for_each = { "circuit", "light" }, stage = "power", severity = "revise",
  judges = "voltage_drop_share", at_most = { advise = "3 %", revise = "5 %" },
  why = [[At the end of a long thin wire a motor gets less than it wants, draws more, runs hot
    and starts badly. On 12 V the lights at the far end of the garden glow brown. Thicker wire is
    cheap before the trench is closed.]],
  source = "NFPA 70, chapter 9 table 8 (seen); 3 % and 5 % are notes in it, second hand",
  caution = "A licensed electrician sizes the wire, and the adopted code and the inspector decide.",
  fix = { advise = "Take the next thicker wire, or a shorter way." },
  examples = {
    { "the handbook's 20 A over 100 ft of 12 AWG, 6.6 %", circuit = { volts = "120 V",
      run = "100 ft",
      wire = "12 AWG copper", feeds = { { running_current = "20 A" } } }, outcome = "flagged" },
    { "the same on 10 AWG, 4.1 %, is worth a word", circuit = { volts = "120 V", run = "100 ft",
      wire = "10 AWG copper", feeds = { { running_current = "20 A" } } }, outcome = "flagged" },
    { "the same on 8 AWG, 2.6 %", circuit = { volts = "120 V", run = "100 ft",
      wire = "8 AWG copper", feeds = { { running_current = "20 A" } } }, outcome = "clear" },
    { "100 W of lights 50 ft off on 12 V, 13.8 %", light = { volts = "12 V", power = "100 W",
      count = 1, run = "50 ft", wire = "12 AWG copper" }, outcome = "flagged" },
    { "20 m of 2.5 mm2 at 230 V and 5 A, 0.8 %", circuit = { volts = "230 V", run = "20 m",
      wire = "2.5 mm2 copper", feeds = { { running_current = "5 A" } } }, outcome = "clear" },
    { "at the limit: 20 A over 45.455 ft of 12 AWG", circuit = { volts = "120 V", run = "500/11 ft",
      wire = "12 AWG copper", feeds = { { running_current = "20 A" } } }, outcome = "clear" },
  },
}

rule "voltage-drop-at-start" {
  title = "Nine tenths of the voltage are left when all pumps start at once",
  for_each = "circuit", when = { motor_count = { at_least = 1 } },
  stage = "power", severity = "hold",
  judges = "voltage_left_at_start", at_least = "90 %",
  why = [[For a moment a motor that starts draws several times what it runs at, and after a power
    cut all of them start in the same second. If the wire eats the voltage then, they hum, do
    not turn, and burn out or trip the breaker while nobody is at home.]],
  source = "common practice, no source; 7 times the running current where nobody wrote it down",
  caution = "A licensed electrician sizes the wire, and the adopted code and the inspector decide.",
  fix = { advise = "Take thicker wire, start the pumps one after the other, or use two circuits." },
  examples = {
    { "far and thin", circuit = { volts = "120 V", run = "100 ft", wire = "12 AWG copper",
      feeds = { { running_current = "20 A" } } }, outcome = "flagged" },
    { "near", circuit = { volts = "120 V", run = "30 ft", wire = "12 AWG copper",
      feeds = { { running_current = "3 A" } } }, outcome = "clear" },
    { "at the limit", circuit = { motor_count = 1, voltage_left_at_start = "90 %" },
      outcome = "clear" },
  },
}

rule "circuit-described" {
  title = "The circuit of each pump and light is described",
  for_each = { "pump", "light" }, stage = "power", severity = "hold", life_safety = true,
  judges = "circuit_count", at_least = "1",
  why = [[A pump or light that hangs on no circuit in the design has no ground-fault protection
    to check, no bonding and no switch. That is the line on the drawing that an electrician
    prices from, and the one that kills when it is left to the last day.]],
  source = "common practice, no source",
  caution = "All wiring near water is a licensed electrician's work under the code in force.",
  fix = { advise = "Write a circuit whose `feeds` names it." },
  examples = {
    { "on no circuit", pump = {}, outcome = "flagged" },
    { "a light on no circuit", light = {}, outcome = "flagged" },
    { "fed", pump = {}, circuit = { feeds = { "pump" } }, outcome = "clear" },
    { "at the limit", light = { circuit_count = 1 }, outcome = "clear" },
  },
}

rule "low-water-cutoff" {
  title = "A pump that may not run dry stops by itself at low water",
  for_each = "pump", stage = "power", severity = "revise",
  check = function(pump)
    local bare = is(pump.low_water_cutoff, "fitted")
    return bare and is(pump.runs_dry, "yes") and bare
  end,
  why = [[A leak, a hot week or a basket full of leaves, and the pump runs in air. It cooks its
    seal within the hour, lets its oil into the water, and may start a fire in a dry sump.]],
  source = "NFPA 70, 680.51(D), second hand",
  caution = "A licensed electrician fits it, and the adopted code and the inspector decide.",
  fix = { set = "low_water_cutoff", to = "fitted" },
  examples = {
    { "none", pump = { low_water_cutoff = "none", runs_dry = "no" }, outcome = "flagged" },
    { "fitted", pump = { low_water_cutoff = "fitted" }, outcome = "clear" },
    { "made for it", pump = { low_water_cutoff = "none", runs_dry = "yes" }, outcome = "clear" },
  },
}

rule "cord-length" {
  title = "No more than 10 ft of a pump's cord lies in the water",
  for_each = "pump", when = { type = "submersible" }, stage = "power", severity = "revise",
  judges = "cord", at_most = "10 ft",
  why = [[Cord in the water is stood on, nibbled and caught under stones, and nobody sees the
    cut. The less of it lies there, the less there is to go wrong.]],
  source = "NFPA 70, 680.51(E), second hand",
  caution = "A licensed electrician does this work, and the adopted code and the inspector decide.",
  fix = { lower = "cord", by = "1 ft", to_no_less_than = "2 ft" },
  examples = {
    { "across the pool", pump = { type = "submersible", cord = "16 ft" }, outcome = "flagged" },
    { "short", pump = { type = "submersible", cord = "6 ft" }, outcome = "clear" },
    { "beside the water", pump = { type = "dry" }, outcome = "not applicable" },
    { "at the limit", pump = { type = "submersible", cord = "10 ft" }, outcome = "clear" },
  },
}

rule "burial-depth" {
  title = "Cable lies deep enough for its kind",
  for_each = "circuit", stage = "power", severity = "revise",
  judges = "cover_to_spare", at_least = "0 in",
  why = [[Next spring somebody edges the bed, plants a shrub or drives a stake. Bare cable goes 2 ft
    down, plastic conduit 18 in, a protected 20 A branch a foot, metal conduit and garden lighting
    half a foot.]],
  source = "NFPA 70, Table 300.5, from memory",
  caution = "A licensed electrician does this work, and the adopted code and the inspector decide.",
  fix = { raise = "cover_depth", by = "2 in", to_no_more_than = "30 in" },
  examples = {
    { "bare cable a foot down", circuit = { cable = "direct cable", cover_depth = "12 in" },
      outcome = "flagged" },
    { "in plastic conduit", circuit = { cable = "PVC conduit", cover_depth = "20 in" },
      outcome = "clear" },
    { "at the limit", circuit = { cable = "low voltage", cover_depth = "6 in" },
      outcome = "clear" },
  },
}

rule "overhead-wire-over-water" {
  title = "No power line passes less than 22 1/2 ft over the water",
  for_each = "circuit", stage = "layout", severity = "hold", life_safety = true,
  judges = "overhead_clear", at_least = "22.5 ft",
  why = [[Leaf nets, skimmer poles and fishing rods are long, wet, and swung upward by people who
    look down. A wire that comes down in a storm comes down in the basin.]],
  source = "NFPA 70, 680.9 (680.8 before 2017), from memory",
  caution = [[The utility and the adopted code decide about lines over and near water; keep clear
    until they have.]],
  fix = { advise = "Move the basin out from under the line, or ask the utility to move the line." },
  examples = {
    { "service drop at 18 ft", circuit = { overhead_clear = "18 ft" }, outcome = "flagged" },
    { "nothing overhead", circuit = { overhead_clear = "none" }, outcome = "clear" },
    { "at the limit", circuit = { overhead_clear = "22.5 ft" }, outcome = "clear" },
  },
}
