-- SPDX-License-Identifier: MIT
-- In here: walls, their base and drain, cap stones, edges one can fall from.
-- Changes of your own go into rules/house, not in here: the next version replaces this file.
-- To try it: `forebay rule-test` runs the examples under each rule.
-- Units: every number is text with its unit ("4 ft", "6 in"); factors bare ("1.5").

rule "wall-base" {
  title = "A wall's lowest course is well below ground, on a compacted pad",
  for_each = "wall", stage = "dig", severity = "revise",
  limit = { embedment = "6 in", height_share = "5 %", pad = "6 in" },
  check = function(wall, limit)
    return at_least(wall.embedment, limit.embedment)
      or at_least(wall.embedment, wall.footing_to_top * limit.height_share)
      or at_least(wall.base_pad, limit.pad)
  end,
  why = [[A block wall slides out at its foot before it does anything else. Half a foot of
    ground in front holds it, and half a foot of compacted base under it keeps it level. Where
    the ground falls away in front, or the wall stands over a basin, go deeper: a seventh of its
    height.]],
  source = "from memory, not confirmed; common practice",
  caution = "The maker's manual and the local code decide how deep a wall starts.",
  fix = { advise = "Found the wall 6 in deep or more, on 6 in of compacted base." },
  examples = {
    { "laid on the lawn", wall = { footing_to_top = "30 in", embedment = "2 in",
      base_pad = "6 in" },
      outcome = "flagged" },
    { "no pad", wall = { footing_to_top = "30 in", embedment = "8 in", base_pad = "2 in" },
      outcome = "flagged" },
    { "well founded", wall = { footing_to_top = "38 in", embedment = "8 in", base_pad = "8 in" },
      outcome = "clear" },
    { "at the limit", wall = { footing_to_top = "30 in", embedment = "6 in", base_pad = "6 in" },
      outcome = "clear" },
    { "at the limit, tall wall", wall = { footing_to_top = "14 ft", embedment = "8.4 in",
      base_pad = "6 in" }, outcome = "clear" },
  },
}

rule "wall-needs-engineer" {
  title = "A wall with level ground behind it is no higher than 4 ft without an engineer",
  for_each = "wall", when = { above = "level" },
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
    { "at the limit", wall = { above = "level", footing_to_top = "4 ft" }, outcome = "clear" },
  },
}

rule "wall-needs-engineer-loaded" {
  title = [[A wall with a slope, paving or a stone behind it is no higher than 2 ft without an
    engineer]],
  for_each = "wall", when = { above = { one_of = { "slope", "paving", "boulder" } } },
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
    { "a low edge", wall = { above = "slope", footing_to_top = "18 in" }, outcome = "clear" },
    { "at the limit", wall = { above = "boulder", footing_to_top = "24 in" }, outcome = "clear" },
  },
}

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

rule "guard" {
  title = "No walking edge on a wall is more than 30 in over the ground below it",
  for_each = "wall", when = { above = "paving" },
  stage = "finish", severity = "revise", life_safety = true,
  limit = { drop = "30 in" },
  check = function(wall, limit)
    return at_most(wall.footing_to_top - wall.embedment, limit.drop)
  end,
  why = [[Somebody always steps back to look at the water. Over 30 in a fall breaks bones and
    the code asks for a guard wherever people walk within 3 ft of the edge. With the basin empty
    the drop is greater still, so put up a barrier while it is drained.]],
  source = "IBC 1015.2 and IRC R312, seen in city copies",
  caution = [[Ask the building department whether water in front changes anything: often it does
    not.]],
  fix = { advise = "Lower the edge, plant a bed 3 ft wide along it, or draw a guard." },
  examples = {
    { "high terrace", wall = { above = "paving", footing_to_top = "48 in", embedment = "8 in" },
      outcome = "flagged" },
    { "low terrace", wall = { above = "paving", footing_to_top = "30 in", embedment = "8 in" },
      outcome = "clear" },
    { "at the limit", wall = { above = "paving", footing_to_top = "38 in", embedment = "8 in" },
      outcome = "clear" },
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

rule "coping-cracks" {
  title = "A cap stone does not crack when someone stands on its edge",
  for_each = "coping", stage = "finish", severity = "hold", life_safety = true,
  limit = { load = "300 lbf", strip = "12 in",
            granite = "500 psi", limestone = "50 psi", other = "43.75 psi" },
  check = function(coping, limit)
    local strip = math.min(coping.length, limit.strip)
    local bending = limit.load * coping.overhang * 6 / (strip * coping.thickness ^ 2)
    local most = limit.other
    if coping.stone == "granite" then most = limit.granite end
    if coping.stone == "limestone" then most = limit.limestone end
    return at_most(bending, most)
  end,
  why = [[Stone breaks without warning, along a seam that nobody saw. A foot of the edge is
    taken to carry 300 lb at its tip. Granite may be used to a third of its least strength,
    limestone and sandstone to an eighth, for they vary and soften when wet. Stone nobody can
    name counts as the weakest; jumping is not in the figure.]],
  source = [[statics; least strengths by ASTM C99 (granite C615 1,500 psi, limestone C568 400,
    sandstone C616 350), seen in a summary; divided by 3 and 8: common practice]],
  caution = "Where people will stand or jump, have the stone tested or a mason design the support.",
  fix = { raise = "thickness", by = "1/4 in", to_no_more_than = "6 in" },
  examples = {
    { "thin sandstone", coping = { length = "24 in", thickness = "2 in", overhang = "3 in",
      stone = "sandstone" }, outcome = "flagged" },
    { "the same in granite", coping = { length = "24 in", thickness = "2 in", overhang = "3 in",
      stone = "granite" }, outcome = "clear" },
    { "nobody knows the stone", coping = { length = "24 in", thickness = "2 in", overhang = "2 in",
      stone = "unknown" }, outcome = "flagged" },
    { "at the limit", coping = { length = "12 in", thickness = "3 in", overhang = "3 in",
      stone = "limestone" }, outcome = "clear" },
  },
}
