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
    area honestly, and lead it elsewhere if you can. An overflow that works is left out here: it
    is what saves the day, not what to count on.]],
  source = "worked out from the storm, the areas and the freeboard",
  fix = { raise = "rim", by = "1/2 in" },
  examples = {
    { "a roof drains into it",
      basin = { purpose = "display", freeboard_left = "2 in", rim_area = "100 ft2",
      water_area = "100 ft2" },
      site = { runoff_area = "300 ft2", storm = { { depth = "1 in", lasts = "15 min" } } },
      outcome = "flagged" },
    { "only its own rain",
      basin = { purpose = "display", freeboard_left = "2 in", rim_area = "100 ft2",
      water_area = "100 ft2" },
      site = { runoff_area = "0 ft2", storm = { { depth = "1 in", lasts = "15 min" } } },
      outcome = "clear" },
    { "at the limit",
      basin = { purpose = "display", freeboard_left = "2 in", rim_area = "100 ft2",
      water_area = "100 ft2" },
      site = { runoff_area = "100 ft2", storm = { { depth = "1 in", lasts = "15 min" } } },
      outcome = "clear" },
    { "no storm stated",
      basin = { purpose = "display", freeboard_left = "2 in", rim_area = "100 ft2",
                water_area = "100 ft2" },
      site = { runoff_area = "0 ft2" }, outcome = "unanswered" },
  },
}

rule "rim-not-caught" {
  title = "What runs over a raised bowl's rim is caught by a lined ring",
  for_each = "basin", when = { purpose = "bowl" },
  stage = "layout", severity = "revise",
  judges = "caught_share", at_least = "90 %",
  why = [[Leaves or ice block the lip of a raised bowl sooner or later, and then it goes over
    the rim all round. A lined gravel ring that leads back loses nothing; bare soil loses the
    whole basin below over night. The lip itself may stand outside the ring.]],
  source = "common practice, no source",
  fix = { advise = [[Draw the lined ring round the whole bowl but for the lip, and lead it
    back down.]] },
  examples = {
    { "half a ring", basin = { purpose = "bowl", caught_length = "7 ft", perimeter = "14 ft" },
      outcome = "flagged" },
    { "all round", basin = { purpose = "bowl", caught_length = "14 ft", perimeter = "14 ft" },
      outcome = "clear" },
    { "at the limit", basin = { purpose = "bowl", caught_share = "90 %" }, outcome = "clear" },
  },
}
