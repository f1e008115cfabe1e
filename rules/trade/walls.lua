-- SPDX-License-Identifier: MIT
-- In here: walls, their base and drain, cap stones, edges one can fall from.
-- Changes of your own go into rules/house, not in here: the next version replaces this file.
-- To try it: `forebay rule-test` runs the examples under each rule.
-- Units: every number is text with its unit ("4 ft", "6 in"); factors bare ("1.5").

rule "wall-drain" {
  title = "Water can get out from behind a wall",
  for_each = "wall", stage = "finish", severity = "revise",
  judges = "drain", is = "fitted",
  why = [[Water that stands behind a wall pushes more than the soil does, and a feature leaks
    and splashes for years. A drain in clean gravel, or weeps in the lowest course, costs a day.
    Rebuilding the wall costs the season's profit.]],
  source = "common practice, no source",
  fix = { set = "drain", to = "fitted" },
  examples = {
    { "none", wall = { drain = "none" }, outcome = "flagged" },
    { "drained", wall = { drain = "fitted" }, outcome = "clear" },
  },
}

rule "coping-tips" {
  title = "A cap stone does not tip when someone stands on its edge",
  for_each = "coping", stage = "finish", severity = "hold", life_safety = true,
  judges = "tip_factor", at_least = { hold = "1", revise = "2" },
  why = [[People sit and stand on the edge over the water, out where the stone hangs free. Its
    own weight behind the support has to hold 300 lb there. Glue is not counted: frost and wet
    take it in a few winters, and then the stone comes down with the guest.]],
  source = "statics; 300 lb and a factor of 2: common practice, no source",
  caution = "Where a cap is anchored instead, the anchor wants a design and a pull test.",
  fix = { lower = "overhang", by = "1/4 in", to_no_less_than = "1/2 in" },
  examples = {
    { "thin cap, long overhang", coping = { length = "36 in", depth = "14 in", thickness = "2 in",
      overhang = "3 in", stone = "granite" }, outcome = "flagged" },
    { "holds, but only just", coping = { tip_factor = "1.2" }, outcome = "flagged" },
    { "thick cap, short overhang", coping = { length = "48 in", depth = "18 in", thickness = "4 in",
      overhang = "1 in", stone = "granite" }, outcome = "clear" },
    { "at the limit", coping = { tip_factor = "2" }, outcome = "clear" },
  },
}

rule "coping-anchor-untested" {
  title = "The anchors of a cap stone are designed and pulled",
  for_each = "coping", when = { anchored = "yes" },
  stage = "finish", severity = "hold", life_safety = true,
  judges = "pull_test", is = "stated",
  why = [[An anchor that nobody pulled is a guess in a drill hole. In soft stone, near an edge or
    in wet mortar it comes out with the first person who stands on the overhang. The rule on
    tipping counts the stone's weight alone, anchored or not.]],
  source = "common practice, no source",
  caution = "An engineer or the anchor's maker says what pull is enough, and who may test it.",
  fix = { advise = "Have the anchors designed and some of them pulled, and write it down." },
  examples = {
    { "glued pins", coping = { anchored = "yes", pull_test = "none" }, outcome = "flagged" },
    { "pulled", coping = { anchored = "yes", pull_test = "stated" }, outcome = "clear" },
    { "at the limit: stated, no more", coping = { anchored = "yes", pull_test = "stated" },
      outcome = "clear" },
    { "held by its weight", coping = { anchored = "no" }, outcome = "not applicable" },
  },
}

rule "wall-overturns" {
  title = "A wall's weight holds it against the push of the ground",
  for_each = "wall", stage = "finish", severity = "hold", life_safety = true,
  judges = "overturning", at_least = { hold = "1.5", revise = "2" },
  why = [[The ground pushes low and never rests; the wall has nothing but its weight to answer
    with. Half as much again in hand is the least that codes ask. Paving, a stone or a slope
    behind eats it up, and water behind a wall without a drain does so faster than either.]],
  source = [[statics; 1.5: IRC R404.4 and IBC 1807.2.3, seen as quoted; 2.0 once no more than
    common practice, no source]],
  caution = [[These figures show where a wall fails; they approve none. Where people are below or
    anything stands behind, a licensed engineer designs it.]],
  fix = { raise = "thickness", by = "1 in", to_no_more_than = "48 in" },
  examples = {
    { "15 in thick, 36 in of clay", site = { soil = "type A" }, wall = { footing_to_top = "36 in",
      thickness = "15 in", base_pad = "6 in", above = "level", drain = "fitted" },
      outcome = "flagged" },
    { "stands by itself, but only just", wall = { overturning = 1.7 }, outcome = "flagged" },
    { "the handbook's 4 ft wall, 2 ft thick: 2.7", wall = { footing_to_top = "4 ft",
      thickness = "2 ft", density = "145 lb/ft3", fill_friction = "30 deg", base_pad = "6 in",
      above = "level", drain = "fitted" }, outcome = "clear" },
    { "the same with no drain", wall = { footing_to_top = "4 ft",
      thickness = "2 ft", density = "145 lb/ft3", fill_friction = "30 deg", base_pad = "6 in",
      above = "level", drain = "none" }, outcome = "flagged" },
    { "at the limit", wall = { overturning = 2 }, outcome = "clear" },
  },
}

rule "wall-slides" {
  title = "A wall does not slide out at its foot",
  for_each = "wall", stage = "finish", severity = "hold", life_safety = true,
  judges = "sliding", at_least = "1.5",
  why = [[Walls that pass for heavy enough often go this way: upright, a little each wet winter.
    Friction under the base is all that is counted, for ground in front is dug away sooner or
    later. Liner under a wall or between its courses is a slide, and cuts the hold to a third.]],
  source = "1.5: IRC R404.4 and IBC 1807.2.3, seen as quoted in a code forum",
  caution = [[These figures show where a wall fails; they approve none. Where people are below or
    anything stands behind, a licensed engineer designs it.]],
  fix = { raise = "thickness", by = "1 in", to_no_more_than = "48 in" },
  examples = {
    { "the handbook's 4 ft wall with people behind it: 1.4", wall = { footing_to_top = "4 ft",
      thickness = "2 ft", density = "145 lb/ft3", fill_friction = "30 deg", base_pad = "6 in",
      above = "paving", drain = "fitted" }, outcome = "flagged" },
    { "the same without them: 2.0", wall = { footing_to_top = "4 ft", thickness = "2 ft",
      density = "145 lb/ft3", fill_friction = "30 deg", base_pad = "6 in", above = "level",
      drain = "fitted" }, outcome = "clear" },
    { "the same on liner", wall = { footing_to_top = "4 ft", thickness = "2 ft",
      density = "145 lb/ft3", fill_friction = "30 deg", base_pad = "6 in", above = "level",
      drain = "fitted", liner_under = "yes" }, outcome = "flagged" },
    { "at the limit", wall = { sliding = 1.5 }, outcome = "clear" },
  },
}

rule "wall-bearing" {
  title = "The ground bears the front edge of a wall",
  for_each = "wall", stage = "finish", severity = "hold", life_safety = true,
  judges = "bearing_share", at_most = "100 %",
  why = [[A wall leans on its toe. Where the toe presses harder than the ground can take it sinks,
    the wall leans further, and presses harder still. The weight on top of that is what the
    basin's edge gets to carry.]],
  source = "IBC 2012 Table 1806.2, seen as quoted; statics",
  caution = [[Fill, peat and mud have no presumed bearing, and a basin's edge beside the toe has
    less than the table says: a licensed engineer decides there.]],
  fix = { raise = "thickness", by = "1 in", to_no_more_than = "48 in" },
  examples = {
    { "the handbook's 4 ft wall with people behind it: 1,920 psf", wall = { footing_to_top = "4 ft",
      thickness = "2 ft", density = "145 lb/ft3", fill_friction = "30 deg", base_pad = "6 in",
      above = "paving", drain = "fitted" }, outcome = "flagged" },
    { "the same without them: 1,220 psf", wall = { footing_to_top = "4 ft", thickness = "2 ft",
      density = "145 lb/ft3", fill_friction = "30 deg", base_pad = "6 in", above = "level",
      drain = "fitted" }, outcome = "clear" },
    { "at the limit", wall = { bearing_share = "100 %" }, outcome = "clear" },
  },
}

rule "wall-lifts-heel" {
  title = "All of a wall's base presses on the ground",
  for_each = "wall", stage = "finish", severity = "revise",
  judges = "kern_share", at_most = "100 %",
  why = [[Once the load comes down outside the middle third the rear edge of the base hangs free.
    Soil and water work into the gap, and the wall never goes back. A wall can pass for
    overturning and sliding and do this all the same.]],
  source = "statics of a base that cannot pull: a sixth of its width off the middle",
  caution = "Have an engineer look at a wall that leans on its toe.",
  fix = { raise = "thickness", by = "1 in", to_no_more_than = "48 in" },
  examples = {
    { "the handbook's 4 ft wall", wall = { footing_to_top = "4 ft", thickness = "2 ft",
      density = "145 lb/ft3", fill_friction = "30 deg", base_pad = "6 in", above = "level",
      drain = "fitted" }, outcome = "flagged" },
    { "3 ft high", wall = { footing_to_top = "3 ft", thickness = "2 ft",
      density = "145 lb/ft3", fill_friction = "30 deg", base_pad = "6 in", above = "level",
      drain = "fitted" }, outcome = "clear" },
    { "at the limit", wall = { kern_share = "100 %" }, outcome = "clear" },
  },
}

rule "wall-needs-engineer" {
  title = "A wall with level ground behind it is no higher than 4 ft without an engineer",
  for_each = "wall", when = { above = "level", surcharge = { at_most = "0 psf" } },
  stage = "finish", severity = "hold", life_safety = true,
  judges = "footing_to_top", at_most = "4 ft",
  why = [[The push of the ground grows with the square of the height. At 4 ft, counted from the
    bottom of the footing, codes stop trusting a rule of thumb and ask for a design and a
    permit. A wall that falls takes the basin and whoever sits on its edge with it.]],
  source = "IBC 105.2 item 4, IRC R105.2 item 3 (2009), seen as quoted in a code forum",
  caution = [[A licensed engineer designs such a wall. Many towns draw the line lower: ask the
    building department.]],
  fix = { lower = "footing_to_top", by = "2 in", to_no_less_than = "2 ft" },
  examples = {
    { "five feet", wall = { above = "level", footing_to_top = "5 ft" }, outcome = "flagged" },
    { "three feet", wall = { above = "level", footing_to_top = "3 ft" }, outcome = "clear" },
    { "loaded: another rule's", wall = { above = "level", surcharge = "50 psf",
      footing_to_top = "5 ft" }, outcome = "not applicable" },
    { "at the limit", wall = { above = "level", footing_to_top = "4 ft" }, outcome = "clear" },
  },
}

rule "wall-needs-engineer-loaded" {
  title = [[A wall with a slope, paving, a stone or any other load behind it is no higher than
    2 ft without an engineer]],
  for_each = "wall",
  when = function(wall) return wall.above ~= "level" or wall.surcharge > q"0 psf" end,
  stage = "finish", severity = "hold", life_safety = true,
  judges = "footing_to_top", at_most = "24 in",
  why = [[Whatever stands or rises behind a wall adds to the push, and the codes take their 4 ft
    back as soon as there is any of it. Paving brings people and later a hot tub; a boulder
    brings tons. Have it designed, or keep the load away from it by the wall's own height.]],
  source = [[IRC R404.4 (2009), 24 in, and IBC 105.2, seen as quoted in a code forum; later
    editions 48 in, from memory]],
  caution = [[A licensed engineer designs such a wall. The adopted edition and local changes
    decide the height: ask the building department.]],
  fix = { advise = [[Have the wall designed, lower it, or keep the load back by the wall's
    height.]] },
  examples = {
    { "paving on top of 38 in", wall = { above = "paving", footing_to_top = "38 in" },
      outcome = "flagged" },
    { "level, but something stands there", wall = { above = "level", surcharge = "50 psf",
      footing_to_top = "38 in" }, outcome = "flagged" },
    { "nothing behind it", wall = { above = "level", footing_to_top = "38 in" },
      outcome = "not applicable" },
    { "a low edge", wall = { above = "slope", footing_to_top = "18 in" }, outcome = "clear" },
    { "at the limit", wall = { above = "boulder", footing_to_top = "24 in" }, outcome = "clear" },
  },
}

rule "wall-base" {
  title = "A wall's lowest course is well below ground, on a compacted pad",
  for_each = "wall", stage = "dig", severity = "revise",
  limit = { spare = "0 in", pad = "6 in" },
  check = function(wall, limit)
    return at_least(wall.embedment_to_spare, limit.spare) or at_least(wall.base_pad, limit.pad)
  end,
  why = [[A block wall slides out at its foot before it does anything else. Half a foot of
    ground in front holds it, and half a foot of compacted base under it keeps it level. Where
    the ground falls away in front it goes deeper: a tenth of its height at 3:1, a seventh at 2:1
    and over a basin.]],
  source = [[NCMA manual and AASHTO C11.10.2.2, from memory, not confirmed; AASHTO is said to ask
    24 in where the ground is steeper than 4:1]],
  caution = "The maker's manual and the local code decide how deep a wall starts.",
  fix = { raise = "embedment", by = "1 in", to_no_more_than = "24 in" },
  examples = {
    { "laid on the lawn", wall = { footing_to_top = "30 in", embedment = "2 in",
      toe_slope = "level", base_pad = "6 in" }, outcome = "flagged" },
    { "no pad", wall = { footing_to_top = "30 in", embedment = "8 in", toe_slope = "level",
      base_pad = "2 in" }, outcome = "flagged" },
    { "well founded", wall = { footing_to_top = "38 in", embedment = "8 in", toe_slope = "level",
      base_pad = "8 in" }, outcome = "clear" },
    { "deep enough for a lawn, not for a basin's edge", wall = { footing_to_top = "4 ft",
      beside = {}, embedment = "6 in", base_pad = "6 in" }, outcome = "flagged" },
    { "at the limit", wall = { footing_to_top = "30 in", embedment = "6 in", toe_slope = "level",
      base_pad = "6 in" }, outcome = "clear" },
    { "at the limit, on a bank of 2:1", wall = { footing_to_top = "49 in", embedment = "7 in",
      toe_slope = "2H:1V", base_pad = "6 in" }, outcome = "clear" },
  },
}

rule "guard" {
  title = "An edge that people walk along, more than 30 in over what lies below, has a guard",
  for_each = { "wall", "paving" }, stage = "finish", severity = "revise", life_safety = true,
  limit = { drop = "30 in" },
  check = function(edge, limit)
    local high = at_most(edge.fall_from_walk, limit.drop)
    return high and is(edge.guard, "fitted") and high
  end,
  why = [[Somebody always steps back to look at the water. Over 30 in a fall breaks bones, and
    the code asks for a guard wherever people walk within 3 ft of such an edge. The drop counts
    to the bed, for water in front of it is not a floor.]],
  source = "IBC 1015.2 and IRC R312, seen in city copies",
  caution = [[Ask the building department whether water in front changes anything: often it does
    not.]],
  fix = { advise = "Lower the edge, plant a bed 3 ft wide along it, or draw a guard." },
  examples = {
    { "high terrace", wall = { above = "paving", footing_to_top = "48 in", embedment = "8 in",
      guard = "none" }, outcome = "flagged" },
    { "the same with a guard", wall = { above = "paving", footing_to_top = "48 in",
      embedment = "8 in", guard = "fitted" }, outcome = "clear" },
    { "paving at a deep basin", site = { ground = "0 in" }, paving = { guard = "none",
      beside = { purpose = "display", water_level = "-4 in", depth = "36 in" } },
      outcome = "flagged" },
    { "the same, 40 in back", paving = { edge_distance = "40 in" }, outcome = "clear" },
    { "nobody walks there", wall = { above = "level" }, outcome = "clear" },
    { "at the limit", wall = { above = "paving", footing_to_top = "38 in", embedment = "8 in" },
      outcome = "clear" },
  },
}

rule "guard-while-empty" {
  title = "A walking edge over an empty basin has a barrier while it is empty",
  for_each = { "wall", "paving" }, stage = "dig", severity = "hold", life_safety = true,
  limit = { drop = "30 in" },
  check = function(edge, limit)
    local high = at_most(edge.fall_from_walk, limit.drop)
    return high and is(edge.temporary_barrier, "stated") and high
  end,
  why = [[From the day of the dig until the water is up, and again at each cleaning, the edge
    drops to bare stone. Crew, children and the owner's guests know it as a place to stand. A
    few fence panels cost nothing beside what one fall does.]],
  source = "IBC 1015.2 for the 30 in, seen in a city copy; the barrier: common practice, no source",
  caution = "The competent person on site and the local code decide what barrier will do.",
  fix = { advise = "Draw fence panels along that edge, and say who puts them up at each draining." },
  examples = {
    { "open edge", wall = { above = "paving", footing_to_top = "48 in", embedment = "8 in",
      temporary_barrier = "none" }, outcome = "flagged" },
    { "panels", paving = { drop = "48 in", temporary_barrier = "stated" }, outcome = "clear" },
    { "at the limit", paving = { drop = "30 in" }, outcome = "clear" },
  },
}

rule "coping-cracks" {
  title = "A cap stone does not crack when someone stands on its edge",
  for_each = "coping", stage = "finish", severity = "hold", life_safety = true,
  judges = "strength_share", at_most = "100 %",
  why = [[Stone breaks without warning, along a seam that nobody saw. A foot of the edge is
    taken to carry 300 lb at its tip. Granite may be used to a third of its least strength,
    marble to a fifth, limestone and sandstone to an eighth, for they vary and soften when wet.
    Of stone nobody can name nobody knows it; jumping is not in the figure.]],
  source = [[statics; least strengths by ASTM C99 (granite C615 1,500 psi, marble C503 1,000,
    limestone C568 400, sandstone C616 350), seen in a summary; divided by 3, 5 and 8: common
    practice, no source]],
  caution = "Where people will stand or jump, have the stone tested or a mason design the support.",
  fix = { raise = "thickness", by = "1/4 in", to_no_more_than = "6 in" },
  examples = {
    { "thin sandstone", coping = { length = "24 in", depth = "14 in", thickness = "2 in",
      overhang = "3 in", stone = "sandstone" }, outcome = "flagged" },
    { "the same in granite", coping = { length = "24 in", depth = "14 in", thickness = "2 in",
      overhang = "3 in", stone = "granite" }, outcome = "clear" },
    { "6 in out in marble: 230 psi of 200", coping = { length = "24 in", depth = "14 in",
      thickness = "2 in", overhang = "6 in", stone = "marble" }, outcome = "flagged" },
    { "nobody knows the stone", coping = { length = "24 in", depth = "14 in", thickness = "2 in",
      overhang = "2 in", stone = "unknown" }, outcome = "unanswered" },
    { "but it was tested", coping = { length = "24 in", depth = "14 in", thickness = "2 in",
      overhang = "2 in", stone = "unknown", strength = "1,200 psi" }, outcome = "clear" },
    { "at the limit", coping = { strength_share = "100 %" }, outcome = "clear" },
  },
}

rule "paving-base" {
  title = "Paving lies on 4 in of compacted base, 6 in where it freezes",
  for_each = "paving", stage = "finish", severity = "revise",
  judges = "base_to_spare", at_least = "0 in",
  why = [[Paving beside water gets wet from above and from below. On a thin base it settles after
    the first winter, holds puddles, and puts up the lips that people trip over into the
    basin.]],
  source = "common practice, no source",
  fix = { raise = "base", by = "1 in", to_no_more_than = "12 in" },
  examples = {
    { "4 in in frost", site = { frost = "drained" }, paving = { base = "4 in" },
      outcome = "flagged" },
    { "6 in in frost", site = { frost = "running" }, paving = { base = "6 in" },
      outcome = "clear" },
    { "at the limit", site = { frost = "none" }, paving = { base = "4 in" }, outcome = "clear" },
  },
}

rule "paving-drains" {
  title = "Paving does not drain into the basin",
  for_each = "paving", stage = "finish", severity = "revise",
  judges = "falls_to", is = { "away", "house" },
  why = [[What runs off paving carries grit, leaves, lawn feed and road salt. In the basin it
    feeds algae and kills fish, and in a storm it comes on top of the rain. Tip the paving the
    other way, or catch it in a channel.]],
  source = "common practice, no source",
  fix = { set = "falls_to", to = "away" },
  examples = {
    { "into the water", paving = { falls_to = "basin" }, outcome = "flagged" },
    { "away", paving = { falls_to = "away" }, outcome = "clear" },
  },
}

rule "paving-drains-to-house" {
  title = "Paving does not drain toward the house",
  for_each = "paving", stage = "finish", severity = "hold",
  judges = "falls_to", is = { "away", "basin" },
  why = [[Splash and rain run down the paving for as long as it lies there. Toward the house that
    ends in the cellar, under the sill or in the wall, and nobody finds out until it smells.]],
  source = "common practice, no source; codes ask ground to fall away from a house",
  fix = { set = "falls_to", to = "away" },
  examples = {
    { "toward the house", paving = { falls_to = "house" }, outcome = "flagged" },
    { "away", paving = { falls_to = "away" }, outcome = "clear" },
  },
}

rule "path-too-narrow" {
  title = "A path beside the water is 3 ft wide",
  for_each = "paving", stage = "layout", severity = "advise",
  judges = "clear_width", at_least = "36 in",
  why = [[Two people who meet beside the water step out of each other's way, and one of them
    steps in. A chair or a barrow needs the same 3 ft. Measure between the stones, not between
    the edges of the drawing.]],
  source = "ADA Standards 403.5.1, for accessible routes, from memory; elsewhere a good measure",
  fix = { raise = "clear_width", by = "2 in" },
  examples = {
    { "30 in", paving = { clear_width = "30 in" }, outcome = "flagged" },
    { "4 ft", paving = { clear_width = "4 ft" }, outcome = "clear" },
    { "at the limit", paving = { clear_width = "36 in" }, outcome = "clear" },
  },
}

rule "wet-paving-slips" {
  title = "Paving that gets wet is rough, or tested wet",
  for_each = "paving", when = { wet_zone = "yes" }, stage = "finish", severity = "revise",
  limit = { least = 0.55 },
  check = function(paving, limit)
    local rough = is(paving.surface, "natural")
    return is(paving.surface, "natural", "sawn")
      or (rough and at_least(paving.wet_friction, limit.least))
  end,
  why = [[Splash, algae and bare feet meet at the edge. A polished or sealed stone is a slide
    there from the first day; a sawn one depends on its grain, and only a wet test tells. Cleft
    or flamed stone keeps its bite.]],
  source = "ANSI A326.3-2021, wet exterior, second hand: 0.55",
  caution = "A figure from the maker is for new stone; what grows on it later counts as well.",
  fix = { advise = "Take a cleft or flamed face within splash, or one tested at 0.55 wet or more." },
  examples = {
    { "polished", paving = { wet_zone = "yes", surface = "polished" }, outcome = "flagged" },
    { "sawn and smooth", paving = { wet_zone = "yes", surface = "sawn", wet_friction = "0.4" },
      outcome = "flagged" },
    { "cleft", paving = { wet_zone = "yes", surface = "natural" }, outcome = "clear" },
    { "dry corner", paving = { wet_zone = "no", surface = "polished" },
      outcome = "not applicable" },
    { "at the limit", paving = { wet_zone = "yes", surface = "sawn", wet_friction = "0.55" },
      outcome = "clear" },
  },
}

rule "paving-lip" {
  title = "No step between paving stones is over 1/4 in",
  for_each = "paving", stage = "finish", severity = "revise",
  judges = "step", at_most = "1/4 in",
  why = [[People beside water look at the water. A quarter inch catches a toe, and the next thing
    in front of it is the coping or the basin. Cleft stone is sorted by thickness before it is
    laid, not afterwards.]],
  source = "common practice, no source",
  fix = { lower = "step", by = "1/16 in", to_no_less_than = "1/16 in" },
  examples = {
    { "1/2 in", paving = { step = "1/2 in" }, outcome = "flagged" },
    { "flush", paving = { step = "1/16 in" }, outcome = "clear" },
    { "at the limit", paving = { step = "1/4 in" }, outcome = "clear" },
  },
}
