-- SPDX-License-Identifier: MIT
-- In here: set stones: gravel behind them, how deep they stand, their size, what carries them.
-- Changes of your own go into rules/house, not in here: the next version replaces this file.
-- To try it: `forebay rule-test` runs the examples under each rule.
-- Units: every number is text with its unit ("18 in", "2 ton"); shares as "1/6" or "25 %".

rule "gravel-behind-stone" {
  title = "A stone has gravel behind it: a foot, or four times the size of the gravel",
  for_each = "boulder", stage = "stone", severity = "revise",
  judges = "gravel_to_spare", at_least = "0 in",
  why = [[Clean gravel lets water out from behind a stone and gives it something firm to lean
    against. With less than a foot the bank pushes on the stone itself, and frost pushes harder.
    Coarse gravel wants more room, or it bridges and leaves holes. Nobody adds gravel later
    without lifting the stone.]],
  source = "common practice, no source",
  caution = "Nobody works in front of a stone while gravel is filled in behind it.",
  fix = { raise = "gravel_behind", by = "1 in", to_no_more_than = "36 in" },
  examples = {
    { "a hand's width", boulder = { gravel_behind = "8 in" }, site = { gravel_size = "3/4 in" },
      outcome = "flagged" },
    { "coarse gravel", boulder = { gravel_behind = "14 in" }, site = { gravel_size = "4 in" },
      outcome = "flagged" },
    { "a foot and a half", boulder = { gravel_behind = "18 in" }, site = { gravel_size = "3/4 in" },
      outcome = "clear" },
    { "at the limit", boulder = { gravel_behind = "12 in" }, site = { gravel_size = "3 in" },
      outcome = "clear" },
  },
}

rule "gravel-behind-stone-firm" {
  title = "A stone of up to 2 tons has a foot and a half of gravel behind it",
  for_each = "boulder",
  when = { mass_high = { at_most = "2 ton" }, gravel_to_spare = { at_least = "0 in" } },
  stage = "stone", severity = "advise",
  judges = "gravel_behind", at_least = "18 in",
  why = [[A foot of gravel drains; a foot and a half can also be shovelled in, spread and tamped
    without skinning knuckles. It is the cheapest part of the stone's price.]],
  source = "common practice, no source",
  caution = "Nobody works in front of a stone while gravel is filled in behind it.",
  fix = { raise = "gravel_behind", by = "1 in", to_no_more_than = "36 in" },
  examples = {
    { "a foot and a quarter", boulder = { mass_high = "1,800 lb", gravel_to_spare = "3 in",
      gravel_behind = "15 in" }, outcome = "flagged" },
    { "from its size", boulder = { length = "3 ft", width = "2 ft", height = "20 in",
      shape = "blocky", stone = "granite", gravel_behind = "20 in" },
      site = { gravel_size = "3/4 in" }, outcome = "clear" },
    { "at the limit", boulder = { mass_high = "1 ton", gravel_to_spare = "6 in",
      gravel_behind = "18 in" }, outcome = "clear" },
  },
}

rule "gravel-behind-stone-heavy" {
  title = "A stone of more than 2 tons has two feet of gravel behind it",
  for_each = "boulder",
  when = { mass_high = { at_least = "2 ton" }, gravel_to_spare = { at_least = "0 in" } },
  stage = "stone", severity = "advise",
  judges = "gravel_behind", at_least = "24 in",
  why = [[The heavier the stone, the more it costs to set it twice. Big stones also close off
    more of the bank, so more water stands behind them. Two feet of clean gravel is room enough
    to work and to drain.]],
  source = "common practice, no source",
  caution = "Nobody works in front of a stone while gravel is filled in behind it.",
  fix = { raise = "gravel_behind", by = "1 in", to_no_more_than = "36 in" },
  examples = {
    { "too little", boulder = { mass_high = "3 ton", gravel_to_spare = "6 in",
      gravel_behind = "18 in" }, outcome = "flagged" },
    { "plenty", boulder = { mass_high = "3 ton", gravel_to_spare = "18 in",
      gravel_behind = "30 in" }, outcome = "clear" },
    { "from its size, weight read high", boulder = { length = "4 ft", width = "3 ft",
      height = "3 ft", shape = "unknown", stone = "unknown", gravel_behind = "20 in" },
      site = { gravel_size = "3/4 in" }, outcome = "flagged" },
    { "at the limit", boulder = { mass_high = "3 ton", gravel_to_spare = "12 in",
      gravel_behind = "24 in" }, outcome = "clear" },
  },
}

rule "stone-shallow-set" {
  title = "A lying stone is set a sixth of its height into the ground",
  for_each = "boulder", when = { pose = "lying" },
  stage = "stone", severity = "revise",
  judges = "embedded_share", at_least = "1/6",
  why = [[A stone that sits on top of the ground looks dropped there, and it rocks. Set in by a
    sixth of its height it finds its bearing, hides its worst edge and stays when someone jumps
    on it.]],
  source = "common practice, no source",
  fix = { raise = "embedment", by = "1/2 in", to_no_more_than = "36 in" },
  examples = {
    { "on the surface", boulder = { pose = "lying", height = "24 in", embedment = "2 in" },
      outcome = "flagged" },
    { "well in", boulder = { pose = "lying", height = "24 in", embedment = "6 in" },
      outcome = "clear" },
    { "at the limit", boulder = { pose = "lying", height = "24 in", embedment = "4 in" },
      outcome = "clear" },
  },
}

rule "stone-shallow-set-upright" {
  title = "An upright stone is set a quarter of its height into the ground",
  for_each = "boulder", when = { pose = "upright" },
  stage = "stone", severity = "revise",
  judges = "embedded_share", at_least = { revise = "1/6", advise = "1/4" },
  why = [[A standing stone is a lever, and its foot is the only thing that holds it. Under a
    sixth it can be pushed over by hand on soft ground; a quarter is what old hands ask. Buy the
    stone long enough for its foot.]],
  source = "common practice, no source",
  caution = [[Depth alone does not make a standing stone stable. Heed its weight, seat and
    backfill too.]],
  fix = { raise = "embedment", by = "1/2 in", to_no_more_than = "36 in" },
  examples = {
    { "a foot too short", boulder = { pose = "upright", height = "6 ft", embedment = "6 in" },
      outcome = "flagged" },
    { "a fifth", boulder = { pose = "upright", embedded_share = "20 %" }, outcome = "flagged" },
    { "a third", boulder = { pose = "upright", height = "6 ft", embedment = "24 in" },
      outcome = "clear" },
    { "at the limit", boulder = { pose = "upright", height = "6 ft", embedment = "18 in" },
      outcome = "clear" },
  },
}

rule "stone-shallow-set-pillar" {
  title = "A pillar is set a third of its height into the ground",
  for_each = "boulder", when = { pose = "pillar" },
  stage = "stone", severity = "revise",
  judges = "embedded_share", at_least = { revise = "1/6", advise = "1/3" },
  why = [[A slender stone has little weight at its foot and much sail at its top. Children swing
    on it and mowers run into it. A third in the ground, packed in gravel, holds it the way a
    fence post is held.]],
  source = "common practice, no source",
  caution = [[Depth alone does not make a pillar stable. Where it can fall on someone, ask an
    engineer.]],
  fix = { raise = "embedment", by = "1/2 in", to_no_more_than = "36 in" },
  examples = {
    { "a quarter", boulder = { pose = "pillar", height = "4 ft", embedment = "12 in" },
      outcome = "flagged" },
    { "more than a third", boulder = { pose = "pillar", height = "4 ft", embedment = "20 in" },
      outcome = "clear" },
    { "at the limit", boulder = { pose = "pillar", height = "4 ft", embedment = "16 in" },
      outcome = "clear" },
  },
}

rule "stone-out-of-scale" {
  title = "A stone does not tower over the lip beside it",
  for_each = "boulder", when = { lips_near = { at_least = "1" } },
  stage = "stone", severity = "advise",
  judges = "over_nearest_lip", at_most = "18 in",
  why = [[The eye goes to the highest stone. When that stands far over the lip, the fall beside
    it looks like a leak. Lower the stone or lead the water from higher up.]],
  source = "common practice, no source",
  fix = { raise = "embedment", by = "1/2 in", to_no_more_than = "36 in" },
  examples = {
    { "towers", boulder = { top = "42 in", beside = { spills_out = { { crest = "12 in" } } } },
      outcome = "flagged" },
    { "frames the fall", boulder = { lips_near = 1, over_nearest_lip = "10 in" }, outcome = "clear" },
    { "at the limit", boulder = { lips_near = 1, over_nearest_lip = "18 in" }, outcome = "clear" },
  },
}

rule "stone-load-on-liner" {
  title = "The ground carries the stone's seat",
  for_each = "boulder", when = { stands_on = { one_of = { "gravel", "soil", "underlay on liner" } } },
  stage = "stone", severity = "revise",
  judges = "bearing_left", at_least = "0 psf",
  why = [[A rough stone sits on about half of its footprint. Tall stones put more on a square
    foot than a house footing does, and over clay they sink on one side and pull the liner
    along. A pad of compacted gravel, wider than the seat, spreads the weight; loose gravel
    alone does not.]],
  source = [[IBC 2012 Table 1806.2, seen in a reprint; half of the footprint and the spread of a
    pad at 1 to 2: common practice]],
  caution = "Soft, wet or filled ground carries less than any table says: have it looked at.",
  fix = { raise = "pad", by = "1 in", to_no_more_than = "24 in" },
  examples = {
    { "tall and narrow", boulder = { length = "2 ft", width = "2 ft", mass_high = "4,000 lb",
      stands_on = "gravel", shape = "blocky" }, site = { soil = "type B" }, outcome = "flagged" },
    { "the same on a pad", boulder = { length = "2 ft", width = "2 ft", mass_high = "4,000 lb",
      stands_on = "gravel", shape = "blocky", pad = "12 in" }, site = { soil = "type B" },
      outcome = "clear" },
    { "low and broad", boulder = { length = "4 ft", width = "3 ft", height = "22 in",
      stone = "granite", shape = "rounded", stands_on = "underlay on liner" },
      site = { soil = "type C" }, outcome = "clear" },
    { "at the limit", boulder = { stands_on = "soil", seat_pressure = "1,500 psf" },
      site = { soil = "type B" }, outcome = "clear" },
  },
}

rule "state-tips" {
  title = "A stone does not tip in any state of the build",
  for_each = "boulder", when = { mass_high = { at_least = "200 lb" } },
  stage = "stone", severity = "hold", life_safety = true,
  limit = { least = 1.5 },
  check = function(stone, limit)
    return at_least(stone.tips_set, limit.least) or at_least(stone.tips_backfilling, limit.least)
      or at_least(stone.tips_backfilled, limit.least)
      or at_least(stone.tips_water_up, limit.least) or at_least(stone.tips_drained, limit.least)
  end,
  why = [[A stone that stood for a day still goes over when gravel is dumped behind it, when
    someone pulls himself up on it, or when the pool is pumped out faster than the bank drains.
    The rigger in front of it has no time to step back. A broader seat, less gravel at a time,
    no machine close behind or props until it is packed make the difference.]],
  source = "statics; a factor of 1.5: common practice, cf. IRC R404.4",
  caution = [[The figures count an even seat and the loads named, and no others. Whoever sets the
    stone decides on site when it may be let go; where a stone could fall on people, ask an
    engineer.]],
  fix = { raise = "seat_width", by = "1 in", to_no_more_than = "60 in" },
  examples = {
    { "tips when the machine comes near", boulder = { mass_high = "1 ton", tips_set = "3",
      tips_backfilling = "1.2" }, outcome = "flagged" },
    { "from its size", boulder = { length = "5 ft", width = "3 ft", height = "4 ft",
      density = "165 lb/ft3", shape = "blocky", seat_width = "2 ft", embedment = "6 in",
      stands_on = "gravel", gravel_behind = "18 in", gravel_height = "3 ft", climbable = "no",
      machine_beside = "yes" }, outcome = "clear" },
    { "a slab on edge", boulder = { length = "4 ft", width = "10 in", height = "4 ft",
      density = "165 lb/ft3", shape = "blocky", embedment = "6 in", stands_on = "gravel",
      gravel_behind = "18 in", gravel_height = "2 ft" }, outcome = "flagged" },
    { "at the limit", boulder = { mass_high = "1 ton", tips_set = "1.5", tips_backfilling = "1.5",
      tips_backfilled = "1.5", tips_water_up = "1.5", tips_drained = "1.5" }, outcome = "clear" },
  },
}

rule "state-tips-in-service" {
  title = "A stone that people can get at stands with twice what it takes to tip it",
  for_each = "boulder", when = { mass_high = { at_least = "200 lb" }, people_reach = "yes" },
  stage = "stone", severity = "hold", life_safety = true,
  limit = { least = 2 },
  check = function(stone, limit)
    return at_least(stone.tips_backfilled, limit.least)
      or at_least(stone.tips_water_up, limit.least) or at_least(stone.tips_drained, limit.least)
  end,
  why = [[Children climb what is there, and guests sit on it. None of them asks whether the pool
    is full that day. Once the crew is gone nobody watches the stone, so it wants more in hand
    than while it is set.]],
  source = "statics; a factor of 2 in service: common practice, no source",
  caution = "A stone over which people climb is for an engineer where it could fall on someone.",
  fix = { raise = "seat_width", by = "1 in", to_no_more_than = "60 in" },
  examples = {
    { "holds, but only just", boulder = { mass_high = "1 ton", people_reach = "yes",
      tips_backfilled = "4", tips_water_up = "1.7" }, outcome = "flagged" },
    { "fenced off", boulder = { mass_high = "1 ton", people_reach = "no" },
      outcome = "not applicable" },
    { "broad and low", boulder = { length = "4 ft", width = "3 ft", height = "2 ft",
      density = "160 lb/ft3", shape = "sawn", embedment = "4 in", stands_on = "gravel",
      gravel_behind = "18 in", gravel_height = "1 ft", people_reach = "yes" }, outcome = "clear" },
    { "at the limit", boulder = { mass_high = "1 ton", people_reach = "yes",
      tips_backfilled = "2", tips_water_up = "2", tips_drained = "2" }, outcome = "clear" },
  },
}

rule "state-slides" {
  title = "A stone does not slide in any state of the build",
  for_each = "boulder", when = { mass_high = { at_least = "200 lb" } },
  stage = "stone", severity = "hold", life_safety = true,
  limit = { least = 1.5 },
  check = function(stone, limit)
    return at_least(stone.slides_set, limit.least)
      or at_least(stone.slides_backfilling, limit.least)
      or at_least(stone.slides_backfilled, limit.least)
      or at_least(stone.slides_water_up, limit.least)
      or at_least(stone.slides_drained, limit.least)
  end,
  why = [[Fleece on a smooth sheet is as slippery as packed snow. A stone that stands firm on
    gravel slides into the pool on it as soon as gravel and a machine push from behind. Block
    the toe with a course of stone, fill in by hand, or keep the sheet out from under the seat.]],
  source = [[statics; a factor of 1.5: NAVFAC DM 7.02, from memory; friction by what it stands
    on, an unnamed sheet as smooth, 10 degrees, from memory]],
  caution = [[Nobody works in front of a stone while it is backfilled. Friction was not tried on
    this sheet: the maker's shear test decides.]],
  fix = { advise = "Block its toe, backfill without a machine close by, or ask for a textured sheet." },
  examples = {
    { "on smooth sheet, machine behind", boulder = { length = "5 ft", width = "3 ft",
      height = "4 ft", density = "165 lb/ft3", shape = "blocky", seat_width = "2 ft",
      embedment = "6 in", stands_on = "underlay on liner", gravel_behind = "18 in",
      gravel_height = "3 ft" }, outcome = "flagged" },
    { "the same on gravel", boulder = { length = "5 ft", width = "3 ft",
      height = "4 ft", density = "165 lb/ft3", shape = "blocky", seat_width = "2 ft",
      embedment = "6 in", stands_on = "gravel", gravel_behind = "18 in",
      gravel_height = "3 ft" }, outcome = "clear" },
    { "at the limit", boulder = { mass_high = "1 ton", slides_set = "1.5",
      slides_backfilling = "1.5", slides_backfilled = "1.5", slides_water_up = "1.5",
      slides_drained = "1.5" }, outcome = "clear" },
  },
}

rule "seat-slope" {
  title = "A stone on the liner stands on a seat flat enough not to start by itself",
  for_each = "boulder", when = { stands_on = "underlay on liner" },
  stage = "stone", severity = "hold", life_safety = true,
  judges = "seat_slope_factor", at_least = "1.5",
  why = [[On a sheet that gives ten degrees of grip, a seat that falls 1 in 8 leaves little for
    the gravel, the water or the child. Stones on such seats creep for a season and then let go.
    Cut the seat level, or falling back into the bank.]],
  source = "statics; a factor of 1.5: common practice, no source",
  caution = "Nobody stands below a stone on a sloped sheet.",
  fix = { set = "seat_slope", to = "2 %" },
  examples = {
    { "one in seven", boulder = { stands_on = "underlay on liner", membrane = "smooth",
      seat_slope = "7H:1V" }, outcome = "flagged" },
    { "level", boulder = { stands_on = "underlay on liner", membrane = "smooth",
      seat_slope = "level" }, outcome = "clear" },
    { "on gravel", boulder = { stands_on = "gravel" }, outcome = "not applicable" },
    { "at the limit", boulder = { stands_on = "underlay on liner", seat_slope_factor = "1.5" },
      outcome = "clear" },
  },
}

rule "stone-near-shelf-edge" {
  title = "A stone on a shelf keeps as far from its edge as the drop is deep",
  for_each = "boulder", when = { shelves_near = { at_least = "1" } },
  stage = "stone", severity = "hold",
  judges = "shelf_share", at_least = { hold = "50 %", revise = "100 %" },
  why = [[The edge of a shelf is cut soil under a thin sheet. A ton close to it breaks the edge
    off, and the stone follows into the deep end with the liner. Back by one drop it stands on
    ground that goes all the way down.]],
  source = "common practice, no source",
  caution = "Nobody works below the shelf while a stone is set on it.",
  fix = { raise = "shelf_edge", by = "1 in", to_no_more_than = "48 in" },
  examples = {
    { "on the brink", boulder = { shelves_near = 1, shelf_edge = "6 in", shelf_drop = "24 in" },
      outcome = "flagged" },
    { "a little near", boulder = { shelves_near = 1, shelf_edge = "18 in", shelf_drop = "24 in" },
      outcome = "flagged" },
    { "well back", boulder = { shelves_near = 1, shelf_edge = "30 in", shelf_drop = "24 in" },
      outcome = "clear" },
    { "at the limit", boulder = { shelves_near = 1, shelf_edge = "24 in", shelf_drop = "24 in" },
      outcome = "clear" },
  },
}

rule "drilled-bowl-edge" {
  title = "A drilled stone keeps two bores of stone beside the hole, and 3 in",
  for_each = "boulder", when = { bore = { at_least = "1/8 in" } },
  stage = "stone", severity = "revise",
  judges = "bore_wall_to_spare", at_least = "0 in",
  why = [[The drill shakes a seam loose that nobody saw, and the first frost opens it. With too
    little stone beside the hole the side of the bowl comes away, mostly after it is set.]],
  source = "common practice, no source",
  fix = { advise = "Drill farther in, or a smaller hole." },
  examples = {
    { "near the edge", boulder = { bore = "2 in", bore_wall = "3 in" }, outcome = "flagged" },
    { "in the middle", boulder = { bore = "2 in", bore_wall = "8 in" }, outcome = "clear" },
    { "at the limit", boulder = { bore = "1 in", bore_wall = "3 in" }, outcome = "clear" },
  },
}

rule "silica-dust" {
  title = "Stone is cut wet and by a row of Table 1",
  for_each = "crew", when = { cutting = { one_of = { "wet", "dry" } } },
  stage = "stone", severity = "hold", life_safety = true,
  check = function(crew)
    return is(crew.cutting, "wet") or must(crew.silica_row ~= "" and crew.silica_row ~= "none",
      "the row of Table 1 that the cutting follows is named")
  end,
  why = [[Stone dust that is too fine to see scars the lungs for good, and it drifts to whoever
    stands near. Water on the blade holds most of it. The table says for each tool how, for how
    long, and when a mask is wanted besides.]],
  source = "29 CFR 1926.1153(c)(1), Table 1, from memory",
  caution = "The employer's exposure plan and the competent person decide.",
  fix = { advise = "Cut wet, and write down the row of the table for each tool." },
  examples = {
    { "dry", crew = { cutting = "dry", silica_row = "handheld power saw" }, outcome = "flagged" },
    { "wet, but by no row", crew = { cutting = "wet", silica_row = "none" }, outcome = "flagged" },
    { "wet, row named", crew = { cutting = "wet", silica_row = "handheld power saw, outdoors" },
      outcome = "clear" },
    { "nothing is cut", crew = { cutting = "none" }, outcome = "not applicable" },
  },
}

rule "stones-small-for-bowl" {
  title = "The largest stone beside a raised bowl is as long as the bowl is wide",
  for_each = "basin", when = { purpose = "bowl" },
  stage = "stone", severity = "advise",
  check = function(basin)
    local longest
    for _, stone in ipairs(basin.stones_beside) do
      if not longest or stone.length > longest then longest = stone.length end
    end
    return longest and at_least(longest, basin.least_across)
  end,
  why = [[A raised bowl held by a string of small stones looks like a pan on a heap of rubble.
    One stone as long as the bowl is wide makes it look as if the water had worn it. Choose that
    stone first and the rest around it.]],
  source = "common practice, no source",
  fix = { advise = "Choose one larger stone for beside the bowl, or a smaller bowl." },
  examples = {
    { "rubble", basin = { purpose = "bowl", least_across = "4 ft",
      stones_beside = { { length = "18 in" }, { length = "24 in" } } }, outcome = "flagged" },
    { "one big stone", basin = { purpose = "bowl", least_across = "4 ft",
      stones_beside = { { length = "5 ft" }, { length = "24 in" } } }, outcome = "clear" },
    { "at the limit", basin = { purpose = "bowl", least_across = "4 ft",
      stones_beside = { { length = "4 ft" } } }, outcome = "clear" },
    { "no stones at all", basin = { purpose = "bowl" }, outcome = "clear" },
  },
}
