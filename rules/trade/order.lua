-- SPDX-License-Identifier: MIT
-- In here: the crew's days and the order of the work.
-- Changes of your own go into rules/house, not in here: the next version replaces this file.
-- To try it: `forebay rule-test` runs the examples under each rule.
-- Units: every number is text with its unit ("3 day", "20 ft"); counts stand alone.

rule "crew-days-short" {
  title = "The days planned are enough at the firm's own rates",
  for_each = "project", stage = "layout", severity = "advise",
  judges = "work_days_over", at_most = "0 day",
  why = [[Stones to set, yards to dig, feet of wall and feet of paving, each at the rate the firm knows of
    itself, add up before the job as well as after it. Days that are missing here are found later on a
    Saturday, with a pit open.]],
  source = "the firm's own rates",
  fix = { advise = "Plan more days, or put a second crew on part of the work." },
  examples = {
    { "two short", project = { work_days = "8 day" }, crew = { days = "6" }, outcome = "flagged" },
    { "one to spare", project = { work_days_over = "-1 day" }, outcome = "clear" },
    { "at the limit", project = { work_days_over = "0 day" }, outcome = "clear" },
  },
}

rule "order-of-work" {
  title = "The order of the work is written down",
  for_each = "project", stage = "layout", severity = "revise",
  judges = "order_stated", is = "stated",
  why = [[Sleeves lie before the paving, pipe is tested before it is covered, stone stands before the edge is
    cut, and water stands for a day before anything is trimmed; caps come last. Each of these out of turn is
    the same work twice, and the second time through finished stone.]],
  source = "common practice, no source",
  fix = { advise = [[Write the order on the drawing: sleeves, pipe and its test, stone, edge, a day full, trim, caps.
    Then write order_stated = "stated".]] },
  examples = {
    { "in somebody's head", project = { order_stated = "none" }, outcome = "flagged" },
    { "on the drawing", project = { order_stated = "stated" }, outcome = "clear" },
  },
}
