-- SPDX-License-Identifier: MIT
-- In here: what happens when the power fails, a storm comes or a rim runs over.
-- Changes of your own go into rules/house, not in here: the next version replaces this file.
-- To try it: `forebay rule-test` runs the examples under each rule.
-- Units: every number is text with its unit ("2 in", "90 %").

rule "overflows-when-power-fails" {
  title = "The basin takes the water that comes down when the power fails",
  for_each = "basin", stage = "layout", severity = "hold",
  judges = "freeboard_left", at_least = "0 in",
  why = [[All the water on the lips, in the streams and in the pipes comes down at once when the
    pump stops. If the lowest basin has no room for it, that water is gone, and the pump sucks
    air when the power comes back. It happens in the first storm, with the owner looking on.]],
  source = "worked out from the water in flight and the basin's own shape",
  fix = { raise = "rim", by = "1/2 in" },
  examples = {
    { "no room", basin = { freeboard = "2 in", rise_at_power_loss = "3 in" }, outcome = "flagged" },
    { "room to spare", basin = { rim = "0 in", water_level = "-4 in", rise_at_power_loss = "2 in" },
      outcome = "clear" },
    { "at the limit", basin = { freeboard_left = "0 in" }, outcome = "clear" },
  },
}

rule "overflows-while-running" {
  title = "The rim stands over the running water",
  for_each = "basin", stage = "layout", severity = "hold",
  judges = "running_freeboard", at_least = "0 in",
  why = [[A basin that spills stands higher while it runs: the water has to climb over the lip.
    A narrow lip with a strong pump lifts it to the rim, and then it goes over the back, where
    nobody planned it. Widen the lip or raise the rim.]],
  source = "worked out from the weir law of the lip, low end; coefficients second hand",
  fix = { raise = "rim", by = "1/2 in" },
  examples = {
    { "over the back", basin = { rim = "44 in", running_level = "44 1/2 in" },
      outcome = "flagged" },
    { "below the rim", basin = { rim = "44 in", running_level = "43 in" }, outcome = "clear" },
    { "at the limit", basin = { running_freeboard = "0 in" }, outcome = "clear" },
  },
}

rule "freeboard-low" {
  title = "The rim stands 2 in over still water",
  for_each = "basin", stage = "layout", severity = "revise",
  judges = "freeboard", at_least = "2 in",
  why = [[Two inches is what rain, wind and a leaf in the lip use up in a week. It also hides
    the levels that are not quite what the drawing says. Less, and the basin is losing water
    from the day it is filled.]],
  source = "common practice, no source",
  fix = { raise = "rim", by = "1/4 in" },
  examples = {
    { "an inch", basin = { rim = "0 in", water_level = "-1 in" }, outcome = "flagged" },
    { "four inches", basin = { rim = "0 in", water_level = "-4 in" }, outcome = "clear" },
    { "at the limit", basin = { rim = "44 in", water_level = "42 in" }, outcome = "clear" },
  },
}

rule "intake-dry-at-start" {
  title = "The intake still works while the water goes up at the start",
  for_each = "intake", stage = "layout", severity = "hold",
  judges = "start_to_spare", at_least = "0 in",
  why = [[All that comes down when the power fails has to go up again at the start, and for that
    while the lowest basin stands low. An intake that sucks air then starts the pump dry, every
    time the power blinks. More surface below, or a deeper intake, cures it.]],
  source = "worked out: the water in flight comes out of the basin",
  fix = { lower = "lowest_level", by = "1/2 in" },
  examples = {
    { "sucks air", intake = { lowest_level = "-6 in",
      basin = { start_level = "-7 in" } }, outcome = "flagged" },
    { "deep enough", intake = { start_to_spare = "2 in" }, outcome = "clear" },
    { "at the limit", intake = { lowest_level = "-7 in",
      basin = { start_level = "-7 in" } }, outcome = "clear" },
  },
}

rule "storm-overtops" {
  title = "The basin takes the storm on top of a power loss",
  for_each = "basin", when = { purpose = { one_of = { "plunge", "fish", "display" } } },
  stage = "layout", severity = "revise",
  judges = "storm_freeboard", at_least = "0 in",
  why = [[Storms take the power with them, so the rain falls into a basin that is already full.
    Roof and paving that drain toward it bring many times what falls on the water. Count that
    area honestly, and lead it elsewhere if you can. Half of the overflow's entrance is counted
    as full of leaves, because it is.]],
  source = "worked out from the storm, the areas, the basin's shape and the overflow; inlet law from memory",
  fix = { raise = "rim", by = "1/2 in" },
  examples = {
    { "a roof drains into it", basin = { purpose = "display", rim = "0 in", storm_level = "1/2 in" },
      outcome = "flagged" },
    { "only its own rain", basin = { purpose = "display", rim = "0 in", storm_level = "-1 in" },
      outcome = "clear" },
    { "at the limit", basin = { purpose = "display", rim = "0 in", storm_level = "0 in" },
      outcome = "clear" },
    { "no storm stated", basin = { purpose = "display", rim = "0 in", rain_area = "100 ft2" },
      outcome = "unanswered" },
  },
}

rule "rim-not-caught" {
  title = "What runs over a raised bowl's rim is caught by a lined ring",
  for_each = "basin",
  when = function(basin)
    if basin.purpose ~= "bowl" then return false end
    return basin.caught_share >= q"90 %" or basin.time_to_dry > q"12 h"
  end,
  stage = "layout", severity = "revise",
  limit = { share = "90 %", over = "0 in" },
  check = function(basin, limit)
    local open = at_least(basin.caught_share, limit.share)
    return open and at_least(basin.blocked_freeboard, limit.over) and open
  end,
  why = [[Leaves or ice block the lip of a raised bowl sooner or later, and then it goes over
    the rim all round. A lined gravel ring that leads back loses nothing; bare soil loses the
    whole basin below in time. The lip itself may stand outside the ring. A bowl whose other lip
    takes all the water needs no ring.]],
  source = "common practice, no source; levels and times worked out",
  fix = { advise = [[Draw the lined ring round the whole bowl but for the lip, and lead it
    back down.]] },
  examples = {
    { "half a ring", basin = { purpose = "bowl", caught_length = "7 ft", perimeter = "14 ft",
      blocked_freeboard = "-1/4 in", time_to_dry = "3 day" }, outcome = "flagged" },
    { "all round", basin = { purpose = "bowl", caught_length = "14 ft", perimeter = "14 ft" },
      outcome = "clear" },
    { "a second lip takes it", basin = { purpose = "bowl", caught_share = "0 %",
      blocked_freeboard = "1 in", time_to_dry = "1 yr" }, outcome = "clear" },
    { "dry before morning", basin = { purpose = "bowl", caught_share = "50 %", time_to_dry = "2 h" },
      outcome = "not applicable" },
    { "at the limit", basin = { purpose = "bowl", caught_share = "90 %" }, outcome = "clear" },
  },
}

rule "rim-not-caught-runs-dry" {
  title = "A blocked lip does not empty the basin below within 12 h",
  for_each = "basin",
  when = function(basin)
    return basin.purpose == "bowl" and basin.caught_share < q"90 %"
  end,
  stage = "layout", severity = "hold",
  judges = "time_to_dry", at_least = "12 h",
  why = [[A leaf in the lip at dusk, and the pump runs dry before anybody is up: the water went
    over the back of the bowl into the bank. The pump is gone, and what the ground under the bowl
    and the next wall did with that water shows later. Close the ring, or give the bowl a second
    lip.]],
  source = "worked out from the flow, the ring and the water over the intake; 12 h: common practice, no source",
  fix = { advise = [[Draw the lined ring round the whole bowl but for the lip, and lead it back
    down; or a low-water switch and a second lip.]] },
  examples = {
    { "dry by midnight", basin = { purpose = "bowl", caught_share = "50 %", uncaught_loss = "200 gal/h",
      pipes_in = { { from = { from = { basin = { usable_volume = "400 gal" } } } } } }, outcome = "flagged" },
    { "most of a ring, a large pool", basin = { purpose = "bowl", caught_share = "85 %",
      time_to_dry = "2 day" }, outcome = "clear" },
    { "all round", basin = { purpose = "bowl", caught_share = "100 %" },
      outcome = "not applicable" },
    { "at the limit", basin = { purpose = "bowl", caught_share = "50 %", time_to_dry = "12 h" },
      outcome = "clear" },
  },
}

rule "iced-lip" {
  title = "A bowl whose pump runs in frost loses nothing when its lip ices up",
  for_each = "spill", when = { ["site.frost"] = "running" },
  stage = "water-up", severity = "revise",
  limit = { share = "90 %", over = "0 in" },
  check = function(spill, limit)
    local open = at_least(spill.from.blocked_freeboard, limit.over)
    return open and at_least(spill.from.caught_share, limit.share) and open
  end,
  why = [[Ice grows in from both sides of a lip until the water looks for another way. Where
    that way leaves the liner, the pump empties the basin below in a cold night and then runs
    dry. Shut the feature down for the frost, or lead the ring back.]],
  source = "worked out with the lip blocked altogether; 90 %: common practice, no source",
  fix = { advise = "Drain it for the winter, close the lined ring, or give the bowl a second lip." },
  examples = {
    { "over the back", site = { frost = "running" },
      spill = { from = { rim = "30 in", blocked_level = "30 1/4 in", caught_share = "40 %" } },
      outcome = "flagged" },
    { "the ring takes it", site = { frost = "running" },
      spill = { from = { blocked_freeboard = "-1/4 in", caught_length = "14 ft", perimeter = "14 ft" } },
      outcome = "clear" },
    { "at the limit", site = { frost = "running" },
      spill = { from = { blocked_freeboard = "0 in" } }, outcome = "clear" },
    { "drained", site = { frost = "drained" }, spill = { drip_edge = "none" },
      outcome = "not applicable" },
  },
}

rule "gravel-ring-drains-slowly" {
  title = "The gravel ring passes all that comes into the bowl",
  for_each = "basin",
  when = function(basin)
    if basin.purpose ~= "bowl" then return false end
    for _, stretch in ipairs(basin.ring) do
      if stretch.lined == "yes" then return true end
    end
    return false
  end,
  stage = "layout", severity = "revise",
  limit = { spare = "0 gal/h", over = "0 in" },
  check = function(basin, limit)
    local slow = at_least(basin.ring_flow_to_spare, limit.spare)
    return slow and at_least(basin.blocked_freeboard, limit.over) and slow
  end,
  why = [[Water runs through gravel far slower than through a pipe. A ring that is long, level or
    of fine stone fills up and runs over its outer edge while it still looks dry inside. Wider,
    deeper, coarser, with more fall, or with a perforated pipe in it or more places to drain, it
    passes more. Silt makes it pass less with the years.]],
  source = "Ergun's law, second hand; clean stone, all of the water in one stretch",
  fix = { advise = [[Shorten the way to where it drains, give its bed fall, widen it, or take
    coarser stone.]] },
  examples = {
    { "long and level", site = { gravel_size = "3/4 in" }, basin = { purpose = "bowl",
      flow_in = "1,600 gal/h", blocked_freeboard = "-1/4 in",
      ring = { { starts = "0 ft", ends = "13 ft", width = "12 in", depth = "6 in",
      lined = "yes", fall = "0 in" } } }, outcome = "flagged" },
    { "not lined: another rule's matter", basin = { purpose = "bowl", ring = { { lined = "no" } } },
      outcome = "not applicable" },
    { "short and steep", site = { gravel_size = "1 1/2 in" }, basin = { purpose = "bowl",
      flow_in = "1,600 gal/h", ring = { { starts = "0 ft", ends = "12 ft", width = "18 in",
      depth = "8 in", lined = "yes", path = "6 ft", fall = "6 in" } } }, outcome = "clear" },
    { "at the limit", basin = { purpose = "bowl", flow_in = "1,600 gal/h",
      ring_flow = "1,600 gal/h", ring = { { lined = "yes" } } }, outcome = "clear" },
  },
}

rule "rim-runs-one-side" {
  title = "A stone or bowl that runs over its rim is wet as far round as wanted",
  for_each = "basin",
  when = function(basin)
    if #basin.spills_out > 0 or #basin.channels_out > 0 then return false end
    return #basin.rim_profile > 0 or basin.purpose == "hollow"
  end,
  stage = "stone", severity = "revise",
  judges = "wet_to_spare", at_least = "0 %",
  why = [[Water an eighth of an inch deep finds the lowest side of a stone and runs there alone.
    More pump hardly helps: the rim has to be level to less than that depth. Measure it with a
    level, shim the stone or grind the high side, and look at it with a hose before it is set for
    good.]],
  source = "worked out along the measured rim, highest coefficient; at such depths no weir law was tested",
  fix = { advise = "Shim the stone, grind the high side of its rim, or be content with one wet side." },
  examples = {
    { "one side", basin = { wet_wanted = "80 %", rim_wet_share = "40 %",
      rim_profile = { { level = "20 in" } } }, outcome = "flagged" },
    { "level to a sixteenth", basin = { wet_wanted = "80 %", perimeter = "8 ft", flow_in = "900 gal/h",
      flow_drawn = "0 gal/h", rim_profile = { { at = "0 ft", level = "20 in" },
      { at = "4 ft", level = "20 1/16 in" } } }, outcome = "clear" },
    { "at the limit", basin = { wet_wanted = "80 %", rim_wet_share = "80 %",
      rim_profile = { { level = "20 in" } } }, outcome = "clear" },
    { "nobody took the levels of the hollow's rim", basin = { purpose = "hollow", wet_wanted = "80 %",
      rim = "20 in", perimeter = "8 ft", flow_in = "900 gal/h", flow_drawn = "0 gal/h" },
      outcome = "unanswered" },
  },
}

rule "bowl-holds-ice" {
  title = "A bowl or hollow with steep sides drains before the frost",
  for_each = "basin",
  when = { purpose = { one_of = { "bowl", "hollow" } }, ["site.frost"] = { one_of = { "drained", "running" } } },
  stage = "layout", severity = "revise",
  limit = { depth = "1 in", sides = "1H:2V" },
  check = function(basin, limit)
    local deep = at_most(basin.trapped_depth, limit.depth)
    return deep and at_least(basin.side_slope, limit.sides) and deep
  end,
  why = [[Ice wants a tenth more room than its water, and between upright walls it takes that room
    by bursting them. Water left under the drain does it each winter. Drain it to the bottom, or
    let the sides lie back so that the ice can ride up.]],
  source = "growth of 9 %, from memory; depth and slope: common practice, no source",
  fix = { lower = "drain_at", by = "1/2 in" },
  examples = {
    { "a pot", site = { frost = "drained" },
      basin = { purpose = "hollow", trapped_depth = "6 in", side_slope = "upright" },
      outcome = "flagged" },
    { "a saucer", site = { frost = "drained" },
      basin = { purpose = "bowl", trapped_depth = "6 in", side_slope = "1H:1V" }, outcome = "clear" },
    { "drained to the bottom", site = { frost = "running" },
      basin = { purpose = "bowl", trapped_depth = "0 in", side_slope = "upright" }, outcome = "clear" },
    { "at the limit", site = { frost = "drained" },
      basin = { purpose = "bowl", trapped_depth = "1 in", side_slope = "upright" }, outcome = "clear" },
    { "no frost", site = { frost = "none" }, basin = { purpose = "bowl" },
      outcome = "not applicable" },
  },
}

rule "fill-overtops" {
  title = "The overflow takes what a stuck fill brings",
  for_each = "basin", when = { purpose = { one_of = { "plunge", "fish", "display" } } },
  stage = "layout", severity = "hold",
  judges = "fill_freeboard", at_least = "0 in",
  why = [[Fill valves stick open, mostly while the owner is away, and then they run for weeks. An
    overflow that takes the whole of it turns a flooded cellar into a water bill. Half of its
    entrance is counted as full of leaves.]],
  source = "worked out; inlet law from memory, half open: common practice, no source",
  fix = { raise = "overflow_bore", by = "1/2 in", to_no_more_than = "6 in" },
  examples = {
    { "no wider than a hose", basin = { purpose = "display", rim = "0 in", fill_flow = "8 gal/min",
      overflow_bore = "3/4 in", overflow_at = "-2 in" }, outcome = "flagged" },
    { "wide enough", basin = { purpose = "display", rim = "0 in", fill_flow = "5 gal/min",
      overflow_bore = "3 in", overflow_at = "-2 in" }, outcome = "clear" },
    { "at the limit", basin = { purpose = "display", rim = "0 in", fill_level = "0 in" },
      outcome = "clear" },
  },
}

rule "makeup-short" {
  title = "The fill brings what air, wind and leaks take in the dry month",
  for_each = "basin", when = { purpose = { one_of = { "plunge", "fish", "display" } } },
  stage = "plumbing", severity = "advise",
  judges = "makeup_to_spare", at_least = "0 gal/day",
  why = [[Stone that lies in the sun, falls and jets lose far more than still water. When the fill
    cannot follow, the owner tops up with a hose, forgets it once, and the pump runs dry.]],
  source = "pan figure of the place; 3 % a day for wind and splash: common practice, no source",
  fix = { raise = "fill_flow", by = "1/2 gal/min", to_no_more_than = "20 gal/min" },
  examples = {
    { "a drip line", basin = { purpose = "display", fill_flow = "50 gal/day", loss = "120 gal/day" },
      outcome = "flagged" },
    { "a valve", basin = { purpose = "display", fill_flow = "5 gal/min",
      evaporation_loss = "30 gal/day", splash_loss = "60 gal/day", leak_loss = "8 gal/day" },
      outcome = "clear" },
    { "at the limit", basin = { purpose = "display", fill_flow = "120 gal/day",
      loss = "120 gal/day" }, outcome = "clear" },
  },
}

rule "leak-test-figure" {
  title = "The basin lost no more than 1/8 in a day in the leak test",
  for_each = "basin",
  when = { purpose = { one_of = { "plunge", "fish", "display" } }, ["project.leak_test"] = "passed" },
  stage = "finish", severity = "hold",
  judges = "leak", at_most = "1/8 in/day",
  why = [[Beyond what the pan beside it lost, an eighth of an inch a day is what nobody can tell
    from evaporation. More is a hole, a low edge or a fold, and it is found in an hour while the
    edge is bare. Write down what was measured; a test without a figure is a memory.]],
  source = "common practice, no source",
  fix = { advise = "Find the leak before the edge is dressed: let it fall until it stops, and look there." },
  examples = {
    { "half an inch", project = { leak_test = "passed" },
      basin = { purpose = "display", leak = "1/2 in/day" },
      outcome = "flagged" },
    { "tight", project = { leak_test = "passed" }, basin = { purpose = "display", leak = "0 in/day" },
      outcome = "clear" },
    { "at the limit", project = { leak_test = "passed" }, basin = { purpose = "display", leak = "1/8 in/day" },
      outcome = "clear" },
    { "not yet", project = { leak_test = "planned" }, basin = { purpose = "display" },
      outcome = "not applicable" },
  },
}

rule "levels-stack-up" {
  title = "The errors of level leave the basin its freeboard",
  for_each = "basin", when = { purpose = { one_of = { "plunge", "fish", "display" } } },
  stage = "layout", severity = "revise",
  judges = "levels_left", at_least = "0 in",
  why = [[The rim is as high as the drawing says, give or take what went wrong on the way from the
    fixed point. Where the rise at a power loss leaves less than that, the basin may run over
    although the drawing shows room.]],
  source = "root of the sum of squares, from memory (surveying textbooks)",
  fix = { raise = "rim", by = "1/4 in" },
  examples = {
    { "a quarter inch left, half an inch wrong", project = { level_error = "1/2 in" },
      basin = { purpose = "display", freeboard_left = "1/4 in" }, outcome = "flagged" },
    { "room for it", project = { closing_error = "1/8 in" },
      basin = { purpose = "display", freeboard_left = "3 in" }, outcome = "clear" },
    { "at the limit", project = { level_error = "1/4 in" },
      basin = { purpose = "display", freeboard_left = "1/4 in" }, outcome = "clear" },
  },
}

rule "intake-in-bubbles" {
  title = "The intake keeps the firm's distance from falling water",
  for_each = "intake", when = { clear_of_landing = { at_least = "1 in" } },
  stage = "plumbing", severity = "revise",
  judges = "landing_to_spare", at_least = "0 in",
  why = [[Falling water drags air down, and an intake beside it takes that air along: the pump
    rattles, loses flow and wears. How far is far enough no law says for sheets like these, so
    the figure is the firm's own; without one this rule is silent.]],
  source = "common practice, no source; the firm's figure",
  fix = { advise = "Move the intake away from where the water lands, or put a stone between." },
  examples = {
    { "right under it", intake = { clear_of_landing = "24 in", from_landing = "12 in" },
      outcome = "flagged" },
    { "well away", intake = { clear_of_landing = "24 in", from_landing = "5 ft" }, outcome = "clear" },
    { "at the limit", intake = { clear_of_landing = "24 in", from_landing = "24 in" },
      outcome = "clear" },
    { "no figure", intake = { type = "submerged" }, outcome = "not applicable" },
  },
}
