-- SPDX-License-Identifier: MIT
-- In here: what must be settled before anyone digs: lines in the ground, people, access, permits.
-- Changes of your own go into rules/house, not in here: the next version replaces this file.
-- To try it: `forebay rule-test` runs the examples under each rule.
-- Units: every number is text with its unit ("18 in", "450 mm", "1.5 ft/s").

rule "utilities-not-located" {
  title = "Public lines under the ground are located before the dig",
  for_each = "site", stage = "layout", severity = "hold", life_safety = true,
  judges = "utilities", is = "located",
  why = [[A bucket that finds a gas or power line finds it once. The one-call service marks the
    public lines free of charge and needs a few days' notice. A hit costs a crew member first,
    then the repair bill and the rest of the week.]],
  source = "29 CFR 1926.651(b), seen in a reposted copy; one-call law of the state",
  caution = [[Marks show where to begin, not where a line lies. Near a mark dig by hand, and
    follow the one-call law where the job is.]],
  fix = { advise = [[Call the one-call service, wait out its notice, then write utilities =
    "located".]] },
  examples = {
    { "nobody called", site = { utilities = "not located" }, outcome = "flagged" },
    { "marks on the ground", site = { utilities = "located" }, outcome = "clear" },
  },
}

rule "private-lines" {
  title = "The owner's own lines under the ground are known",
  for_each = "site", stage = "layout", severity = "hold", life_safety = true,
  judges = "private_lines", is = { "located", "none" },
  why = [[The one-call service stops at the meter. Irrigation, a gas line to the grill, the
    septic tank, drains and low-voltage cable are the owner's, and nobody marks them for you.
    Ask, look for valve boxes and cleanouts, and trace what is found before the machine comes.]],
  source = "common practice, no source",
  caution = "A line nobody knows of can be live. If the owner is not sure, have it traced.",
  fix = { advise = "Walk the yard with the owner, have lines traced, then write what was found." },
  examples = {
    { "nobody asked", site = { private_lines = "unknown" }, outcome = "flagged" },
    { "traced and flagged out", site = { private_lines = "located" }, outcome = "clear" },
    { "the owner has none", site = { private_lines = "none" }, outcome = "clear" },
  },
}

rule "barrier-needed" {
  title = [[Water deeper than the local code's figure has a barrier where children or the public
    come]],
  for_each = "basin", when = { reach = { one_of = { "children", "public" } } },
  stage = "layout", severity = "hold", life_safety = true,
  limit = { most = "0 in" },
  check = function(basin, limit)
    return at_most(basin.barrier_excess, limit.most) and is(basin.barrier, "stated")
  end,
  why = [[A small child drowns silently, in less water than most people think. Most towns name a
    depth from which a fence or its like is the law, and an inspector who finds none can close
    the job. A barrier drawn now is part of the design; one added later is a fence across the
    view.]],
  source = "local code; model codes name 24 in, many towns less (18 in is prudent), second hand",
  caution = [[The local code and the building department say what counts as a barrier. A barrier
    never takes the place of someone watching.]],
  fix = { advise = [[Ask the building department, then draw the barrier or make the water
    shallower.]] },
  examples = {
    { "deep and open", basin = { reach = "children", depth = "30 in", barrier = "none" },
      site = { barrier_depth = "18 in" }, outcome = "flagged" },
    { "over the figure, fenced", basin = { reach = "public", barrier_excess = "6 in",
      barrier = "stated" },
      outcome = "clear" },
    { "at the limit", basin = { reach = "children", barrier_excess = "0 in", barrier = "none" },
      outcome = "clear" },
    { "an inch over", basin = { reach = "children", barrier_excess = "1 in", barrier = "none" },
      outcome = "flagged" },
  },
}

rule "child-reach" {
  title = "Water that children get to is very shallow",
  for_each = "basin",
  when = { reach = { one_of = { "children", "public" } }, foothold_depth = { at_most = "18 in" },
    purpose = { one_of = { "plunge", "fish", "display" } } },
  stage = "layout", severity = "advise",
  judges = "depth", at_most = "2 in",
  why = [[A toddler who falls face down cannot always get up again, even in a few inches. Where
    the owner has small children, a grid just under the surface or a bed of cobbles up to the
    water line takes most of the risk away and little of the look.]],
  source = "common practice, no source",
  caution = "No depth of water is free of risk for a small child. Nothing replaces watching.",
  fix = { advise = "Fill up with cobbles, fit a grid under the surface, or agree with the owner." },
  examples = {
    { "a foot of water", basin = { purpose = "display", reach = "children", depth = "12 in",
      foothold_depth = "12 in" },
      outcome = "flagged" },
    { "a film over cobbles", basin = { purpose = "display", reach = "public", depth = "1 in",
      foothold_depth = "1 in" },
      outcome = "clear" },
    { "at the limit", basin = { purpose = "display", reach = "children", depth = "2 in",
      foothold_depth = "2 in" },
      outcome = "clear" },
    { "a shelf of 12 in in a deep pool",
      basin = { purpose = "display", reach = "children", depth = "30 in", shelves = { { depth = "12 in",
      width = "14 in" } } },
      outcome = "flagged" },
  },
}

rule "child-reach-deep" {
  title = "Deep water that children get to has a shelf near the surface",
  for_each = "basin",
  when = { reach = { one_of = { "children", "public" } }, foothold_depth = { at_least = "18 in" } },
  stage = "layout", severity = "revise",
  judges = "foothold_depth", at_most = "18 in",
  why = [[A child who goes over the edge of an upright side finds nothing to stand on and
    nothing to hold. A shelf all round, or a grid under the surface, gives the seconds that
    someone needs to get there. It costs an hour of digging now and a rebuilt basin later.]],
  source = "common practice, no source",
  caution = [[A shelf helps; it makes no water safe for a child alone. Local barrier codes come
    first.]],
  fix = { advise = "Draw a shelf no deeper than 18 in, or a grid under the surface." },
  examples = {
    { "upright sides", basin = { reach = "children", foothold_depth = "30 in" },
      outcome = "flagged" },
    { "no shelf drawn", basin = { reach = "public", depth = "24 in", shelves = {} },
      outcome = "flagged" },
    { "at the limit", basin = { reach = "children", foothold_depth = "18 in" }, outcome = "clear" },
  },
}

rule "way-out-of-water" {
  title = "People who get into deep water find a firm foothold to climb out on",
  for_each = "basin", when = { entered = "yes", depth = { at_least = "24 in" } },
  stage = "layout", severity = "hold", life_safety = true,
  judges = "foothold_depth", at_most = "12 in",
  why = [[Cold or tired people cannot lift themselves over a slick edge. A step within a foot of
    the surface, firm under a grown person, lets them walk out. Without one a plunge pool is a
    trap on its first cold morning.]],
  source = "from memory",
  caution = [[Where people bathe, the rules for pools may apply: ask the building and health
    departments before the design is settled.]],
  fix = { advise = "Draw a step or shelf no deeper than 12 in that carries a person." },
  examples = {
    { "no step", basin = { entered = "yes", depth = "48 in", foothold_depth = "48 in" },
      outcome = "flagged" },
    { "one step at 10 in",
      basin = { entered = "yes", depth = "48 in",
                shelves = { { depth = "10 in", width = "14 in" } } },
      outcome = "clear" },
    { "at the limit", basin = { entered = "yes", depth = "48 in", foothold_depth = "12 in" },
      outcome = "clear" },
  },
}

rule "way-out-of-water-fall" {
  title = "Whoever falls into deep water finds a firm foothold to climb out on",
  for_each = "basin",
  when = { entered = "no", depth = { at_least = "24 in" },
           reach = { one_of = { "adults", "children", "public" } } },
  stage = "layout", severity = "revise", life_safety = true,
  judges = "foothold_depth", at_most = "12 in",
  why = [[Someone will step back too far with a camera. Wet stone, winter clothes and an upright
    side make a deep basin hard to leave alone. One firm shelf within a foot of the surface is
    the way out, and it holds plants the rest of the time.]],
  source = "from memory",
  caution = "Cold water takes the strength out of people in minutes. Local codes come first.",
  fix = { advise = "Draw a shelf no deeper than 12 in on the side where people walk." },
  examples = {
    { "upright all round", basin = { entered = "no", reach = "adults", depth = "36 in",
      foothold_depth = "36 in" },
      outcome = "flagged" },
    { "a shelf at 9 in",
      basin = { entered = "no", reach = "public", depth = "36 in",
                shelves = { { depth = "9 in", width = "12 in" } } }, outcome = "clear" },
    { "at the limit", basin = { entered = "no", reach = "children", depth = "24 in",
      foothold_depth = "12 in" },
      outcome = "clear" },
  },
}

rule "entrapment" {
  title = "A suction opening that people can reach cannot hold a hand, hair or body",
  for_each = "intake",
  when = { ["basin.entered"] = "no",
           ["basin.reach"] = { one_of = { "adults", "children", "public" } } },
  stage = "layout", severity = "hold", life_safety = true,
  check = function(intake)
    local bare = is(intake.cover, "guarded", "unblockable")
    return bare and at_least(intake.openings, 2) and bare
  end,
  why = [[A pump that pulls through one bare opening can hold an arm or long hair to it until
    someone finds the switch. A proper cover, an opening too large to block, or a second one
    that keeps drawing takes the grip away. It costs a grate.]],
  source = "ANSI/APSP/ICC-16 for pools, from memory; prudent elsewhere",
  caution = [[Where people bathe, the pool code and its tested covers apply. Switch the pump off
    before anybody reaches toward an intake.]],
  fix = { set = "cover", to = "guarded" },
  examples = {
    { "one bare pipe end", intake = { cover = "plain", openings = "1",
      basin = { entered = "no", reach = "children" } }, outcome = "flagged" },
    { "one guarded opening", intake = { cover = "guarded", openings = "1",
      basin = { entered = "no", reach = "children" } }, outcome = "clear" },
    { "at the limit: two bare openings", intake = { cover = "plain", openings = "2",
      basin = { entered = "no", reach = "public" } }, outcome = "clear" },
  },
}

rule "entrapment-entered" {
  title = "Where people get in, a covered suction opening has a second safeguard",
  for_each = "intake", when = { ["basin.entered"] = "yes" },
  stage = "layout", severity = "hold", life_safety = true,
  check = function(intake)
    return is(intake.cover, "guarded", "unblockable")
      or (is(intake.cover, "unblockable") and is(intake.second_safeguard, "fitted"))
  end,
  why = [[Covers crack and get lost. With a bather in the water one opening must never be the
    only one that the pump can pull on. A second, at least 3 ft from the first, a vent, a
    gravity tank or a vacuum release lets go when a body lies over it.]],
  source = "ANSI/APSP/ICC-16 and -7 for pools, from memory",
  caution = [[This is pool work: licensed practice and the local health and building codes
    decide, and they may ask for more than this.]],
  fix = { advise = [[Draw a second covered opening at least 3 ft from the first, another
    safeguard, or an unblockable opening, and write second_safeguard = "fitted".]] },
  examples = {
    { "one guarded drain", intake = { cover = "guarded", second_safeguard = "none",
      basin = { entered = "yes" } },
      outcome = "flagged" },
    { "two bare drains", intake = { cover = "plain", second_safeguard = "fitted",
      basin = { entered = "yes" } },
      outcome = "flagged" },
    { "at the limit: guarded, with a vent",
      intake = { cover = "guarded", second_safeguard = "fitted", basin = { entered = "yes" } },
      outcome = "clear" },
    { "two drains side by side, nothing said",
      intake = { cover = "guarded", openings = "2", basin = { entered = "yes" } },
      outcome = "unanswered" },
    { "one unblockable", intake = { cover = "unblockable", basin = { entered = "yes" } },
      outcome = "clear" },
  },
}

rule "intake-face-speed" {
  title = "Water goes slowly into an intake where people are in the water",
  for_each = "intake", when = { ["basin.entered"] = "yes" },
  stage = "layout", severity = "hold", life_safety = true,
  judges = "face_speed", at_most = "1.5 ft/s",
  why = [[The pull at a grate grows with the square of the speed through it. Slow water lets go
    of a hand; fast water keeps it. More open area is cheap while it is still a drawing.]],
  source = "Nevada Administrative Code 444.158(3), second hand",
  caution = "Where people bathe, the pool code and its tested covers decide.",
  fix = { raise = "open_area", by = "0.1 ft2", to_no_more_than = "20 ft2" },
  examples = {
    { "a small grate", intake = { face_speed = "2 ft/s", basin = { entered = "yes" } },
      outcome = "flagged" },
    { "from flow and area", intake = { flow = "2,000 gal/h", open_area = "1 ft2",
      basin = { entered = "yes" } }, outcome = "clear" },
    { "at the limit", intake = { face_speed = "1.5 ft/s", basin = { entered = "yes" } },
      outcome = "clear" },
  },
}

rule "intake-face-speed-blocked" {
  title = "Water goes slowly into an intake where people are in the water, one opening covered",
  for_each = "intake", when = { ["basin.entered"] = "yes", openings = { at_least = "2" } },
  stage = "layout", severity = "hold", life_safety = true,
  judges = "face_speed_blocked", at_most = "1.5 ft/s",
  why = [[A second opening protects only while the first can be let go of. When a body covers
    one, all the water goes through the others, and they must still be slow enough not to hold
    the next hand.]],
  source = "Nevada Administrative Code 444.158(3), second hand; one opening covered: common practice",
  caution = "Where people bathe, the pool code and its tested covers decide.",
  fix = { raise = "open_area", by = "0.1 ft2", to_no_more_than = "20 ft2" },
  examples = {
    { "one of two covered", intake = { openings = 2, face_speed = "1 ft/s",
      basin = { entered = "yes" } }, outcome = "flagged" },
    { "one of four covered", intake = { openings = 4, face_speed = "0.5 ft/s",
      basin = { entered = "yes" } }, outcome = "clear" },
    { "at the limit", intake = { openings = 2, face_speed_blocked = "1.5 ft/s",
      basin = { entered = "yes" } }, outcome = "clear" },
  },
}

rule "intake-face-speed-fish" {
  title = "Water goes slowly enough into an intake for fish to swim away",
  for_each = "intake", when = { ["basin.entered"] = "no", ["basin.purpose"] = "fish" },
  stage = "layout", severity = "revise",
  judges = "face_speed", at_most = "0.5 ft/s",
  why = [[Young and weak fish end up flat against a fast grate, and by morning they block it and
    the pump runs dry. A larger face costs little and takes leaves better too.]],
  source = "common practice, no source",
  fix = { raise = "open_area", by = "0.1 ft2", to_no_more_than = "20 ft2" },
  examples = {
    { "fast grate", intake = { face_speed = "0.8 ft/s", basin = { entered = "no",
      purpose = "fish" } },
      outcome = "flagged" },
    { "from flow and area", intake = { flow = "2,000 gal/h", open_area = "1 ft2",
      basin = { entered = "no", purpose = "fish" } }, outcome = "clear" },
    { "at the limit", intake = { face_speed = "0.5 ft/s", basin = { entered = "no",
      purpose = "fish" } },
      outcome = "clear" },
  },
}

rule "untreated-water" {
  title = "Water that people get into is treated",
  for_each = "basin", when = { depth = { at_least = "18 in" }, entered = "yes" },
  stage = "layout", severity = "hold",
  judges = "treatment", is = "stated",
  why = [[Water that goes round and round collects what people and birds leave in it. A plunge
    pool without treatment makes someone ill in its first warm month. Treatment needs room,
    power and pipe, so it belongs on the drawing.]],
  source = "local health code",
  caution = [[The health department says what treatment counts where people bathe. Ask before
    the dig.]],
  fix = { advise = "Draw the treatment and its place, and have the health department agree." },
  examples = {
    { "none drawn", basin = { depth = "4 ft", entered = "yes", treatment = "none" }, outcome = "flagged" },
    { "on the drawing", basin = { depth = "4 ft", entered = "yes", treatment = "stated" }, outcome = "clear" },
    { "at the limit", basin = { depth = "18 in", entered = "yes", treatment = "stated" },
      outcome = "clear" },
    { "too shallow to bathe in", basin = { depth = "12 in" }, outcome = "not applicable" },
  },
}

rule "benchmark-missing" {
  title = "Heights start from a fixed point and close",
  for_each = "project", stage = "layout", severity = "revise",
  limit = { most = "1/8 in" },
  check = function(project, limit)
    return must(project.fixed_point ~= "none", "the point that heights start from must be named")
      or at_most(project.closing_error, limit.most)
  end,
  why = [[Every lip and rim hangs on the levels. A stake that a track runs over takes the whole
    job's heights with it. Start from something that will still be there in a month, carry the
    levels round and back, and know what they miss by: a sheet of water shows an eighth of an
    inch.]],
  source = "common practice, no source",
  fix = { advise = "Mark a point on something that stays, carry the levels round and back again." },
  examples = {
    { "levels do not close", project = { fixed_point = "nail in the post",
      closing_error = "1/4 in" },
      outcome = "flagged" },
    { "no point", project = { fixed_point = "none", closing_error = "0 in" }, outcome = "flagged" },
    { "closed well", project = { fixed_point = "nail in the post", closing_error = "1/16 in" },
      outcome = "clear" },
    { "at the limit", project = { fixed_point = "nail in the post", closing_error = "1/8 in" },
      outcome = "clear" },
  },
}

rule "gate-too-narrow" {
  title = "Machines and stones go through the gate with 6 in to spare on each side",
  for_each = { "machine", "boulder" }, stage = "layout", severity = "hold",
  judges = "gate_to_spare", at_least = "12 in",
  why = [[A machine needs a hand's breadth beside each track, and a stone led through end on still
    needs the diagonal of its end. Found out on the day, a narrow gate means a crane over the
    house, or the fence and the planting gone. Measure between the posts, hinges included.]],
  source = "common practice, no source",
  caution = "Nobody walks between a hanging stone and a gate post.",
  fix = { advise = "Another way in, a smaller machine or stone, or take the gate post out." },
  examples = {
    { "too wide", machine = { width = "5 ft 8 in" }, site = { gate_width = "6 ft" },
      outcome = "flagged" },
    { "a stone that passes", boulder = { length = "4 ft", width = "3 ft", height = "2 ft" },
      site = { gate_width = "6 ft" }, outcome = "clear" },
    { "at the limit", machine = { width = "5 ft" }, site = { gate_width = "6 ft" },
      outcome = "clear" },
    { "no fence", boulder = { length = "4 ft", width = "3 ft", height = "2 ft" }, site = { gate_width = "open" },
      outcome = "clear" },
  },
}

rule "stone-turns-in-gate" {
  title = "A stone that turns on the hook still passes the gate",
  for_each = "boulder", stage = "layout", severity = "advise",
  judges = "gate_to_spare_turning", at_least = "0 in",
  why = [[A stone on one sling turns as the machine creeps. Where its longest diagonal is wider
    than the gate, it has to be led through end on with a tag line, slowly, by people who know
    that dance. Plan for it, or sling it so that it cannot turn.]],
  source = "common practice, no source",
  caution = "Nobody walks between a hanging stone and a gate post; tag lines are held from afar.",
  fix = { advise = "Lead it end on with tag lines, carry it on forks, or choose a shorter stone." },
  examples = {
    { "too long to turn", boulder = { length = "6 ft", width = "3 ft", height = "2 ft" },
      site = { gate_width = "6 ft" }, outcome = "flagged" },
    { "short", boulder = { gate_to_spare_turning = "10 in" }, outcome = "clear" },
    { "at the limit", boulder = { gate_to_spare_turning = "0 in" }, outcome = "clear" },
  },
}

rule "gate-too-low" {
  title = "A machine goes under the beam of the gate",
  for_each = "machine", stage = "layout", severity = "hold",
  judges = "height_to_spare", at_least = "3 in",
  why = [[A pergola beam or a wire over the gate is easy to forget while one measures the width.
    The machine rides up on its tracks where the ground humps, so a bare fit is no fit. Folding
    a cab or a canopy down costs a day at the dealer.]],
  source = "common practice, no source",
  caution = "A power line is no gate beam: keep the distance that the rules for power lines ask.",
  fix = { advise = "Another way in, a lower machine, or take the beam down." },
  examples = {
    { "hits the beam", machine = { height = "8 ft" }, site = { gate_height = "7 ft" },
      outcome = "flagged" },
    { "nothing overhead", machine = { height = "8 ft" }, site = { gate_height = "open" },
      outcome = "clear" },
    { "at the limit", machine = { height = "8 ft" }, site = { gate_height = "8 ft 3 in" },
      outcome = "clear" },
  },
}

rule "fill-backflow" {
  title = "Basin water cannot be drawn back into the drinking water",
  for_each = "basin", when = { purpose = { one_of = { "plunge", "fish", "display" } } },
  stage = "layout", severity = "hold", life_safety = true,
  limit = { bores = 2, gap = "1 in" },
  check = function(basin, limit)
    local short = at_least(basin.fill_gap_bores, limit.bores) or at_least(basin.fill_gap, limit.gap)
    return short and is(basin.fill_device, "fitted") and short
  end,
  why = [[When a main breaks down the street, the pressure turns round and a drowned fill line
    sucks the basin into the house. Air between the outlet and the rim stops that for nothing;
    so does a listed device that gets tested. The plumbing inspector looks for one or the other.
    Bowls and hollows are left out: they fill from the basin below.]],
  source = "plumbing codes: air gap of twice the bore, at least 1 in, from memory",
  caution = "Work on drinking water is for a licensed plumber. The local plumbing code decides.",
  fix = { raise = "fill_gap", by = "1/2 in", to_no_more_than = "6 in" },
  examples = {
    { "gap too small", basin = { purpose = "display", fill_gap = "1 in", fill_bore = "3/4 in",
      fill_device = "none" }, outcome = "flagged" },
    { "drowned, with a device", basin = { purpose = "fish", fill_gap = "0 in", fill_bore = "3/4 in",
      fill_device = "fitted" }, outcome = "clear" },
    { "at the limit", basin = { purpose = "display", fill_gap = "1 1/2 in", fill_bore = "3/4 in" },
      outcome = "clear" },
    { "thin bore, under an inch", basin = { purpose = "display", fill_gap = "3/4 in",
      fill_bore = "3/8 in", fill_device = "none" }, outcome = "flagged" },
  },
}

rule "overflow-goes-where" {
  title = "The overflow does not run toward a building",
  for_each = "basin", when = { purpose = { one_of = { "plunge", "fish", "display" } } },
  stage = "layout", severity = "hold",
  judges = "overflow_to", is = { "drain", "lined ring", "open ground" },
  why = [[A storm or a stuck fill valve sends water over the lowest edge for hours, at night.
    Toward a building it ends in the basement, and the owner remembers who built the pond.
    Choose the low edge now and lead it somewhere.]],
  source = "common practice, no source",
  fix = { set = "overflow_to", to = "drain" },
  examples = {
    { "toward the house", basin = { purpose = "display", overflow_to = "building" },
      outcome = "flagged" },
    { "to a drain", basin = { purpose = "fish", overflow_to = "drain" }, outcome = "clear" },
  },
}

rule "overflow-goes-where-unlined" {
  title = "The overflow has a lined way to a drain or back",
  for_each = "basin",
  when = { purpose = { one_of = { "plunge", "fish", "display" } },
           overflow_to = { one_of = { "drain", "lined ring", "open ground" } } },
  stage = "layout", severity = "revise",
  judges = "overflow_to", is = { "drain", "lined ring" },
  why = [[Water that leaves over bare ground takes soil with it, from right under the edge
    stones. After two storms the rim is low there and the basin loses water every windy day. A
    pipe or a lined gravel ring costs one morning.]],
  source = "common practice, no source",
  fix = { set = "overflow_to", to = "drain" },
  examples = {
    { "onto the lawn", basin = { purpose = "display", overflow_to = "open ground" },
      outcome = "flagged" },
    { "into the ring", basin = { purpose = "display", overflow_to = "lined ring" },
      outcome = "clear" },
  },
}

rule "permit-likely" {
  title = "The authority was asked which permits the job needs",
  for_each = "project", stage = "layout", severity = "advise",
  judges = "permit", is = "asked",
  why = [[Depth of water, a wall, a new circuit, a fence, a tree or a discharge to the street
    can each need a permit, and every town draws its own line. A stop order with an open pit
    costs more than any permit.]],
  source = "common practice, no source",
  caution = "What needs a permit is for the local authority to say, not for this program.",
  fix = { advise = [[Ask the building department with the drawing in hand, then write permit =
    "asked".]] },
  examples = {
    { "nobody asked", project = { permit = "not asked" }, outcome = "flagged" },
    { "asked", project = { permit = "asked" }, outcome = "clear" },
  },
}
