-- SPDX-License-Identifier: MIT
-- In here: what was taken on site against what is worked out. Where the two disagree, one of them is wrong, and a
-- review that stands on the wrong one is worth nothing. Your own figures belong in your layer, not in this file.

rule "measured-disagrees" {
  title = "What was taken on site agrees with what is worked out",
  for_each = { "basin", "spill", "channel", "intake", "pump", "pipe", "jet", "boulder", "dig", "liner", "wall",
    "coping", "circuit" },
  when = { measured_values = { at_least = "1" } },
  stage = "water-up", severity = "revise",
  judges = "measured_apart", at_most = "20 %",
  why = [[A bucket that catches half of what the drawing says has found something: a valve left half shut, a pipe of
    another size, a stone of another sort. From here on the review believes the bucket. Find out which of the two is
    wrong before more is built on it.]],
  source = "common practice, no source",
  fix = { advise = "Measure once more, another way. If it stands, mend what the drawing says of the part." },
  examples = {
    { "half of it", spill = { measured_values = "1", measured_apart = "50 %" }, outcome = "flagged" },
    { "a wall that came out longer", wall = { length = "10 ft", footing_to_top = "36 in", face_area = "45 ft2" },
      outcome = "flagged" },
    { "near enough", spill = { measured_values = "1", measured_apart = "8 %" }, outcome = "clear" },
    { "at the limit", spill = { measured_values = "1", measured_apart = "20 %" }, outcome = "clear" },
    { "nothing measured", spill = { measured_values = "0", measured_apart = "0 %" }, outcome = "not applicable" },
  },
}

rule "measured-level-disagrees" {
  title = "A level taken on site agrees with what is worked out",
  for_each = "basin",
  when = { measured_values = { at_least = "1" } },
  stage = "water-up", severity = "revise",
  judges = "levels_apart", at_most = "1 in",
  why = [[Water finds every inch. A level that stands an inch from where the drawing has it means another rim, another
    pump or a leak. Overflow and intake were set for the drawing's level.]],
  source = "common practice, no source",
  fix = { advise = "Take the level again from the benchmark. If it stands, look for a leak before anything else." },
  examples = {
    { "higher than it was to rise", basin = { water_level = "-6 in", running_level = "-5 in",
      rise_at_power_loss = "2 in", highest_water = "-1 in" }, outcome = "flagged" },
    { "two inches low", basin = { measured_values = "1", levels_apart = "2 in" }, outcome = "flagged" },
    { "near enough", basin = { measured_values = "1", levels_apart = "1/2 in" }, outcome = "clear" },
    { "at the limit", basin = { measured_values = "1", levels_apart = "1 in" }, outcome = "clear" },
  },
}
