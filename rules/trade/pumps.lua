-- SPDX-License-Identifier: MIT
-- In here: pumps, intakes and filters.
-- Changes of your own go into rules/house, not in here: the next version replaces this file.
-- To try it: `forebay rule-test` runs the examples under each rule.
-- Units: every number is text with its unit ("2,400 gal/h", "8 ft/s", "2 h").

rule "pump-cannot-lift" {
  title = "The lift leaves the pump some head to work with",
  for_each = "pump", stage = "plumbing", severity = "hold",
  judges = "static_share", at_most = "90 %",
  why = [[A pump moves nothing at the top of its curve. When the lift alone eats nine tenths of
    that, a little slime in the pipe or a low voltage stops the fall. Such a pump runs hot and
    is paid for twice.]],
  source = "worked out from the maker's curve; 90 %: common practice, no source",
  fix = { advise = "Choose a pump with more head at no flow, or bring the outlet down." },
  examples = {
    { "at its end", pump = { static_head = "13 ft", shut_off_head = "14 ft" },
      outcome = "flagged" },
    { "head to spare", pump = { static_head = "7 ft", shut_off_head = "14 ft" },
      outcome = "clear" },
    { "at the limit", pump = { static_share = "90 %" }, outcome = "clear" },
  },
}

rule "pump-off-its-curve" {
  title = "The pump works in the middle of its curve",
  for_each = "pump", stage = "plumbing", severity = "revise",
  judges = "share_of_greatest", within = { "20 %", "85 %" },
  why = [[At the left end of its curve a pump churns and heats the water it stands in. At the
    right end it rattles, wears and draws the most power. Either way it lasts a season or two
    instead of ten.]],
  source = "common practice, no source",
  fix = { advise = [[Choose a pump whose curve passes the duty in its middle, or change the
    pipe size.]] },
  examples = {
    { "nearly shut off", pump = { flow = "200 gal/h", greatest_flow = "2,100 gal/h" },
      outcome = "flagged" },
    { "wide open", pump = { share_of_greatest = "95 %" }, outcome = "flagged" },
    { "in the middle", pump = { flow = "1,200 gal/h", greatest_flow = "2,100 gal/h" },
      outcome = "clear" },
    { "at the limit, low", pump = { share_of_greatest = "20 %" }, outcome = "clear" },
    { "at the limit, high", pump = { share_of_greatest = "85 %" }, outcome = "clear" },
  },
}

rule "pump-off-its-best" {
  title = "The pump works near the flow it is best at",
  for_each = "pump", stage = "plumbing", severity = "revise",
  judges = "share_of_best", within = { "70 %", "120 %" },
  why = [[Each pump has one flow at which it runs quiet and wastes least. Far from it the
    bearings take side load and the bill goes up every month. The maker's sheet names that flow;
    write it down once.]],
  source = "ANSI/HI 9.6.3-2012, second hand",
  fix = { advise = "Choose a pump that is best near this flow, or change the pipe size." },
  examples = {
    { "far above", pump = { flow = "2,000 gal/h", best_flow = "1,300 gal/h" },
      outcome = "flagged" },
    { "close by", pump = { flow = "1,500 gal/h", best_flow = "1,300 gal/h" }, outcome = "clear" },
    { "at the limit", pump = { flow = "1,560 gal/h", best_flow = "1,300 gal/h" },
      outcome = "clear" },
  },
}

rule "intake-overdrawn" {
  title = "The pumps draw no more than the intake is rated for",
  for_each = "intake", stage = "plumbing", severity = "revise",
  judges = "share_of_greatest", at_most = "100 %",
  why = [[An intake that is asked for too much pulls its own water down, sucks air and starves
    the pump. The weir door slams and the basket fills with what should have floated. Read the
    maker's band against all the pumps together.]],
  source = "the maker's rating",
  fix = { advise = "A larger intake, or a second one with its own pump." },
  examples = {
    { "too much", intake = { flow = "6,000 gal/h", greatest_flow = "5,000 gal/h" },
      outcome = "flagged" },
    { "inside its band", intake = { flow = "4,000 gal/h", greatest_flow = "5,000 gal/h" },
      outcome = "clear" },
    { "at the limit", intake = { flow = "5,000 gal/h", greatest_flow = "5,000 gal/h" },
      outcome = "clear" },
  },
}

rule "intake-too-big-for-pump" {
  title = "The pumps draw enough for the intake to work",
  for_each = "intake", stage = "plumbing", severity = "revise",
  judges = "share_of_least", at_least = "100 %",
  why = [[A skimmer skims only when enough water goes over its weir. With too small a pump the
    leaves drift past it, sink and rot. A smaller intake would do better for less money.]],
  source = "the maker's rating",
  fix = { advise = "A smaller intake, or more flow through it." },
  examples = {
    { "too little", intake = { flow = "900 gal/h", least_flow = "1,500 gal/h" },
      outcome = "flagged" },
    { "enough", intake = { flow = "4,000 gal/h", least_flow = "1,500 gal/h" }, outcome = "clear" },
    { "at the limit", intake = { flow = "1,500 gal/h", least_flow = "1,500 gal/h" },
      outcome = "clear" },
  },
}

rule "gap-draws-down" {
  title = "Water runs slowly, and hardly drops, through the gap in front of a hidden skimming intake",
  for_each = "intake",
  when = { type = "skimming", ["basin.purpose"] = { one_of = { "plunge", "display", "bowl", "hollow" } } },
  stage = "plumbing", severity = "revise",
  limit = { most = "1 ft/s", drop = "1/2 in" },
  check = function(intake, limit)
    return at_most(intake.gap_speed, limit.most) or at_most(intake.gap_draw_down, limit.drop)
  end,
  why = [[Stones set close to hide a skimmer can choke it: the water behind them drops, the pump
    sucks air and nobody sees why. Leave a gap as wide as the flow needs, at the water line,
    where the leaves come in.]],
  source = "common practice, no source",
  fix = { raise = "gap_width", by = "1/2 in", to_no_more_than = "36 in" },
  examples = {
    { "a slot", intake = { type = "skimming", flow = "4,000 gal/h", gap_width = "2 in",
      gap_depth = "6 in", basin = { purpose = "display" } }, outcome = "flagged" },
    { "it drops", intake = { type = "skimming", gap_speed = "0.9 ft/s", gap_draw_down = "3/4 in",
      basin = { purpose = "display" } }, outcome = "flagged" },
    { "a doorway", intake = { type = "skimming", flow = "4,000 gal/h", gap_width = "10 in",
      gap_depth = "9 in", basin = { purpose = "display" } }, outcome = "clear" },
    { "at the limit", intake = { type = "skimming", flow = "1 ft3/s", gap_width = "12 in",
      gap_depth = "12 in", basin = { purpose = "display" } }, outcome = "clear" },
  },
}

rule "gap-draws-down-fish" {
  title = "Water runs slowly enough through the gap before an intake for fish to swim out of it",
  for_each = "intake", when = { type = "skimming", ["basin.purpose"] = "fish" },
  stage = "plumbing", severity = "revise",
  judges = "gap_speed", at_most = "0.5 ft/s",
  why = [[Fish like the shade between two stones, and small ones cannot hold against a stream for
    long. Half a foot a second is what a weak fish swims out of. A wider gap costs nothing.]],
  source = "common practice, no source",
  fix = { raise = "gap_width", by = "1/2 in", to_no_more_than = "36 in" },
  examples = {
    { "a race", intake = { type = "skimming", gap_speed = "0.8 ft/s",
      basin = { purpose = "fish" } }, outcome = "flagged" },
    { "a doorway", intake = { type = "skimming", flow = "1,500 gal/h", gap_width = "8 in",
      gap_depth = "8 in", basin = { purpose = "fish" } }, outcome = "clear" },
    { "at the limit", intake = { type = "skimming", gap_speed = "0.5 ft/s",
      basin = { purpose = "fish" } }, outcome = "clear" },
  },
}

rule "gap-too-slow" {
  title = "Water moves through the gap before a skimming intake fast enough to carry leaves",
  for_each = "intake", when = { type = "skimming" },
  stage = "plumbing", severity = "advise",
  judges = "gap_speed", at_least = "0.1 ft/s",
  why = [[A skimmer behind a wide gap draws from everywhere and pulls the surface from nowhere.
    Leaves float past and sink. A narrower gap, or a shallower one, makes the surface move.]],
  source = "common practice, no source",
  fix = { advise = "Set the hiding stones closer, or raise the sill between them." },
  examples = {
    { "a wide bay", intake = { type = "skimming", flow = "1,000 gal/h", gap_width = "36 in",
      gap_depth = "12 in" }, outcome = "flagged" },
    { "it draws", intake = { type = "skimming", gap_speed = "0.3 ft/s" }, outcome = "clear" },
    { "at the limit", intake = { type = "skimming", gap_speed = "0.1 ft/s" }, outcome = "clear" },
  },
}

rule "check-valve-needed" {
  title = "What runs back out of the pipes does not put the basin over its rim",
  for_each = "pump", stage = "plumbing", severity = "revise",
  limit = { least = "0 in" },
  check = function(pump, limit)
    local over = at_least(pump.freeboard_left, limit.least)
    return over and at_most(pump.freeboard_with_check, limit.least) and over
  end,
  why = [[A long line empties itself into the pool when the power fails, on top of what comes
    down from the lips. Here that share alone decides whether the pool runs over. A check valve
    keeps the line full and costs less than the first lost filling.]],
  source = "worked out from the levels",
  fix = { set = "pipes_out.check_valve", to = "fitted" },
  examples = {
    { "the line decides", pump = { from = { freeboard = "3 in", rise_at_power_loss = "3 1/2 in" },
      freeboard_with_check = "1/2 in" },
      outcome = "flagged" },
    { "it would run over anyway", pump = { freeboard_left = "-2 in",
      freeboard_with_check = "-1 in" }, outcome = "clear" },
    { "room to spare", pump = { freeboard_left = "1 in", freeboard_with_check = "2 in" },
      outcome = "clear" },
    { "at the limit", pump = { freeboard_left = "0 in", freeboard_with_check = "1/2 in" },
      outcome = "clear" },
  },
}

rule "pipe-too-fast-suction" {
  title = "Water goes no faster than 6 ft/s in a suction line",
  for_each = "pump", when = { type = "dry" }, stage = "plumbing", severity = "revise",
  judges = "suction_velocity", at_most = "6 ft/s",
  why = [[A pump can push hard and suck little. In a narrow suction line the water boils at the
    impeller, which rattles like gravel and is eaten away. Draw that line a size larger than the
    one behind the pump.]],
  source = [[common practice, no source; pool standards ANSI/APSP/ICC-15 and -7 name 6 ft/s,
    second hand]],
  fix = { advise = "Take the next larger suction size, or stand the pump nearer." },
  examples = {
    { "too narrow", pump = { type = "dry", flow = "4,000 gal/h", suction_size = "1 1/2 in",
      suction_length = "5 ft" }, outcome = "flagged" },
    { "two inch", pump = { type = "dry", suction_velocity = "3 ft/s" }, outcome = "clear" },
    { "at the limit", pump = { type = "dry", suction_velocity = "6 ft/s" }, outcome = "clear" },
  },
}

rule "intake-swirl" {
  title = "Enough water stands over an intake's opening at the start",
  for_each = "intake", when = { type = "submerged" }, stage = "plumbing", severity = "revise",
  judges = "cover_to_spare", at_least = "0 in",
  why = [[With too little water over it an opening pulls down a swirl with a core of air, and the
    pump coughs. It happens at the start, when lips and pipes take their share and the basin is
    at its lowest. Deeper, wider, or two openings instead of one.]],
  source = "ANSI/HI 9.8, second hand",
  fix = { raise = "cover_depth", by = "1 in", to_no_more_than = "60 in" },
  examples = {
    { "too shallow", intake = { type = "submerged", start_cover = "6 in",
      cover_asked = "8 in" }, outcome = "flagged" },
    { "deep enough", intake = { type = "submerged", start_cover = "12 in", flow = "2,000 gal/h",
      bore = "3 in" }, outcome = "clear" },
    { "at the limit", intake = { type = "submerged", cover_to_spare = "0 in" },
      outcome = "clear" },
  },
}

rule "filter-overdrawn" {
  title = "A filter is given no more flow than it is rated for",
  for_each = "filter", stage = "plumbing", severity = "revise",
  judges = "loading", at_most = "100 %",
  why = [[Water pushed through a filter too fast carries the dirt with it, and the medium packs
    or channels. It clogs in days, and then the falls go thin. The maker's figure is the most,
    not the aim.]],
  source = "the maker's rating",
  fix = { advise = "A larger filter, two side by side, or a line of its own for the falls." },
  examples = {
    { "too much", filter = { flow = "5,000 gal/h", rated_flow = "4,000 gal/h" },
      outcome = "flagged" },
    { "inside its rating", filter = { flow = "3,000 gal/h", rated_flow = "4,000 gal/h" },
      outcome = "clear" },
    { "at the limit", filter = { loading = "100 %" }, outcome = "clear" },
  },
}

rule "service-reach" {
  title = "What needs a hand every week is within 24 in of dry footing",
  for_each = { "intake", "pump", "filter", "light" }, stage = "plumbing", severity = "revise",
  judges = "reach_in", at_most = "24 in",
  why = [[A basket nobody can reach is a basket nobody empties. Two feet is what a person kneeling
    on firm ground reaches without going in. Draw the flat stone to kneel on, now.]],
  source = "common practice, no source",
  fix = { lower = "reach_in", by = "2 in", to_no_less_than = "0 in" },
  examples = {
    { "out in the middle", intake = { reach_in = "4 ft" }, outcome = "flagged" },
    { "beside the path", pump = { reach_in = "12 in" }, outcome = "clear" },
    { "at the limit", filter = { reach_in = "24 in" }, outcome = "clear" },
  },
}

rule "service-reach-lid" {
  title = "A filter's lid weighs no more than one person lifts",
  for_each = "filter", stage = "plumbing", severity = "revise",
  judges = "lid", at_most = "50 lb",
  why = [[The lid comes off every week for years, mostly by somebody alone. A slab that takes two
    stays on, and the filter goes bad under it. Split the stone, or set it on a light frame.]],
  source = "common practice, no source",
  fix = { advise = "A lighter lid, or one in two halves." },
  examples = {
    { "a slab", filter = { lid = "120 lb" }, outcome = "flagged" },
    { "a light one", filter = { lid = "20 lb" }, outcome = "clear" },
    { "at the limit", filter = { lid = "50 lb" }, outcome = "clear" },
  },
}

rule "grate-load" {
  title = "The cover of a sump carries the stone on it and a person besides",
  for_each = "intake", when = { type = "sump" },
  stage = "plumbing", severity = "hold", life_safety = true,
  judges = "load_to_spare", at_least = "0 lb",
  why = [[Gravel and stone hide the pit, and somebody will stand on them. A cover that gives way
    drops a person into a hole with a running pump. Count the stone at its heaviest, and a
    person of 300 lb.]],
  source = "statics; 300 lb: common practice, no source",
  caution = "The cover's maker rates it on its own bearing. A cut or cracked cover carries nothing.",
  fix = { advise = "A cover that is rated for more, or less stone on it." },
  examples = {
    { "a light grate", intake = { type = "sump", load_rating = "400 lb", load_over = "250 lb" },
      outcome = "flagged" },
    { "rated for it", intake = { type = "sump", load_rating = "800 lb", load_over = "250 lb" },
      outcome = "clear" },
    { "at the limit", intake = { type = "sump", load_rating = "550 lb", load_over = "250 lb" },
      outcome = "clear" },
  },
}
