-- SPDX-License-Identifier: MIT
-- In here: lifting: picks, slings, machines, hands; edges, overhead lines, the ground on the way; where nobody stands.
-- Changes of your own go into rules/house, not in here: the next version replaces this file.
-- To try it: `forebay rule-test` runs the examples under each rule.
-- Units: every number is text with its unit ("2,900 lb", "12 ft"); shares as "85 %".

rule "pick-described" {
  title = "The lift of each stone over 200 lb is described",
  for_each = "boulder", when = { mass_high = { at_least = "200 lb" } },
  stage = "stone", severity = "hold", life_safety = true,
  judges = "pick_count", at_least = "1",
  why = [[A stone whose lift nobody worked out is lifted with what happens to stand in the yard.
    Which machine, which sling, how it is slung and how far out decide whether it hangs or
    falls. Write a pick for it: then the figures can be looked at.]],
  source = "common practice, no source; the weight is read high",
  caution = "A qualified rigger plans the lift. This list does not take the place of one.",
  fix = { advise = "Describe a pick: stone, machine, sling, legs, hitch, angle, reach." },
  examples = {
    { "no pick", boulder = { mass_high = "900 lb" }, outcome = "flagged" },
    { "described", boulder = { mass_high = "900 lb", picks = { {} } }, outcome = "clear" },
    { "two lifts, from its size", boulder = { length = "3 ft", width = "2 ft", height = "2 ft",
      shape = "blocky", stone = "granite", pick_count = 2 }, outcome = "clear" },
    { "light enough for hands, and at the limit of the weight", boulder = { mass_high = "150 lb",
      pick_count = 0 }, outcome = "not applicable" },
  },
}

rule "sling-overloaded" {
  title = "The sling holds the stone at its hitch and angle, and its tag says so",
  for_each = "pick", stage = "stone", severity = "hold", life_safety = true,
  limit = { most = "100 %", flattest = "30 deg" },
  check = function(pick, limit)
    return at_most(pick.sling_share, limit.most) or at_least(pick.leg_angle, limit.flattest)
      or is(pick.sling.tag, "yes") or is(pick.sling.edge_guard, "fitted")
  end,
  why = [[The flatter the legs hang, the more each one carries: at thirty degrees from level each
    of two carries the whole stone. A rigid stone hangs on two legs, however many there are. A
    choked sling holds a fifth less and a corner of granite cuts it like a knife. A sling
    without a readable tag is a rope that nobody knows.]],
  source = [[29 CFR 1926.251; ASME B30.9, seen in rigging charts; weight read high, two legs carry
    a rigid stone: rigging practice]],
  caution = [[The tag and a qualified rigger stand over every figure. Nobody is under the stone or
    between it and a bank.]],
  fix = { raise = "leg_angle", by = "5 deg", to_no_more_than = "90 deg" },
  examples = {
    { "flat legs", pick = { sling_share = "80 %", leg_angle = "25 deg",
      sling = { tag = "yes", edge_guard = "fitted" } }, outcome = "flagged" },
    { "too heavy, from what is written", pick = { load = "6,435 lb", legs = 4, hitch = "vertical",
      leg_angle = "45 deg", sling = { rated = "4,000 lb", tag = "yes", edge_guard = "fitted" } },
      outcome = "flagged" },
    { "no tag", pick = { sling_share = "40 %", leg_angle = "60 deg",
      sling = { tag = "no", edge_guard = "fitted" } }, outcome = "flagged" },
    { "steep legs, good sling", pick = { load = "1,743 lb", legs = 2, hitch = "vertical",
      leg_angle = "60 deg", sling = { rated = "2,000 lb", tag = "yes", edge_guard = "fitted" } },
      outcome = "clear" },
    { "at the limit", pick = { sling_share = "100 %", leg_angle = "30 deg",
      sling = { tag = "yes", edge_guard = "fitted" } }, outcome = "clear" },
  },
}

rule "machine-overloaded" {
  title = "The machine is rated for the stone at the farthest reach, with some to spare",
  for_each = "pick", stage = "stone", severity = "hold", life_safety = true,
  judges = "machine_share", at_most = { hold = "100 %", revise = "85 %" },
  why = [[A machine that picks a stone up near its tracks goes over when the boom is let out, for
    the rating at twice the reach is about half. Bucket and coupler hang on the same hook and
    come off the chart. A stone guessed by eye is a third heavier often enough: keep some
    rating in hand.]],
  source = [[the maker's chart; of a chart of tipping loads 75 %: ISO 10567, seen quoted; 85 %:
    common practice, no source]],
  caution = [[Level ground, the chart in the cab and the operator decide. Beyond the chart there
    is no rating.]],
  fix = { advise = "A larger machine, or a place for it nearer to where the stone goes. Mind the edge of the pit." },
  examples = {
    { "over", pick = { load = "6,500 lb", rated = "4,200 lb" }, outcome = "flagged" },
    { "close", pick = { load = "3,900 lb", rated = "4,200 lb" }, outcome = "flagged" },
    { "from its chart", pick = { load = "1,743 lb", reach = "12 ft", machine = { chart = "rated",
      lifts = { { reach = "10 ft", rated = "4,440 lb", deducted = "240 lb" },
                { reach = "15 ft", rated = "2,640 lb", deducted = "240 lb" } } } },
      outcome = "clear" },
    { "at the limit", pick = { machine_share = "85 %" }, outcome = "clear" },
  },
}

rule "machine-overloaded-carried" {
  title = "A stone is set from where the machine stands, not carried over the ground",
  for_each = "pick", stage = "stone", severity = "revise", life_safety = true,
  judges = "carried", is = "no",
  why = [[The chart is for a machine that stands level and still. A stone that swings while the
    tracks ride over a rut weighs more and hangs farther out than any chart has it. Many
    makers forbid it, others give a figure of their own.]],
  source = "common practice, no source",
  caution = "Where it has to be, the maker's word for travelling with a load decides.",
  fix = { advise = "Set it from one place, or ask the maker for the rating while travelling." },
  examples = {
    { "carried", pick = { carried = "yes" }, outcome = "flagged" },
    { "from one place", pick = { carried = "no" }, outcome = "clear" },
  },
}

rule "overhead-line" {
  title = "What hangs on the hook keeps its distance from the overhead line",
  for_each = "pick", stage = "layout", severity = "hold", life_safety = true,
  judges = "line_to_spare", at_least = "0 ft",
  why = [[A line need not be touched: it jumps to a boom or a wet sling that comes near. The man
    who steadies the stone is the one it goes through. Look up before the machine is ordered,
    and ask the utility for the voltage; as long as nobody knows it, twenty feet are asked.]],
  source = "29 CFR 1926.1408 Table A, seen; 1926.600(a)(6), from memory; 20 ft with no voltage told",
  caution = "The owner of the line can cut or shield it, and decides on the distance.",
  fix = { advise = "Another place for the machine, a shorter boom, or have the line cut off." },
  examples = {
    { "nobody asked the voltage", pick = { line_to_spare = "-4 ft" }, outcome = "flagged" },
    { "from what is written", pick = { of = { length = "4 ft", width = "3 ft", height = "2 ft" } },
      site = { line_distance = "60 ft", line_voltage = "13 kV" }, outcome = "clear" },
    { "no line", pick = { of = { length = "4 ft", width = "3 ft", height = "2 ft" } },
      site = { line_distance = "none" }, outcome = "clear" },
    { "at the limit", pick = { line_to_spare = "0 ft" }, outcome = "clear" },
  },
}

rule "overhead-line-reach" {
  title = "The boom, let out, stays 20 ft from the overhead line",
  for_each = "machine", stage = "layout", severity = "revise", life_safety = true,
  judges = "line_beyond_reach", at_least = "20 ft",
  why = [[The plan keeps the stone away from the line; the operator has to keep the boom away
    while he looks at the stone. Where the boom could get there, somebody has to do nothing
    else but watch the line, or the line is cut off.]],
  source = "29 CFR 1926.1408(a), the 20 ft that set off its measures, from memory",
  caution = "The owner of the line and the competent person decide on spotters and shields.",
  fix = { advise = "Stand the machine elsewhere, limit its swing, or have the line cut off." },
  examples = {
    { "boom under the line", machine = { greatest_reach = "22 ft" }, site = { line_distance = "30 ft" },
      outcome = "flagged" },
    { "no line", machine = { greatest_reach = "22 ft" }, site = { line_distance = "none" },
      outcome = "clear" },
    { "at the limit", machine = { greatest_reach = "20 ft" }, site = { line_distance = "40 ft" },
      outcome = "clear" },
  },
}

rule "stands-in-fall-zone" {
  title = "Nobody stands where a stone hangs or could fall",
  for_each = "crew", when = { widest_zone = { at_least = "1 ft" } },
  stage = "stone", severity = "hold", life_safety = true,
  judges = "fall_zone_kept", is = "stated",
  why = [[A stone that slips out of its sling, or goes over before it is packed, lands about as
    far out as it is long. Nobody jumps clear of a ton. Mark the zone on the ground, name who
    may go in to unhook, and from which end.]],
  source = "29 CFR 1926.651(e), second hand; longest side + 3 ft, height + 2 ft: common practice",
  caution = [[The zone is a least figure for planning. The person who directs the lift decides on
    site, and a slope makes it longer.]],
  fix = { advise = "Draw the zones, and write into the work plan who may enter, when." },
  examples = {
    { "nobody thought of it", crew = { widest_zone = "8 ft", fall_zone_kept = "none" },
      outcome = "flagged" },
    { "drawn", crew = { widest_zone = "8 ft", fall_zone_kept = "stated" }, outcome = "clear" },
  },
}

rule "stands-in-fall-zone-pick" {
  title = "Nobody is in the path of a lift",
  for_each = "pick", stage = "stone", severity = "hold", life_safety = true,
  judges = "people_clear", is = "stated",
  why = [[The shortest way to the pool leads along the path of the stone, and it is walked unless
    somebody says no. A tag line keeps hands off a hanging stone.]],
  source = "29 CFR 1926.651(e), second hand",
  caution = "The person who directs the lift stops it when somebody walks in.",
  fix = { advise = "Say in the plan for this pick which way it goes and where people wait." },
  examples = {
    { "not stated", pick = { people_clear = "none" }, outcome = "flagged" },
    { "stated", pick = { people_clear = "stated" }, outcome = "clear" },
  },
}

rule "crew-described" {
  title = "The crew that sets the stones is described",
  for_each = "project", when = { stone_mass_high = { at_least = "200 lb" } },
  stage = "stone", severity = "hold", life_safety = true,
  judges = "crew_count", at_least = "1",
  why = [[How stone is cut and where people stand while it hangs are facts about the crew. What
    nobody wrote down nobody looked at.]],
  source = "common practice, no source",
  caution = "The competent person on site decides who stands where.",
  fix = { advise = "Describe the crew: how stone is cut, and that fall zones are kept." },
  examples = {
    { "no crew", project = { stone_mass_high = "4 ton" }, outcome = "flagged" },
    { "described", project = { stone_mass_high = "4 ton" }, crew = {}, outcome = "clear" },
    { "no stones, below the limit", project = { stone_mass_high = "0 lb" },
      outcome = "not applicable" },
  },
}

rule "machine-at-edge" {
  title = "The tracks keep their distance from the edge of the dig",
  for_each = "machine", stage = "dig", severity = "hold", life_safety = true,
  judges = "edge_to_spare", at_least = "0 ft",
  why = [[A loaded machine shears off the edge of a pit that is steeper than the soil stands by
    itself, and comes down on whoever is in it. Steep sides ask for as much more distance as
    they lack in slope; two feet stay even beside a flat one.]],
  source = "common practice on 29 CFR 1926 Subpart P, App. B (c)(3)",
  caution = "The competent person looks at the edge each day and after rain.",
  fix = { raise = "from_edge", by = "6 in", to_no_more_than = "20 ft" },
  examples = {
    { "too near", machine = { from_edge = "3 ft", least_from_edge = "6 ft" }, outcome = "flagged" },
    { "back far enough", machine = { from_edge = "8 ft", least_from_edge = "6 ft" },
      outcome = "clear" },
    { "at the limit", machine = { from_edge = "6 ft", least_from_edge = "6 ft" },
      outcome = "clear" },
  },
}

rule "stones-staged-at-edge" {
  title = "Stones that wait keep their distance from the edge of the dig",
  for_each = "dig", when = { ["project.stone_mass_high"] = { at_least = "200 lb" } },
  stage = "dig", severity = "hold", life_safety = true,
  judges = "staged_to_spare", at_least = "0 ft",
  why = [[Stones are put down where the machine can reach them next, which is the edge. A pallet
    of them loads it like a machine, day and night. It needs the same distance.]],
  source = "common practice on 29 CFR 1926 Subpart P, App. B (c)(3)",
  caution = "The competent person decides where stone may lie.",
  fix = { raise = "staged_from_edge", by = "6 in", to_no_more_than = "20 ft" },
  examples = {
    { "at the brink of a steep pit", dig = { depth = "4 ft", slope = "upright",
      staged_from_edge = "3 ft" }, site = { soil = "type B", ground_water = "none" },
      project = { stone_mass_high = "2 ton" }, outcome = "flagged" },
    { "back", dig = { depth = "4 ft", slope = "1H:1V", staged_from_edge = "4 ft" },
      site = { soil = "type B", ground_water = "none" },
      project = { stone_mass_high = "2 ton" }, outcome = "clear" },
    { "at the limit", dig = { depth = "4 ft", slope = "upright", staged_from_edge = "6 ft" },
      site = { soil = "type B", ground_water = "none" },
      project = { stone_mass_high = "2 ton" }, outcome = "clear" },
  },
}

rule "haul-ground" {
  title = "The way in leads over nothing hollow",
  for_each = "machine", stage = "layout", severity = "hold",
  check = function(machine) return is(machine.site.haul_over, "lawn", "paving", "mats") end,
  why = [[A septic tank is made to carry soil and a mower. Under a machine its lid goes, and the
    machine with it; a slab over a cellar or a vault does the same. Another way, or somebody
    who can say what the lid carries.]],
  source = "common practice, no source",
  caution = "What a lid or slab carries is for an engineer to say.",
  fix = { advise = "Another way in, by crane over it, or an engineer's word on the slab." },
  examples = {
    { "over the septic tank", machine = { width = "6 ft" }, site = { haul_over = "septic" },
      outcome = "flagged" },
    { "over mats", machine = { width = "6 ft" }, site = { haul_over = "mats" }, outcome = "clear" },
  },
}

rule "haul-ground-lawn" {
  title = "Tracks on a lawn press no harder than the lawn bears",
  for_each = { "machine", "pick" }, when = { ["site.haul_over"] = "lawn" },
  stage = "layout", severity = "revise",
  judges = "track_pressure", at_most = "6 psi",
  why = [[Over six pounds on a square inch the tracks leave ruts that hold water, and the soil
    under them grows no grass for years. With a stone on the hook the front of the tracks
    presses harder still. Mats cost less than a new lawn.]],
  source = "common practice, no source",
  fix = { set = "site.haul_over", to = "mats" },
  examples = {
    { "narrow tracks", machine = { weight = "8,400 lb", track_length = "5 ft", track_width = "10 in" },
      site = { haul_over = "lawn" }, outcome = "flagged" },
    { "wide tracks", machine = { weight = "8,400 lb", track_length = "6 ft", track_width = "14 in" },
      site = { haul_over = "lawn" }, outcome = "clear" },
    { "at the limit", pick = { track_pressure = "6 psi" }, site = { haul_over = "lawn" },
      outcome = "clear" },
  },
}

rule "hand-lift-stone" {
  title = "A stone that is lifted by hand is light enough for its lifters",
  for_each = "boulder", when = { hands = { at_least = "1" } },
  stage = "stone", severity = "advise",
  judges = "hand_lift_left", at_least = "0 lb",
  why = [[Two people do not lift twice what one lifts: their steps and heights differ. Count two
    thirds of the sum for two, half for more. Bent over a wet bank the figure of NIOSH's
    equation is less than half of that.]],
  source = "common practice, no source; NIOSH 94-110, second hand",
  caution = [[Reach, twisting and wet stone make the right weight smaller. The employer's
    lifting plan decides.]],
  fix = { raise = "hands", by = "1", to_no_more_than = "4" },
  examples = {
    { "two for ninety pounds", boulder = { hands = 2, mass_high = "90 lb" }, outcome = "flagged" },
    { "a cobble", boulder = { hands = 1, length = "8 in", width = "8 in", height = "6 in",
      shape = "rounded", stone = "granite" }, outcome = "clear" },
    { "at the limit", boulder = { hands = 1, mass_high = "50 lb" }, outcome = "clear" },
  },
}

rule "hand-lift" {
  title = "A cap stone that is set by hand is light enough for one person",
  for_each = "coping", when = { set_by = "hand" },
  stage = "stone", severity = "advise",
  judges = "mass_high", at_most = "50 lb",
  why = [[Most back injuries on a stone job come from the pieces that look just liftable. Over
    50 lb take a second pair of hands, a clamp or the machine. Count on two people for two
    thirds of what they lift singly.]],
  source = "common practice; 51 lb under the best conditions: NIOSH 94-110, seen in a reprint",
  caution = [[Reach, twisting and wet stone make the right weight smaller. The employer's
    lifting plan decides.]],
  fix = { set = "set_by", to = "machine" },
  examples = {
    { "two-inch cap", coping = { set_by = "hand", length = "36 in", depth = "14 in",
      thickness = "2 in",
      stone = "granite" }, outcome = "flagged" },
    { "small piece", coping = { set_by = "hand", length = "12 in", depth = "12 in",
      thickness = "2 in",
      stone = "granite" }, outcome = "clear" },
    { "at the limit", coping = { set_by = "hand", mass_high = "50 lb" }, outcome = "clear" },
  },
}
