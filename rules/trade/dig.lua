-- SPDX-License-Identifier: MIT
-- In here: the open pit: how people get out, what keeps its sides up, soil and haul.
-- Changes of your own go into rules/house, not in here: the next version replaces this file.
-- To try it: `forebay rule-test` runs the examples under each rule.
-- Units: every number is text with its unit ("4 ft", "1.2 m"); slopes as "1.5H:1V".

rule "egress" {
  title = "A narrow pit 4 ft or deeper has a way out within 25 ft",
  for_each = "dig", when = { depth = { at_least = "4 ft" }, bottom_width = { at_most = "15 ft" } },
  stage = "dig", severity = "hold", life_safety = true,
  judges = "way_out", at_most = "25 ft",
  why = [[When a side lets go there are two or three seconds. A ladder, ramp or stair has to be
    near enough to reach in them, and it has to stand there before the first person goes down.
    It is the first thing that a safety inspector looks for.]],
  source = "29 CFR 1926.651(c)(2), second hand",
  caution = "The competent person on site decides who enters and how they leave.",
  fix = { lower = "way_out", by = "1 ft", to_no_less_than = "5 ft" },
  examples = {
    { "ladder at the far end", dig = { depth = "5 ft", bottom_width = "6 ft", way_out = "40 ft" },
      outcome = "flagged" },
    { "ramp close by", dig = { depth = "5 ft", bottom_width = "6 ft", way_out = "12 ft" },
      outcome = "clear" },
    { "at the limit", dig = { depth = "4 ft", bottom_width = "15 ft", way_out = "25 ft" },
      outcome = "clear" },
    { "from the pool above it",
      dig = { of = { water_level = "-4 in", depth = "44 in" }, below = "6 in",
              bottom_width = "10 ft", way_out = "30 ft" },
      site = { ground = "0 in" }, outcome = "flagged" },
  },
}

rule "egress-wide-pit" {
  title = "A wide pit 4 ft or deeper has a way out within 25 ft",
  for_each = "dig", when = { depth = { at_least = "4 ft" } },
  stage = "dig", severity = "revise", life_safety = true,
  limit = { narrow = "15 ft", walk = "25 ft" },
  check = function(dig, limit)
    return at_most(dig.bottom_width, limit.narrow) and at_most(dig.way_out, limit.walk)
  end,
  why = [[The rule for trenches stops where a pit is wider than 15 ft at the bottom, but a side
    that falls does not know that. People carrying liner or stone need a way up near by, and a
    ramp is the one they will use.]],
  source = "29 CFR 1926.651(c)(2), second hand, carried over to wide pits: common practice",
  caution = "The competent person on site decides who enters and how they leave.",
  fix = { lower = "way_out", by = "1 ft", to_no_less_than = "5 ft" },
  examples = {
    { "wide and far", dig = { depth = "5 ft", bottom_width = "20 ft", way_out = "40 ft" },
      outcome = "flagged" },
    { "wide and near", dig = { depth = "5 ft", bottom_width = "20 ft", way_out = "20 ft" },
      outcome = "clear" },
    { "at the limit", dig = { depth = "5 ft", bottom_width = "20 ft", way_out = "25 ft" },
      outcome = "clear" },
    { "narrow: egress sees to it", dig = { depth = "5 ft", bottom_width = "15 ft",
      way_out = "40 ft" },
      outcome = "clear" },
  },
}

rule "cave-in-protection" {
  title = "A pit 5 ft or deeper has its sides sloped or shored",
  for_each = "dig",
  when = { depth = { at_least = "5 ft" },
           ["site.soil"] = { one_of = { "type A", "type B", "type C" } } },
  stage = "dig", severity = "hold", life_safety = true,
  judges = "protection", is = { "sloped", "shored" },
  why = [[A cubic yard of soil weighs as much as a small car and comes down without a sound. At
    5 ft an upright side buries a kneeling person, and nobody digs him out in time. Cut the
    sides back or hold them up before anyone goes down; stable rock alone is let off.]],
  source = "29 CFR 1926.652(a)(1), second hand",
  caution = [[A competent person looks at the pit every day, after rain, and whenever something
    changes. Over 20 ft an engineer designs the protection.]],
  fix = { set = "protection", to = "sloped" },
  examples = {
    { "upright and deep", dig = { depth = "6 ft", protection = "none" }, site = { soil = "type B" },
      outcome = "flagged" },
    { "cut back", dig = { depth = "6 ft", protection = "sloped" }, site = { soil = "type B" },
      outcome = "clear" },
    { "at the limit of depth the duty holds", dig = { depth = "5 ft", protection = "none" },
      site = { soil = "type A" }, outcome = "flagged" },
    { "from the basin's own depth",
      dig = { of = { water_level = "-4 in", depth = "62 in" }, below = "6 in",
              protection = "shored" },
      site = { ground = "0 in", soil = "type C" }, outcome = "clear" },
  },
}

rule "cave-in-protection-examined" {
  title = "A pit under 5 ft was examined by a competent person, or its sides are sloped or shored",
  for_each = "dig", when = { ["site.soil"] = { one_of = { "type A", "type B", "type C" } } },
  stage = "dig", severity = "hold", life_safety = true,
  limit = { deep = "5 ft" },
  check = function(dig, limit)
    return at_least(dig.depth, limit.deep) and is(dig.examined, "yes")
      and is(dig.protection, "sloped", "shored")
  end,
  why = [[Less than 5 ft goes without protection only where someone who knows soil has looked
    and found no sign of a cave-in: no cracks back of the edge, no water, no old fill. Nobody
    looks by itself; name the person and write it down.]],
  source = "29 CFR 1926.652(a)(1)(ii), second hand",
  caution = [[Examined once is not examined after a night of rain. Look again before anyone goes
    down.]],
  fix = { advise = "Have the competent person look at the pit, then write examined = \"yes\"." },
  examples = {
    { "nobody looked", dig = { depth = "3 ft", examined = "no", protection = "none" },
      site = { soil = "type B" }, outcome = "flagged" },
    { "looked at", dig = { depth = "3 ft", examined = "yes" }, site = { soil = "type B" },
      outcome = "clear" },
    { "cut back anyway", dig = { depth = "3 ft", examined = "no", protection = "sloped" },
      site = { soil = "type C" }, outcome = "clear" },
    { "at the limit: cave-in-protection sees to it", dig = { depth = "5 ft" },
      site = { soil = "type B" }, outcome = "clear" },
  },
}

rule "cave-in-protection-soft" {
  title = "A pit of 4 ft to 5 ft in soft, wet or filled ground has its sides sloped or shored",
  for_each = "dig", when = { depth = { at_least = "4 ft" }, ["site.soil"] = "type C" },
  stage = "dig", severity = "revise", life_safety = true,
  limit = { deep = "5 ft" },
  check = function(dig, limit)
    return at_least(dig.depth, limit.deep) and is(dig.protection, "sloped", "shored")
  end,
  why = [[Sand, gravel, wet silt and old fill run as soon as they dry or soak. At 4 ft they
    already reach the chest of someone laying liner. Cutting such sides back costs a few more
    yards of haul.]],
  source = "common practice, no source; cf. 29 CFR 1926.652(a)(1), second hand",
  caution = "Soft ground can need protection at any depth: the competent person on site decides.",
  fix = { set = "protection", to = "sloped" },
  examples = {
    { "4 ft 6 in of fill", dig = { depth = "4 ft 6 in", protection = "none" },
      site = { soil = "type C" }, outcome = "flagged" },
    { "cut back", dig = { depth = "4 ft 6 in", protection = "sloped" }, site = { soil = "type C" },
      outcome = "clear" },
    { "at the limit: cave-in-protection sees to it", dig = { depth = "5 ft", protection = "none" },
      site = { soil = "type C" }, outcome = "clear" },
  },
}

rule "cave-in-protection-soft-wet" {
  title = "A pit of 4 ft to 5 ft that ground water comes into has its sides sloped or shored",
  for_each = "dig",
  when = { depth = { at_least = "4 ft" }, ["site.soil"] = { one_of = { "type A", "type B" } },
           water_in_pit = { at_least = "1 in" } },
  stage = "dig", severity = "revise", life_safety = true,
  limit = { deep = "5 ft" },
  check = function(dig, limit)
    return at_least(dig.depth, limit.deep) and is(dig.protection, "sloped", "shored")
  end,
  why = [[Clay that stood like a wall while it was dry lets go when water runs out of it. Pumping the
    pit does not dry the sides in a day. Cut them back as if it were sand.]],
  source = "common practice, no source; wet soil as type C: 29 CFR 1926 Subpart P, App. A, from memory",
  caution = "Wet ground can need protection at any depth: the competent person on site decides.",
  fix = { set = "protection", to = "sloped" },
  examples = {
    { "water on the bottom",
      dig = { depth = "4 ft 6 in", water_in_pit = "6 in", protection = "none" },
      site = { soil = "type B" }, outcome = "flagged" },
    { "cut back", dig = { depth = "4 ft 6 in", water_in_pit = "6 in", protection = "sloped" },
      site = { soil = "type A" }, outcome = "clear" },
    { "at the limit: cave-in-protection sees to it",
      dig = { depth = "5 ft", water_in_pit = "6 in", protection = "none" },
      site = { soil = "type B" }, outcome = "clear" },
    { "from the ground water", dig = { depth = "4 ft", protection = "none" },
      site = { soil = "type B", ground_water = "3 ft" }, outcome = "flagged" },
  },
}

rule "slope-too-steep" {
  title = "Sides that are cut back are as flat as the soil asks",
  for_each = "dig", when = { protection = "sloped" },
  stage = "dig", severity = "hold", life_safety = true,
  judges = "slope_to_spare", at_least = "0",
  why = [[A slope a little too steep stands all week and falls on the wet day. Firm clay wants
    3/4 ft back for each foot down, middling soil 1 ft, sand, gravel, fill and wet ground 1 1/2
    ft. Draw it true: the top of the pit may reach the fence, and better to know that now.]],
  source = "29 CFR 1926 Subpart P, App. B, Table B-1, second hand",
  caution = [[Cracked, shaken or once-dug clay is not type A. The competent person classes the
    soil, and makes it flatter where anything heavy stands near the edge.]],
  fix = { raise = "slope", by = "0.25H:1V", to_no_more_than = "2H:1V" },
  examples = {
    { "1 to 1 in sand", dig = { protection = "sloped", slope = "1H:1V" },
      site = { soil = "type C" },
      outcome = "flagged" },
    { "flat enough", dig = { protection = "sloped", slope = "1.5H:1V" },
      site = { soil = "type B", ground_water = "none" }, outcome = "clear" },
    { "at the limit", dig = { protection = "sloped", slope = "1.5H:1V" },
      site = { soil = "type C" },
      outcome = "clear" },
    { "a little short", dig = { protection = "sloped", slope = "0.9H:1V", slope_asked = "1H:1V" },
      outcome = "flagged" },
    { "wet clay counts as soft",
      dig = { protection = "sloped", slope = "1H:1V", depth = "4 ft" },
      site = { soil = "type B", ground_water = "3 ft" }, outcome = "flagged" },
    { "benches too narrow for the soil",
      dig = { protection = "sloped", slope = "upright", depth = "8 ft",
              benches = { { up = "4 ft", width = "4 ft" } } },
      site = { soil = "type B", ground_water = "none" }, outcome = "flagged" },
  },
}

rule "slope-too-steep-benches" {
  title = "Soft soil is sloped, not cut in benches",
  for_each = "dig", when = { ["site.soil"] = "type C" },
  stage = "dig", severity = "hold", life_safety = true,
  judges = "bench_count", at_most = 0,
  why = [[A bench is a small upright wall with people under it. Sand, gravel, fill and wet ground
    do not stand upright for long at any height. In such soil the sides are cut back in one
    slope or held up.]],
  source = "29 CFR 1926 Subpart P, App. B, from memory",
  caution = "The competent person on site classes the soil and decides how it is cut.",
  fix = { advise = "Take the benches out and cut one slope of 1 1/2 ft back for each foot down." },
  examples = {
    { "steps in sand", dig = { bench_count = 2 }, site = { soil = "type C" }, outcome = "flagged" },
    { "at the limit: none", dig = { slope = "1.5H:1V" }, site = { soil = "type C" },
      outcome = "clear" },
    { "steps in clay", dig = { bench_count = 2 }, site = { soil = "type B" },
      outcome = "not applicable" },
  },
}

rule "deep-dig-engineer" {
  title = "A pit deeper than 20 ft is protected as an engineer designed it",
  for_each = "dig", stage = "dig", severity = "hold", life_safety = true,
  limit = { deep = "20 ft" },
  check = function(dig, limit)
    return at_most(dig.depth, limit.deep) and is(dig.engineer, "stated")
  end,
  why = [[The tables that tell how far to cut a side back end at 20 ft. Deeper than that the soil
    is loaded by so much more soil that only somebody who works it out, and signs for it, can say
    what holds.]],
  source = "29 CFR 1926.652(b), second hand",
  caution = "A registered engineer designs it; the local authority may ask for a permit too.",
  fix = { advise = "Have an engineer design the protection, then write engineer = \"stated\"." },
  examples = {
    { "22 ft by eye", dig = { depth = "22 ft", engineer = "none" }, outcome = "flagged" },
    { "22 ft, designed", dig = { depth = "22 ft", engineer = "stated" }, outcome = "clear" },
    { "at the limit", dig = { depth = "20 ft" }, outcome = "clear" },
    { "from the pool above it", dig = { of = { water_level = "-4 in", depth = "21 ft" },
      below = "6 in", engineer = "none" }, site = { ground = "0 in" }, outcome = "flagged" },
  },
}

rule "footing-near-dig" {
  title = "The pit keeps off the ground that carries a footing",
  for_each = "dig", stage = "dig", severity = "hold", life_safety = true,
  judges = "footing_to_spare", at_least = "0 ft",
  why = [[A footing spreads its load down and out, about a foot to the side for each foot down. A
    pit that cuts into that wedge lets the soil under the house move, and a wall cracks or comes
    down into the pit. It can look fine for a week.]],
  source = "29 CFR 1926.651(i), second hand; line at 1:1: common practice",
  caution = [[Only an engineer says that a dig inside that line can be done, and how the footing
    is held meanwhile. Loads of neighbors count as well.]],
  fix = { advise = "Move the pit, make it shallower, or ask an engineer before the dig." },
  examples = {
    { "close to the house", dig = { depth = "5 ft", slope = "upright" },
      site = { soil = "type B", ground_water = "none", footing_distance = "3 ft", footing_depth = "1 ft" },
      outcome = "flagged" },
    { "far off", dig = { depth = "5 ft", slope = "upright" },
      site = { soil = "type B", ground_water = "none", footing_distance = "10 ft", footing_depth = "1 ft" },
      outcome = "clear" },
    { "at the limit", dig = { depth = "5 ft", slope = "upright" },
      site = { soil = "type B", ground_water = "none", footing_distance = "4 ft", footing_depth = "1 ft" },
      outcome = "clear" },
    { "soft soil carries flatter", dig = { depth = "5 ft", slope = "upright" },
      site = { soil = "type C", footing_distance = "4 ft", footing_depth = "1 ft" },
      outcome = "flagged" },
    { "no footing near", dig = { depth = "5 ft" }, site = { footing_distance = "none" },
      outcome = "clear" },
  },
}

rule "water-in-dig" {
  title = "Ground water in the pit is pumped faster than it comes",
  for_each = "dig", when = { water_in_pit = { at_least = "1 in" } },
  stage = "dig", severity = "hold", life_safety = true,
  judges = "sump_share", at_least = { hold = "1", revise = "1.5" },
  why = [[Water running out of a side takes the fines with it, and then the side comes. Nobody
    works in a pit that fills. What comes in is known to a power of ten at best, so the pump has
    half as much again, and somebody watches the first day.]],
  source = "29 CFR 1926.651(h)(1), second hand; half as much again: common practice",
  caution = [[The competent person watches the pumping, and looks at the pit again after rain. Where
    water goes is a matter for the local authority.]],
  fix = { raise = "sump_flow", by = "5 gal/min", to_no_more_than = "100 gal/min" },
  examples = {
    { "no pump", dig = { water_in_pit = "1 ft", inflow = "3 gal/min", sump_flow = "0 gal/min" },
      outcome = "flagged" },
    { "a pump that just keeps up",
      dig = { water_in_pit = "1 ft", inflow = "3 gal/min", sump_flow = "4 gal/min" },
      outcome = "flagged" },
    { "a pump to spare",
      dig = { water_in_pit = "1 ft", inflow = "3 gal/min", sump_flow = "10 gal/min" },
      outcome = "clear" },
    { "at the limit",
      dig = { water_in_pit = "1 ft", inflow = "3 gal/min", sump_flow = "4.5 gal/min" },
      outcome = "clear" },
    { "dry ground", dig = { depth = "5 ft" }, site = { ground_water = "none" },
      outcome = "not applicable" },
  },
}

rule "roots-cut" {
  title = "The pit leaves the roots of a tree that stays",
  for_each = "tree", stage = "dig", severity = "advise",
  judges = "root_share", at_most = { revise = "25 %", advise = "10 %" },
  why = [[A tree lives on the roots in a circle of about a foot for each inch of trunk. It gets over
    a tenth of them; a quarter gone, it dies back over three years, or goes over in a wind toward
    the side where nothing holds it any more. Then it is your pit that did it.]],
  source = "tree ordinances of cities, second hand",
  caution = "More than a tenth: ask a tree specialist, and the authority where trees are protected.",
  fix = { advise = "Move the pit or make it smaller on that side, and ask a tree specialist." },
  examples = {
    { "half way in", tree = { trunk = "12 in", distance = "2 ft" }, outcome = "flagged" },
    { "a fifth", tree = { trunk = "12 in", distance = "6 ft" }, outcome = "flagged" },
    { "well off", tree = { trunk = "12 in", distance = "11 ft" }, outcome = "clear" },
    { "at the limit", tree = { root_share = "10 %" }, outcome = "clear" },
  },
}

rule "spoil-at-edge" {
  title = "The pile of soil keeps 2 ft from the edge",
  for_each = "dig", stage = "dig", severity = "hold", life_safety = true,
  judges = "spoil_setback", at_least = "2 ft",
  why = [[Soil heaped on the edge pushes the side in and rolls back onto people. Two feet of
    clear ground, measured to the toe of the pile and not to its top, is the least. It also
    leaves somewhere to walk.]],
  source = "29 CFR 1926.651(j)(2), second hand",
  caution = [[In soft ground, or with machines about, two feet is not enough: the competent
    person decides.]],
  fix = { raise = "spoil_setback", by = "6 in", to_no_more_than = "6 ft" },
  examples = {
    { "heaped on the edge", dig = { spoil_setback = "6 in" }, outcome = "flagged" },
    { "well back", dig = { spoil_setback = "4 ft" }, outcome = "clear" },
    { "at the limit", dig = { spoil_setback = "2 ft" }, outcome = "clear" },
  },
}

rule "test-hole-missing" {
  title = "A test hole went a foot deeper than the dig",
  for_each = "dig", stage = "dig", severity = "revise",
  judges = "test_hole_past", at_least = "12 in",
  why = [[Under the lawn there may be water, rock, or the rubble of an old patio. One hole with
    a post digger shows it for an hour's work. Found by the excavator it stops the job, with a
    machine on rent.]],
  source = "common practice, no source",
  caution = "Locate lines before digging the test hole too.",
  fix = { advise = "Dig the hole on down to a foot below the pit, and write what it found." },
  examples = {
    { "too shallow", dig = { depth = "4 ft" }, site = { test_hole = "4 ft" }, outcome = "flagged" },
    { "deep enough", dig = { depth = "3 ft" }, site = { test_hole = "5 ft" }, outcome = "clear" },
    { "at the limit", dig = { test_hole_past = "12 in" }, outcome = "clear" },
  },
}

rule "test-hole-missing-debris" {
  title = "What the test hole found is dealt with",
  for_each = "site", stage = "dig", severity = "revise",
  judges = "debris", is = { "none", "dealt with" },
  why = [[Buried rubble, stumps and loose fill settle for years and cut liner from below. Take
    them out and fill back in thin layers, or build around them, while the price can still be
    talked about.]],
  source = "common practice, no source",
  fix = { advise = "Price the digging out and backfilling with the owner before the start." },
  examples = {
    { "old patio below", site = { debris = "found" }, outcome = "flagged" },
    { "taken out", site = { debris = "dealt with" }, outcome = "clear" },
    { "clean hole", site = { debris = "none" }, outcome = "clear" },
  },
}

rule "dig-left-open" {
  title = "A pit that children can get to is fenced off at night and looked at every day",
  for_each = "project",
  when = { nights_open = { at_least = "1" }, pits_in_reach = { at_least = "1" } },
  stage = "dig", severity = "hold", life_safety = true,
  check = function(project)
    return must(project.pit_watch ~= "none",
      "a barrier and a daily look at the open pit must be stated")
  end,
  why = [[Children come to see the hole, and neighbors' dogs. Rain loosens the sides while
    nobody is there. A fence round the pit each evening and a look each morning before anyone
    goes down are the least that is owed.]],
  source = "29 CFR 1926.651(k)(1), from memory; barrier: common practice",
  caution = [[The competent person looks before the first shift, after rain, and when anything
    changes.]],
  fix = { advise = "Write the barrier and who looks at the pit, and when, in pit_watch." },
  examples = {
    { "left as it is", project = { nights_open = "2", pits_in_reach = 1, pit_watch = "none" },
      outcome = "flagged" },
    { "at the limit of one night",
      project = { nights_open = "1", pits_in_reach = 1, pit_watch = "none" }, outcome = "flagged" },
    { "fenced", project = { nights_open = "2", pits_in_reach = 1,
      pit_watch = "mesh fence, lead looks at 7 am" }, outcome = "clear" },
  },
}

rule "dig-left-open-shut-in" {
  title = "A pit that stays open over night is fenced off and looked at every day",
  for_each = "project",
  when = { nights_open = { at_least = "1" }, pits_in_reach = { at_most = "0" } },
  stage = "dig", severity = "revise", life_safety = true,
  check = function(project)
    return must(project.pit_watch ~= "none",
      "a barrier and a daily look at the open pit must be stated")
  end,
  why = [[A garden with a gate keeps most people out, not the meter reader and not the dog. The
    sides change in one wet night. Whoever goes down first in the morning wants somebody to have
    looked before.]],
  source = "29 CFR 1926.651(k)(1), from memory; barrier: common practice",
  caution = [[The competent person looks before the first shift, after rain, and when anything
    changes.]],
  fix = { advise = "Write the barrier and who looks at the pit, and when, in pit_watch." },
  examples = {
    { "left as it is", project = { nights_open = "2", pits_in_reach = 0, pit_watch = "none" },
      outcome = "flagged" },
    { "at the limit of one night",
      project = { nights_open = "1", pits_in_reach = 0, pit_watch = "none" }, outcome = "flagged" },
    { "fenced", project = { nights_open = "2", pits_in_reach = 0, pit_watch = "fence, 7 am" },
      outcome = "clear" },
    { "children: dig-left-open sees to it",
      project = { nights_open = "2", pits_in_reach = 2, pit_watch = "none" },
      outcome = "not applicable" },
  },
}

rule "haul-plan" {
  title = "One truck hauls the soil in the days planned",
  for_each = "project", stage = "dig", severity = "advise",
  judges = "haul_days_over", at_most = "0 day",
  why = [[Dug soil takes a quarter more room than it did in the ground, and a truck is full by
    weight before it looks full. A machine that waits for the truck is paid for all the same.
    Order a second truck or plan another day now.]],
  source = "common practice, no source",
  fix = { raise = "dig_days", by = "1", to_no_more_than = "20" },
  examples = {
    { "two days short", project = { haul_days = "4 day", dig_days = "2" }, outcome = "flagged" },
    { "a day to spare", project = { haul_days_over = "-1 day" }, outcome = "clear" },
    { "at the limit", project = { haul_days_over = "0 day" }, outcome = "clear" },
  },
}

rule "dig-described" {
  title = "The dig for each basin in the ground is described",
  for_each = "basin", when = { ground_depth = { at_least = "12 in" } },
  stage = "dig", severity = "hold", life_safety = true,
  judges = "dig_count", at_least = "1",
  why = [[A pit that nobody drew is a pit that nobody checked: no way out, no slope, no place for
    the pile. What is left out of the design cannot be found wrong, so it counts against the
    dig.]],
  source = "common practice, no source",
  caution = "The competent person on site looks at every pit, drawn or not.",
  fix = { advise = "Write a dig with `of`, `slope`, `protection`, `examined`, `way_out`." },
  examples = {
    { "a pool without a dig", basin = { water_level = "-4 in", depth = "3 ft" },
      site = { ground = "0 in" }, outcome = "flagged" },
    { "described", basin = { ground_depth = "3 ft", digs = { {} } }, outcome = "clear" },
    { "at the limit", basin = { ground_depth = "12 in", dig_count = 1 }, outcome = "clear" },
    { "a raised bowl", basin = { water_level = "30 in", depth = "1 ft" },
      site = { ground = "0 in" }, outcome = "not applicable" },
  },
}
