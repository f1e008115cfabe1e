-- SPDX-License-Identifier: MIT
-- In here: the liner's edge and what lies under and over it.
-- Changes of your own go into rules/house, not in here: the next version replaces this file.
-- To try it: `forebay rule-test` runs the examples under each rule.
-- Units: every number is text with its unit ("2 in", "50 mm").

rule "liner-edge-low" {
  title = "The liner's lowest edge stands 2 in over the highest water",
  for_each = "liner", when = { on_fill = "no" }, stage = "liner", severity = "hold",
  judges = "edge_over_water", at_least = "2 in",
  why = [[Most leaks are no holes: the edge is low somewhere and water slips over it, behind the
    stones, out of sight. The highest water is not the still water; when the power fails all
    that was up on the lips comes down.]],
  source = "common practice, no source",
  fix = { raise = "edge", by = "1/2 in" },
  examples = {
    { "edge at an inch", liner = { on_fill = "no", edge_over_water = "1 in" }, outcome = "flagged" },
    { "plenty", liner = { on_fill = "no", edge = "3 in", of = { highest_water = "-1 in" } }, outcome = "clear" },
    { "at the limit", liner = { on_fill = "no", edge = "1 in", of = { highest_water = "-1 in" } },
      outcome = "clear" },
  },
}

rule "liner-edge-low-fill" {
  title = "The liner's edge on filled ground stands 3 in over the highest water",
  for_each = "liner", when = { on_fill = "yes" }, stage = "liner", severity = "hold",
  judges = "edge_over_water", at_least = "3 in",
  why = [[Fill settles for years, and never evenly: the edge that was level at hand-over is an inch
    low where the machine backfilled last. An inch more at the start is what keeps it over the
    water. Where nobody says what the edge lies on, it counts as fill.]],
  source = "common practice, no source",
  fix = { raise = "edge", by = "1/2 in" },
  examples = {
    { "2 in on fill", liner = { edge_over_water = "2 in" }, outcome = "flagged" },
    { "plenty", liner = { edge = "4 in", of = { highest_water = "-1 in" } }, outcome = "clear" },
    { "at the limit", liner = { on_fill = "yes", edge = "2 in", of = { highest_water = "-1 in" } },
      outcome = "clear" },
  },
}

rule "liner-too-small" {
  title = "The piece of liner reaches over the edge all round",
  for_each = "liner", when = { pieces = { at_most = "1" } }, stage = "liner", severity = "hold",
  limit = { spare = "0 in" },
  check = function(liner, limit)
    return at_least(liner.length_to_spare, limit.spare) or at_least(liner.width_to_spare, limit.spare)
  end,
  why = [[A piece that is a foot short shows it when it lies in the pit, folded in and half filled.
    Then it is a new piece, or a seam where nobody wanted one. Down one side, along the bed, up
    the other, and a foot over at both ends: measure that before you order.]],
  source = "geometry; a foot over the edge: common practice, no source",
  fix = { raise = "width", by = "1 ft", to_no_more_than = "100 ft" },
  examples = {
    { "narrow", liner = { length_to_spare = "1 ft", width_to_spare = "-2 in" }, outcome = "flagged" },
    { "short", liner = { length_to_spare = "-1 in", width_to_spare = "2 ft" }, outcome = "flagged" },
    { "from the sizes", liner = { length = "20 ft", width = "14 ft", length_needed = "17 ft",
      width_needed = "13 ft" }, outcome = "clear" },
    { "at the limit", liner = { length = "13 ft", width = "17 ft", length_needed = "17 ft",
      width_needed = "13 ft" }, outcome = "clear" },
  },
}

rule "liner-floats" {
  title = "Ground water does not lift the liner",
  for_each = "liner", stage = "liner", severity = "hold",
  limit = { drained = "1.2", filled = "1.3" },
  check = function(liner, limit)
    return (at_least(liner.uplift_factor_drained, limit.drained)
        or at_least(liner.uplift_factor, limit.filled))
      and is(liner.underdrain, "fitted")
  end,
  why = [[When the pool is emptied in spring, ground water stands as high as ever and pushes the
    liner up like a tent, stones and plants on it. A few inches of water under an empty liner are
    more than any sheet weighs. A drain under it, to daylight or to a sump, is laid now or
    never.]],
  source = "USACE ETL 1110-2-307, second hand; factors cf. EM 1110-2-2100 Table 3-4, from memory",
  caution = "Ground water stands highest in the wet season: ask what the neighbors' cellars show.",
  fix = { set = "underdrain", to = "fitted" },
  examples = {
    { "lifts when drained", liner = { uplift_factor_drained = "0.4", uplift_factor = "1.6",
      underdrain = "none" }, outcome = "flagged" },
    { "lifts even filled", liner = { uplift_factor_drained = "1.3", uplift_factor = "1.25",
      underdrain = "none" }, outcome = "flagged" },
    { "drained below", liner = { uplift_factor_drained = "0.4", uplift_factor = "1.6",
      underdrain = "fitted" }, outcome = "clear" },
    { "at the limit", liner = { uplift_factor_drained = "1.2", uplift_factor = "1.3" },
      outcome = "clear" },
    { "no ground water", liner = { of = { depth = "3 ft", ground_depth = "3 ft" } },
      site = { ground_water = "none" }, outcome = "clear" },
  },
}

rule "liner-lap" {
  title = "Pieces of liner lap 12 in, well over the water and with the flow",
  for_each = "liner", when = { pieces = { at_least = "2" } }, stage = "liner", severity = "hold",
  limit = { lap = "12 in", over = "2 in" },
  check = function(liner, limit)
    return at_least(liner.lap, limit.lap) or at_least(liner.lap_over_water, limit.over)
      or is(liner.lap_with_flow, "yes")
  end,
  why = [[Where two pieces only lie on each other, the lap is the leak. Water climbs between the
    sheets when the lap is short or lies under the level below it, and runs straight in when the
    upper piece is tucked under the lower one.]],
  source = "common practice, no source",
  fix = { raise = "lap", by = "2 in", to_no_more_than = "36 in" },
  examples = {
    { "short", liner = { pieces = 2, lap = "8 in", lap_over_water = "3 in", lap_with_flow = "yes" },
      outcome = "flagged" },
    { "low", liner = { pieces = 2, lap = "14 in", lap_top = "1 in", of = { water_level = "0 in" },
      lap_with_flow = "yes" }, outcome = "flagged" },
    { "against the flow", liner = { pieces = 2, lap = "14 in", lap_over_water = "3 in",
      lap_with_flow = "no" }, outcome = "flagged" },
    { "at the limit", liner = { pieces = 2, lap = "12 in", lap_over_water = "2 in",
      lap_with_flow = "yes" }, outcome = "clear" },
    { "one piece", liner = { pieces = 1 }, outcome = "not applicable" },
  },
}

rule "underlay-missing" {
  title = "The liner is cushioned on both sides",
  for_each = "liner", stage = "liner", severity = "revise",
  judges = "underlay", is = "both sides",
  why = [[Below, a root or a sharp stone works up through the membrane in a year or two. Above,
    the first stone that slides while it is set cuts it. Underlay costs a small part of what it
    costs to find a hole under four tons of rock.]],
  source = "common practice, no source",
  fix = { set = "underlay", to = "both sides" },
  examples = {
    { "below only", liner = { underlay = "one side" }, outcome = "flagged" },
    { "both", liner = { underlay = "both sides" }, outcome = "clear" },
  },
}

rule "underlay-missing-stone" {
  title = "A stone that stands on the liner has underlay above and below it",
  for_each = "boulder", when = { stands_on = "underlay on liner" },
  stage = "liner", severity = "revise",
  judges = "underlay", is = "both sides",
  why = [[A stone puts its weight on a few points. A double cushion under the membrane and one
    over it spread those points; anything that sticks out over half an inch is knocked off
    first. A leak under a set stone means lifting it again.]],
  source = "common practice, no source",
  fix = { set = "underlay", to = "both sides" },
  examples = {
    { "bare membrane", boulder = { stands_on = "underlay on liner", underlay = "none" },
      outcome = "flagged" },
    { "cushioned", boulder = { stands_on = "underlay on liner", underlay = "both sides" },
      outcome = "clear" },
  },
}

rule "channel-edge-low" {
  title = "The liner stands well over the running water along a stream",
  for_each = "channel", stage = "liner", severity = "revise",
  limit = { depths = "2", over = "4 in" },
  check = function(channel, limit)
    return at_least(channel.edge_to_spare, limit.over)
      or at_least(channel.edge_depths, limit.depths)
  end,
  why = [[Water in a stream piles up behind every stone, and leaves and moss make it pile higher
    in the second year. Where the edge is only as high as the running water, the bank takes the
    rest and the basin below goes short. Once more the running depth, and never less than 4 in,
    is cheap while the liner is still being cut.]],
  source = "common practice, no source",
  fix = { raise = "edge", by = "1 in", to_no_more_than = "24 in" },
  examples = {
    { "low edge", channel = { edge = "5 in", depth_high = "2 in", climb = "0 in" }, outcome = "flagged" },
    { "high edge", channel = { edge = "10 in", depth_high = "2 in", climb = "0 in" }, outcome = "clear" },
    { "at the limit, shallow", channel = { edge = "6 in", depth_high = "2 in", climb = "0 in" }, outcome = "clear" },
    { "at the limit, deep", channel = { edge = "12 in", depth_high = "6 in", climb = "0 in" }, outcome = "clear" },
    { "deep water, 4 in is not enough", channel = { edge = "10 in", depth_high = "6 in", climb = "0 in" },
      outcome = "flagged" },
  },
}

rule "liner-described" {
  title = "The liner of each pool is described",
  for_each = "basin", when = { purpose = { one_of = { "plunge", "fish", "display" } } },
  stage = "liner", severity = "hold",
  judges = "liner_count", at_least = "1",
  why = [[The liner's edge is what the water finds first. A pool without one in the design has no
    edge height to check against the highest water, and no cushion under the stone.]],
  source = "common practice, no source",
  fix = { advise = "Write a liner with `of`, `edge` and `underlay`." },
  examples = {
    { "none", basin = { purpose = "display" }, outcome = "flagged" },
    { "one", basin = { purpose = "fish", liners = { {} } }, outcome = "clear" },
    { "at the limit", basin = { purpose = "plunge", liner_count = 1 }, outcome = "clear" },
    { "a bowl", basin = { purpose = "bowl" }, outcome = "not applicable" },
  },
}
