-- SPDX-License-Identifier: MIT
-- In here: lips: whether the water keeps its shape, and where it lands.
-- Changes of your own go into rules/house, not in here: the next version replaces this file.
-- To try it: `forebay rule-test` runs the examples under each rule.
-- Units: every number is text with its unit ("40 gal/h/in", "1/8 in").

rule "sheet-breaks-up" {
  title = "A lip that shall make a sheet gets enough water for it",
  for_each = "spill", when = { effect = "sheet" },
  stage = "plumbing", severity = "revise",
  limit = { least = "40 gal/h/in", share = 1 },
  check = function(spill, limit)
    return at_least(spill.flow_per_width, limit.least) or at_least(spill.sheet_share, limit.share)
  end,
  why = [[A thin film tears on its way down and runs back under the lip. A higher fall needs far
    more water for each inch: twice the drop asks about nine times as much. Narrow the lip
    before buying a larger pump. What the firm has seen work on its own lips beats this figure.]],
  source = [[40 gal/h/in: common practice; growth with the drop: from memory, not confirmed,
    extrapolated]],
  fix = { lower = "lip_width", by = "1/2 in", to_no_less_than = "4 in" },
  examples = {
    { "thin film", spill = { effect = "sheet", flow_per_width = "30 gal/h/in", sheet_share = "2" },
      outcome = "flagged" },
    { "enough for a low lip, not for this drop",
      spill = { effect = "sheet", flow_per_width = "60 gal/h/in", drop = "4 ft" },
      outcome = "flagged" },
    { "full sheet", spill = { effect = "sheet", flow = "1,530 gal/h", lip_width = "14 in",
      drop = "16 in" }, outcome = "clear" },
    { "at the limit", spill = { effect = "sheet", flow_per_width = "40 gal/h/in", drop = "2 ft" },
      outcome = "clear" },
    { "at the limit of the drop",
      spill = { effect = "sheet", flow_per_width = "90 gal/h/in", sheet_share = "1" },
      outcome = "clear" },
  },
}

rule "lip-overfed" {
  title = "A wide lip gets no more water than it can lay down quietly",
  for_each = "spill", when = { effect = { one_of = { "sheet", "trickle" } } },
  stage = "plumbing", severity = "advise",
  limit = { most = "300 gal/h/in", share = "1.5" },
  check = function(spill, limit)
    return at_most(spill.sheet_share, limit.share) and at_most(spill.flow_per_width, limit.most)
  end,
  why = [[Past a certain flow more water brings no more beauty: it roars, splashes and costs
    power day and night. A high fall may have more, because it asks for more. Widen the lip or
    throttle the line.]],
  source = "common practice, no source",
  fix = { raise = "lip_width", by = "1/2 in", to_no_more_than = "60 in" },
  examples = {
    { "a fire hose", spill = { effect = "sheet", flow_per_width = "400 gal/h/in", drop = "2 ft" },
      outcome = "flagged" },
    { "quiet", spill = { effect = "sheet", flow = "1,200 gal/h", lip_width = "12 in", drop = "2 ft" },
      outcome = "clear" },
    { "at the limit",
      spill = { effect = "sheet", flow_per_width = "300 gal/h/in", drop = "2 ft" },
      outcome = "clear" },
    { "much, but the drop asks for it",
      spill = { effect = "sheet", flow_per_width = "400 gal/h/in", sheet_share = "1.2" },
      outcome = "clear" },
  },
}

rule "single-stream-flow" {
  title = "A single stream has between 500 and 1,500 gal/h",
  for_each = "spill", when = { effect = "single stream" },
  stage = "plumbing", severity = "advise",
  judges = "flow", within = { "500 gal/h", "1,500 gal/h" },
  why = [[One rope of water out of one notch: with less it drips down the stone, with more it
    turns into a gush that splashes past the basin. Split more water over a second notch.]],
  source = "common practice, no source",
  fix = { advise = "Change the flow to this lip, or give the stone a second notch." },
  examples = {
    { "a dribble", spill = { effect = "single stream", flow = "300 gal/h" }, outcome = "flagged" },
    { "a gush", spill = { effect = "single stream", flow = "2,400 gal/h" }, outcome = "flagged" },
    { "a rope", spill = { effect = "single stream", crest = "24 in", lip = "notch", lip_width = "4 in",
      lip_depth = "4 in", from = { pipes_in = { { flow = "900 gal/h" } } } }, outcome = "clear" },
    { "plenty for a natural notch", spill = { effect = "single stream", flow = "1,000 gal/h" },
      outcome = "clear" },
    { "at the limit", spill = { effect = "single stream", flow = "1,500 gal/h" },
      outcome = "clear" },
  },
}

rule "single-stream-notch" {
  title = "The notch of a single stream is deeper than the water in it",
  for_each = "spill", when = { effect = "single stream", lip = { one_of = { "notch", "V" } } },
  stage = "plumbing", severity = "advise",
  judges = "notch_depths", at_least = "1.25",
  why = [[When the water stands as high as the notch is deep, it finds the stone beside it and
    the single stream turns into three. A quarter more than the water's depth keeps it in.]],
  source = "common practice, no source",
  fix = { raise = "lip_depth", by = "1/4 in", to_no_more_than = "8 in" },
  examples = {
    { "brim full", spill = { effect = "single stream", lip = "notch", lip_depth = "2 in",
      head_high = "2 in" }, outcome = "flagged" },
    { "deep enough", spill = { effect = "single stream", lip = "notch", lip_depth = "4 in",
      head_high = "2 in" }, outcome = "clear" },
    { "at the limit", spill = { effect = "single stream", lip = "V", lip_depth = "2 1/2 in",
      head_high = "2 in" }, outcome = "clear" },
  },
}

rule "lip-out-of-level" {
  title = "A sheet's lip is level enough to run over its whole width",
  for_each = "spill", when = { effect = "sheet" },
  stage = "plumbing", severity = "revise",
  limit = { dry = "20 %", excess = "30 %" },
  check = function(spill, limit)
    return at_most(spill.dry_share, limit.dry) or at_most(spill.local_excess, limit.excess)
  end,
  why = [[The water over a lip is often less than an inch deep. Where one end stands half of
    that higher, the low end takes a third more and the sheet is gone on the other. Set the lip
    with a level and water on it, and check it again after the stone has settled.]],
  source = [[worked out along the crest, highest coefficient; how much of it an eye forgives:
    common practice, no source]],
  fix = { lower = "out_of_level", by = "1/16 in", to_no_less_than = "1/16 in" },
  examples = {
    { "one side dry", spill = { effect = "sheet", lip = "broad stone", lip_width = "12 in",
      flow = "1,000 gal/h", out_of_level = "1 in" }, outcome = "flagged" },
    { "level", spill = { effect = "sheet", lip = "broad stone", lip_width = "12 in",
      flow = "1,000 gal/h", out_of_level = "1/8 in" }, outcome = "clear" },
    { "a third of it dry", spill = { effect = "sheet", dry_share = "33 %", local_excess = "10 %" },
      outcome = "flagged" },
    { "at the limit", spill = { effect = "sheet", dry_share = "20 %", local_excess = "30 %" },
      outcome = "clear" },
  },
}

rule "misses-the-basin" {
  title = "The water lands inside the near rim of the basin below",
  for_each = "spill", stage = "plumbing", severity = "hold",
  judges = "lands_inside_by", at_least = "0 in",
  why = [[At low flow a sheet falls almost straight down, and without a drip edge it runs down
    the stone. If the lip is set back from the water, all of that ends outside the liner and the
    basin is empty by the weekend. Judge the nearest water, not the finest.]],
  source = "worked out from the path of falling water; Rouse 1936 for the brink, second hand",
  fix = { lower = "setback", by = "1/2 in", to_no_less_than = "-6 in" },
  examples = {
    { "runs down outside", spill = { throw_low = "0 in", setback = "2 in" }, outcome = "flagged" },
    { "lip stands out over the water", spill = { throw_low = "0 in", setback = "-2 in" },
      outcome = "clear" },
    { "at the limit", spill = { throw_low = "2 in", setback = "2 in" }, outcome = "clear" },
  },
}

rule "misses-the-basin-far" {
  title = "The water lands short of the far rim of the basin below",
  for_each = "spill", stage = "plumbing", severity = "hold",
  judges = "short_of_far_side", at_least = "0 in",
  why = [[At full flow a clean edge throws the water well out, and over a small bowl it clears
    the other side. Everything that clears it is lost. Judge the farthest water, at the widest
    flow the pump can give.]],
  source = "worked out from the path of falling water; Rouse 1936 for the brink, second hand",
  fix = { raise = "setback", by = "1/2 in", to_no_more_than = "6 in" },
  examples = {
    { "over the bowl", spill = { throw_high = "20 in", setback = "0 in", into = {
      inner_across = "18 in" } }, outcome = "flagged" },
    { "well inside", spill = { throw_high = "8 in", setback = "-1 in", into = {
      inner_across = "3 ft" } }, outcome = "clear" },
    { "at the limit", spill = { short_of_far_side = "0 in" }, outcome = "clear" },
  },
}

rule "catching-basin-shallow" {
  title = "Water falls into a depth of at least a third of its drop",
  for_each = "spill", stage = "plumbing", severity = "advise",
  judges = "depth_to_drop", at_least = "1/3",
  why = [[Falling water needs some depth to spend itself in. Over a shallow bed it hammers the
    gravel about, drums on the liner and throws splash over the edge. Deepen the place where it
    lands, or break the fall on a stone.]],
  source = "common practice, no source",
  fix = { advise = "Deepen the basin under the fall, thin its gravel there, or lower the lip." },
  examples = {
    { "a puddle", spill = { drop = "36 in", into = { water_depth = "6 in" } },
      outcome = "flagged" },
    { "a pool", spill = { drop = "36 in", into = { depth = "27 in", gravel_bed = "3 in" } },
      outcome = "clear" },
    { "at the limit", spill = { drop = "36 in", into = { water_depth = "12 in" } },
      outcome = "clear" },
  },
}

rule "water-runs-behind" {
  title = "Liner stands 2 in over the water behind a lip that has no drip edge",
  for_each = "spill", when = { drip_edge = "none" },
  stage = "plumbing", severity = "hold",
  judges = "behind_to_spare", at_least = "2 in",
  why = [[Without a sharp lower edge the water follows the stone back and under. It also rises
    behind the lip whenever leaves lie on it. If the liner ends lower than that, the feature
    loses water into the bank day and night, and nobody sees where. Bring the liner up behind
    the lip stone before it is bedded.]],
  source = "head worked out, low coefficient; 2 in: common practice, no source",
  fix = { raise = "liner_behind", by = "1/2 in", to_no_more_than = "24 in" },
  examples = {
    { "liner ends at the water", spill = { drip_edge = "none", liner_behind = "1 in",
      head_high = "1 in" }, outcome = "flagged" },
    { "up behind the stone", spill = { drip_edge = "none", liner_behind = "6 in", head_high = "1 in" },
      outcome = "clear" },
    { "at the limit", spill = { drip_edge = "none", liner_behind = "3 in", head_high = "1 in" },
      outcome = "clear" },
    { "the stone is cut away below", spill = { drip_edge = "undercut" },
      outcome = "not applicable" },
  },
}

rule "lip-on-fill" {
  title = "A sheet's lip stays level when its fill settles",
  for_each = "spill", when = { effect = "sheet" },
  stage = "plumbing", severity = "revise",
  judges = "settlement_to_spare", at_least = "0 in",
  why = [[Fill goes down by an inch in a hundred in the first years, however well it was
    tamped. With two feet of it under one end of the lip and firm ground under the other, the
    stone tilts and the sheet walks to one side. Bed both ends alike, or on a footing.]],
  source = "1 % of the depth of fill: common practice, no source; the tilt a sheet bears: worked out",
  fix = { lower = "fill_under", by = "1 in", to_no_less_than = "0 in" },
  examples = {
    { "one end on deep fill", spill = { effect = "sheet", level_allowance = "3/8 in",
      out_of_level = "1/8 in", fill_under = "36 in", fill_other = "2 in" }, outcome = "flagged" },
    { "both ends alike", spill = { effect = "sheet", lip = "broad stone", lip_width = "12 in",
      flow = "1,000 gal/h", out_of_level = "1/16 in", fill_under = "6 in", fill_other = "6 in" },
      outcome = "clear" },
    { "at the limit", spill = { effect = "sheet", level_allowance = "3/8 in",
      out_of_level = "1/8 in", settlement_tilt = "1/4 in" }, outcome = "clear" },
  },
}

rule "levels-stack-up-lip" {
  title = "The errors of level that add up leave a sheet's lip level enough",
  for_each = "spill", when = { effect = "sheet" },
  stage = "layout", severity = "revise",
  judges = "levels_left", at_least = "0 in",
  why = [[Each time a height is carried on, a little goes wrong, and the lip gets all of it
    together with its own error and what the fill does later. When that sum is more than the
    lip bears, setting it by the drawing will not do: set it by running water.]],
  source = "root of the sum of squares, from memory (surveying textbooks), and settlement on top",
  fix = { advise = [[Carry the levels round again and close them better, or set this lip with water
    on it.]] },
  examples = {
    { "a rough nail", spill = { effect = "sheet", level_allowance = "1/4 in",
      level_error = "3/8 in" }, outcome = "flagged" },
    { "closed to a sixteenth", project = { closing_error = "1/16 in" },
      spill = { effect = "sheet", level_allowance = "3/8 in", out_of_level = "1/8 in" },
      outcome = "clear" },
    { "at the limit", spill = { effect = "sheet", level_allowance = "1/4 in",
      level_error = "1/4 in" }, outcome = "clear" },
  },
}
