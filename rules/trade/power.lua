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
  for_each = "circuit", stage = "power", severity = "hold", life_safety = true,
  limit = { least = "5 ft" },
  check = function(circuit, limit)
    return at_least(circuit.disconnect_distance, limit.least) or is(circuit.disconnect_seen, "yes")
  end,
  why = [[Whoever has a hand in the pump must see that nobody switches it on. And nobody should
    be able to reach the switch with the other hand in the water. So it goes within sight, and
    at least an arm and a step away.]],
  source = "NFPA 70, 680.13 (680.12 in older editions), from memory",
  caution = "A licensed electrician does this work, and the adopted code and the inspector decide.",
  fix = { advise = "Draw it 5 ft or more from the water, where one at the pump can see it." },
  examples = {
    { "at the water's edge", circuit = { disconnect_distance = "3 ft", disconnect_seen = "yes" },
      outcome = "flagged" },
    { "in the garage", circuit = { disconnect_distance = "60 ft", disconnect_seen = "no" },
      outcome = "flagged" },
    { "on the post", circuit = { disconnect_distance = "8 ft", disconnect_seen = "yes" },
      outcome = "clear" },
    { "at the limit", circuit = { disconnect_distance = "5 ft", disconnect_seen = "yes" },
      outcome = "clear" },
  },
}

rule "circuit-overloaded" {
  title = "What runs all day takes at most 80 % of the breaker",
  for_each = "circuit", stage = "power", severity = "hold",
  limit = { share = "80 %" },
  check = function(circuit, limit)
    local watts = q"0 W"
    for _, fed in ipairs(circuit.feeds) do watts = watts + fed.power end
    return at_most(watts / circuit.volts, circuit.breaker * limit.share)
  end,
  why = [[A breaker that carries a full load day and night warms up and trips, on the hottest
    day, with fish in the basin. The code leaves a fifth of it free for loads that run on and
    on. Motors draw somewhat more than their watts say, so do not fill it to the last amp.]],
  source = "NFPA 70, 210.20, from memory",
  caution = "A licensed electrician sizes the circuit; the adopted code and the inspector decide.",
  fix = { advise = "Share the pumps out over two circuits, or have a larger one drawn." },
  examples = {
    { "too much on one breaker",
      circuit = { volts = "120 V", breaker = "15 A",
        feeds = { { power = "1,000 W" }, { power = "600 W" } } }, outcome = "flagged" },
    { "two small pumps",
      circuit = { volts = "120 V", breaker = "15 A",
        feeds = { { power = "110 W" }, { power = "160 W" } } }, outcome = "clear" },
    { "at the limit", circuit = { volts = "120 V", breaker = "15 A",
      feeds = { { power = "1,440 W" } } },
      outcome = "clear" },
  },
}

rule "voltage-drop" {
  title = "The wire loses little of the voltage on its way to the pumps",
  for_each = "circuit", stage = "power", severity = "revise",
  limit = { most = { advise = "3 %", revise = "5 %" } },
  check = function(circuit, limit)
    -- ohms in 1,000 ft of one conductor at 75 C, stranded copper
    local ohms = { ["14 AWG copper"] = 3.14, ["12 AWG copper"] = 1.98, ["10 AWG copper"] = 1.24,
                   ["8 AWG copper"] = 0.778, ["6 AWG copper"] = 0.491 }
    local each = ohms[circuit.wire]
    if not each then
      return must(false, "the wire must be written as 14, 12, 10, 8 or 6 AWG copper")
    end
    local watts = q"0 W"
    for _, fed in ipairs(circuit.feeds) do watts = watts + fed.power end
    local amps = watts / circuit.volts / q"1 A"
    local thousands = circuit.run / q"1000 ft"
    return at_most(amps * thousands * each * 2 / (circuit.volts / q"1 V"), limit.most)
  end,
  why = [[At the end of a long thin wire a motor gets less than it wants, draws more, runs hot
    and starts badly. On 12 V a pump at the far end of the garden may see ten. Thicker wire is
    cheap before the trench is closed.]],
  source = "NFPA 70, chapter 9 table 8 (seen); 3 % and 5 % are notes in it, second hand",
  caution = "A licensed electrician sizes the wire, and the adopted code and the inspector decide.",
  fix = { advise = "Take the next thicker wire, or a shorter way." },
  examples = {
    { "the handbook's 20 A over 100 ft of 12 AWG, 6.6 %", circuit = { volts = "120 V",
      run = "100 ft",
      wire = "12 AWG copper", feeds = { { power = "2,400 W" } } }, outcome = "flagged" },
    { "the same on 10 AWG, 4.1 %, is worth a word", circuit = { volts = "120 V", run = "100 ft",
      wire = "10 AWG copper", feeds = { { power = "2,400 W" } } }, outcome = "flagged" },
    { "the same on 8 AWG, 2.6 %", circuit = { volts = "120 V", run = "100 ft",
      wire = "8 AWG copper", feeds = { { power = "2,400 W" } } }, outcome = "clear" },
    { "at the limit: 20 A over 45.455 ft of 12 AWG", circuit = { volts = "120 V", run = "500/11 ft",
      wire = "12 AWG copper", feeds = { { power = "2,400 W" } } }, outcome = "clear" },
    { "no such wire", circuit = { volts = "120 V", run = "10 ft", wire = "lamp cord",
      feeds = { { power = "100 W" } } }, outcome = "flagged" },
  },
}

rule "circuit-described" {
  title = "The circuit of each pump is described",
  for_each = "pump", stage = "power", severity = "hold", life_safety = true,
  judges = "circuit_count", at_least = "1",
  why = [[A pump that hangs on no circuit in the design has no ground-fault protection to check,
    no bonding and no switch. That is the line on the drawing that an electrician prices from,
    and the one that kills when it is left to the last day.]],
  source = "common practice, no source",
  caution = "All wiring near water is a licensed electrician's work under the code in force.",
  fix = { advise = "Write a circuit whose `feeds` names the pump." },
  examples = {
    { "on no circuit", pump = {}, outcome = "flagged" },
    { "fed", pump = { circuit_count = 1 }, outcome = "clear" },
    { "at the limit", pump = { circuit_count = 1 }, outcome = "clear" },
  },
}
