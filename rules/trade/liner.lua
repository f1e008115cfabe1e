-- SPDX-License-Identifier: MIT
-- In here: the liner's edge and what lies under and over it.
-- Changes of your own go into rules/house, not in here: the next version replaces this file.
-- To try it: `forebay rule-test` runs the examples under each rule.
-- Units: every number is text with its unit ("2 in", "50 mm").

rule "liner-edge-low" {
  title = "The liner's lowest edge stands 2 in over the highest water",
  for_each = "liner", stage = "liner", severity = "hold",
  judges = "edge_over_water", at_least = "2 in",
  why = [[Most leaks are no holes: the edge is low somewhere and water slips over it, behind the
    stones, out of sight. The highest water is not the still water; when the power fails all
    that was up on the lips comes down. On filled ground, which settles, leave 3 in.]],
  source = "common practice, no source",
  fix = { raise = "edge", by = "1/2 in" },
  examples = {
    { "edge at an inch", liner = { edge_over_water = "1 in" }, outcome = "flagged" },
    { "plenty", liner = { edge = "3 in", of = { highest_water = "-1 in" } }, outcome = "clear" },
    { "at the limit", liner = { edge = "1 in", of = { highest_water = "-1 in" } },
      outcome = "clear" },
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
    { "one", basin = { purpose = "fish", liner_count = 1 }, outcome = "clear" },
    { "at the limit", basin = { purpose = "plunge", liner_count = 1 }, outcome = "clear" },
    { "a bowl", basin = { purpose = "bowl" }, outcome = "not applicable" },
  },
}
