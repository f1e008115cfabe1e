-- SPDX-License-Identifier: MIT
-- In here: what is proven and handed over when the water is up, and life in the water.
-- Changes of your own go into rules/house, not in here: the next version replaces this file.
-- To try it: `forebay rule-test` runs the examples under each rule.
-- Units: every number is text with its unit ("24 in", "600 mm").

rule "leak-test" {
  title = "A leak test is planned",
  for_each = "project", stage = "water-up", severity = "hold",
  judges = "leak_test", is = { "planned", "passed" },
  why = [[Fill it, mark the level, leave the pumps off for a day and look again, with a pan of
    water beside it to show what the sun took. A leak found before the edge is dressed is an
    hour's work. The same leak found in August is the whole edge taken up, for free.]],
  source = "common practice, no source",
  fix = { set = "leak_test", to = "planned" },
  examples = {
    { "none", project = { leak_test = "none" }, outcome = "flagged" },
    { "planned", project = { leak_test = "planned" }, outcome = "clear" },
    { "passed", project = { leak_test = "passed" }, outcome = "clear" },
  },
}

rule "hand-over" {
  title = "The owner gets a sheet with levels, valve marks and what to expect",
  for_each = "project", stage = "water-up", severity = "advise",
  judges = "hand_over", is = "planned",
  why = [[The owner calls when the water rises three inches in a power cut, unless a sheet says
    that it will. Levels as built, valve marks, the rise to expect and the normal loss a day
    save you that drive, and the next one.]],
  source = "common practice, no source",
  fix = { set = "hand_over", to = "planned" },
  examples = {
    { "none", project = { hand_over = "none" }, outcome = "flagged" },
    { "planned", project = { hand_over = "planned" }, outcome = "clear" },
  },
}

rule "fish-winter-depth" {
  title = "Fish have 24 in of open water to winter in",
  for_each = "basin", when = { purpose = "fish" },
  stage = "water-up", severity = "advise",
  judges = "water_depth", at_least = "24 in",
  why = [[The warmest winter water lies at the bottom, and fish sink to it and wait. Gravel
    takes away from that depth. Where winters are hard, go to 36 in and keep a hole open in the
    ice so that bad air can leave.]],
  source = "extension practice, from memory",
  caution = "Never break ice by blows, and never walk on it.",
  fix = { raise = "depth", by = "1 in", to_no_more_than = "48 in" },
  examples = {
    { "too shallow", basin = { purpose = "fish", depth = "24 in", gravel_bed = "4 in" },
      outcome = "flagged" },
    { "deep", basin = { purpose = "fish", depth = "36 in", gravel_bed = "3 in" },
      outcome = "clear" },
    { "at the limit", basin = { purpose = "fish", water_depth = "24 in" }, outcome = "clear" },
  },
}
