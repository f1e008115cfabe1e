-- SPDX-License-Identifier: MIT
-- In here: an example firm's own layer. Copy it, give it your name, and make it say what you know.
-- Put your changes here and leave rules/trade as it is: a new version replaces that folder.
-- To try it: `forebay rule-test --rules rules/house`; `forebay review --rules rules/house DESIGN`.
-- Units: every number is text with its unit ("60 gal/h/in", "24 in").
-- What the firm buys and pays stands beside it, in stock.lua.

-- 1. Another limit of a rule that is pure data: the key that the rule has, with the new value.
adjust "gravel-behind-stone-firm" {
  at_least = "20 in",
  because = "our loader bucket fills 20 in in one pass; less is shoveled by hand",
}

-- 2. Another limit of a rule with a check: by its name under limit.
adjust "sheet-breaks-up" {
  limit = { least = "60 gal/h/in" },
  because = "our slate lips tear below 60; tried on nine of them with a bucket",
}

-- 3. Another severity.
adjust "freeboard-low" {
  severity = "hold",
  because = "we were called back three times for basins with an inch and a half",
}

-- 4. A rule that this firm does without. The report says so, and why.
retire "stone-out-of-scale" {
  because = "tall stones over low lips are how our gardens look; the owner sees the model first",
}

-- 5. A rule of our own, as data.
rule "house-spare-pump" {
  title = "A pump is no larger than the spare on the truck",
  for_each = "pump", stage = "plumbing", severity = "advise",
  judges = "power", at_most = "400 W",
  why = [[We lend the owner a pump the same day while his is being mended. The largest that we
    carry draws 400 W.]],
  source = "the firm's own practice",
  fix = { advise = "Two smaller pumps, each with a line of its own." },
  examples = {
    { "larger than the spare", pump = { power = "750 W" }, outcome = "flagged" },
    { "smaller", pump = { power = "160 W" }, outcome = "clear" },
    { "at the limit", pump = { power = "400 W" }, outcome = "clear" },
  },
}

-- 6. A rule of our own with a check: two values of the design against each other.
rule "house-lip-narrow-for-drop" {
  title = "A sheet is at least half as wide as it is high",
  for_each = "spill", when = { effect = "sheet" },
  stage = "layout", severity = "advise",
  limit = { share = "50 %" },
  check = function(spill, limit)
    return at_least(spill.lip_width, spill.drop * limit.share)
  end,
  why = [[A tall narrow sheet draws together on its way down and ends as a rope. Half as wide as
    high still reads as a curtain from the terrace.]],
  source = "the firm's own practice",
  fix = { raise = "lip_width", by = "1 in", to_no_more_than = "60 in" },
  examples = {
    { "a ribbon", spill = { effect = "sheet", lip_width = "8 in", drop = "24 in" },
      outcome = "flagged" },
    { "a curtain", spill = { effect = "sheet", lip_width = "18 in", drop = "24 in" },
      outcome = "clear" },
    { "at the limit", spill = { effect = "sheet", lip_width = "12 in", drop = "24 in" },
      outcome = "clear" },
  },
}

-- 7. Plain data again, and a thing that every crew lead has an opinion on.
rule "house-cap-thin" {
  title = "A cap stone is 2 in thick",
  for_each = "coping", stage = "finish", severity = "advise",
  judges = "thickness", at_least = "2 in",
  why = [[Thinner caps look like tile from the terrace, and the corners are gone after the first
    winter. Our yard saws them at two inches for the same money.]],
  source = "the firm's own practice",
  fix = { raise = "thickness", by = "1/2 in", to_no_more_than = "4 in" },
  examples = {
    { "tile", coping = { thickness = "1 in" }, outcome = "flagged" },
    { "a slab", coping = { thickness = "3 in" }, outcome = "clear" },
    { "at the limit", coping = { thickness = "2 in" }, outcome = "clear" },
  },
}

-- 8. A check that counts: a count is compared with a plain number.
rule "house-pumps-on-a-breaker" {
  title = "No more than two pumps hang on one breaker",
  for_each = "circuit", stage = "power", severity = "advise",
  limit = { most = 2 },
  check = function(circuit, limit)
    return at_most(count(circuit.feeds), limit.most)
  end,
  why = [[When a breaker trips on a Saturday, all that hangs on it stands still till Monday. With
    two to a breaker the owner still has a fall running, and the fish have their air.]],
  source = "the firm's own practice",
  caution = "What a circuit may carry is for the electrician and the code, whatever is said here.",
  fix = { advise = "Another breaker for the third pump; the electrician decides." },
  examples = {
    { "three on one", circuit = { feeds = { { power = "90 W" }, { power = "90 W" }, { power = "90 W" } } },
      outcome = "flagged" },
    { "one", circuit = { feeds = { { power = "90 W" } } }, outcome = "clear" },
    { "at the limit", circuit = { feeds = { { power = "90 W" }, { power = "90 W" } } }, outcome = "clear" },
  },
}
