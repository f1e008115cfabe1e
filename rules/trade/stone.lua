-- SPDX-License-Identifier: MIT
-- In here: set stones: gravel behind them, how deep they stand, their size, what carries them.
-- Changes of your own go into rules/house, not in here: the next version replaces this file.
-- To try it: `forebay rule-test` runs the examples under each rule.
-- Units: every number is text with its unit ("18 in", "2 ton"); shares as "1/6" or "25 %".

rule "gravel-behind-stone" {
  title = "A stone of up to 2 tons has enough gravel behind it",
  for_each = "boulder", when = { mass_high = { at_most = "2 ton" } },
  stage = "stone", severity = "revise",
  judges = "gravel_behind", at_least = { revise = "12 in", advise = "18 in" },
  why = [[Clean gravel lets water out from behind a stone and gives it something firm to lean
    against. With less than a foot the bank pushes on the stone itself, and frost pushes harder.
    Nobody adds gravel later without lifting the stone.]],
  source = "common practice, no source",
  caution = "Nobody works in front of a stone while gravel is filled in behind it.",
  fix = { raise = "gravel_behind", by = "1 in", to_no_more_than = "36 in" },
  examples = {
    { "a hand's width", boulder = { mass_high = "1,800 lb", gravel_behind = "8 in" },
      outcome = "flagged" },
    { "a foot and a quarter", boulder = { mass_high = "1,800 lb", gravel_behind = "15 in" },
      outcome = "flagged" },
    { "from its size", boulder = { length = "3 ft", width = "2 ft", height = "20 in",
      shape = "blocky",
      stone = "granite", gravel_behind = "20 in" }, outcome = "clear" },
    { "at the limit", boulder = { mass_high = "1 ton", gravel_behind = "18 in" },
      outcome = "clear" },
  },
}

rule "gravel-behind-stone-heavy" {
  title = "A stone of more than 2 tons has two feet of gravel behind it",
  for_each = "boulder", when = { mass_high = { at_least = "2 ton" } },
  stage = "stone", severity = "revise",
  judges = "gravel_behind", at_least = { revise = "12 in", advise = "24 in" },
  why = [[The heavier the stone, the more it costs to set it twice. Big stones also close off
    more of the bank, so more water stands behind them. Two feet of clean gravel is room enough
    to work and to drain.]],
  source = "common practice, no source",
  caution = "Nobody works in front of a stone while gravel is filled in behind it.",
  fix = { raise = "gravel_behind", by = "1 in", to_no_more_than = "36 in" },
  examples = {
    { "too little", boulder = { mass_high = "3 ton", gravel_behind = "18 in" },
      outcome = "flagged" },
    { "plenty", boulder = { mass_high = "3 ton", gravel_behind = "30 in" }, outcome = "clear" },
    { "from its size, weight read high", boulder = { length = "4 ft", width = "3 ft",
      height = "3 ft",
      shape = "unknown", stone = "unknown", gravel_behind = "10 in" }, outcome = "flagged" },
    { "at the limit", boulder = { mass_high = "3 ton", gravel_behind = "24 in" },
      outcome = "clear" },
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
    { "towers", boulder = { lips_near = 1, over_nearest_lip = "30 in" }, outcome = "flagged" },
    { "frames the fall", boulder = { lips_near = 1, over_nearest_lip = "10 in" }, outcome = "clear" },
    { "at the limit", boulder = { lips_near = 1, over_nearest_lip = "18 in" }, outcome = "clear" },
  },
}

rule "stone-load-on-liner" {
  title = "The ground carries the stone's seat",
  for_each = "boulder", when = { stands_on = { one_of = { "soil", "underlay on liner" } } },
  stage = "stone", severity = "revise",
  limit = { seat = "50 %", most = "1,500 lb/ft2" },
  check = function(boulder, limit)
    return at_most(boulder.mass_high / (boulder.length * boulder.width * limit.seat), limit.most)
  end,
  why = [[A rough stone sits on about half of its footprint. Tall stones put more on a square
    foot than a house footing does, and over clay they sink on one side and pull the liner
    along. A pad of compacted gravel, wider than the seat, spreads the weight.]],
  source = [[IBC 2012 Table 1806.2, clay and silt, seen in a reprint; half of the footprint:
    common practice]],
  caution = "Soft, wet or filled ground carries less than any table says: have it looked at.",
  fix = { set = "stands_on", to = "gravel" },
  examples = {
    { "tall and narrow", boulder = { length = "2 ft", width = "2 ft", mass_high = "4,000 lb",
      stands_on = "soil" }, outcome = "flagged" },
    { "low and broad", boulder = { length = "4 ft", width = "3 ft", height = "22 in",
      stone = "granite",
      shape = "rounded", stands_on = "underlay on liner" }, outcome = "clear" },
    { "at the limit", boulder = { length = "2 ft", width = "2 ft", mass_high = "3,000 lb",
      stands_on = "soil" }, outcome = "clear" },
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
