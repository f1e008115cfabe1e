-- SPDX-License-Identifier: MIT
-- In here: pumps, pipes, intakes, jets, and how fast a basin turns over.
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

rule "pipe-too-fast" {
  title = "Water goes no faster than 8 ft/s in a pressure pipe",
  for_each = "pipe", stage = "plumbing", severity = "revise",
  judges = "velocity", at_most = "8 ft/s",
  why = [[Friction grows with the square of the speed, and at 8 ft/s the pump works mostly for
    the pipe. The line also hums, and hammers when it stops. One size larger costs a few dollars
    a foot before it is buried and a trench afterwards.]],
  source = [[common practice, no source; pool standards ANSI/APSP/ICC-15 and -7 ask less, second
    hand]],
  fix = { advise = "Take the next larger pipe size." },
  examples = {
    { "too small a pipe", pipe = { flow = "3,000 gal/h", bore = "1 in" }, outcome = "flagged" },
    { "two inch", pipe = { flow = "3,000 gal/h", bore = "2 in" }, outcome = "clear" },
    { "at the limit", pipe = { velocity = "8 ft/s" }, outcome = "clear" },
  },
}

rule "pipe-too-slow" {
  title = "Water goes at 2 ft/s or more in a pressure pipe",
  for_each = "pipe", stage = "plumbing", severity = "advise",
  judges = "velocity", at_least = "2 ft/s",
  why = [[Slow water lets sand and slime settle, and air stays in the high spots. The pipe is a
    size or two larger than the job needs. It works, but it wants flushing.]],
  source = "common practice, no source",
  fix = { advise = "Take a smaller pipe size, if the flow to the outlets still holds." },
  examples = {
    { "too large a pipe", pipe = { flow = "1,000 gal/h", bore = "3 in" }, outcome = "flagged" },
    { "right size", pipe = { flow = "2,500 gal/h", bore = "2 in" }, outcome = "clear" },
    { "at the limit", pipe = { velocity = "2 ft/s" }, outcome = "clear" },
  },
}

rule "siphon-back" {
  title = "A pipe that ends under water cannot draw its basin back down",
  for_each = "pipe", stage = "plumbing", severity = "revise",
  judges = "siphon_back", at_most = "0 gal",
  why = [[When the pump stops, a drowned outlet turns round and siphons the upper basin down to
    its mouth. All that water lands in the lowest basin in a few minutes. A check valve, or an
    outlet over the water, ends it.]],
  source = "worked out from the levels",
  fix = { set = "check_valve", to = "fitted" },
  examples = {
    { "drowned, no check valve", pipe = { siphon_back = "60 gal" }, outcome = "flagged" },
    { "ends in air", pipe = { outlet = "above water", check_valve = "none",
      from = {}, to = {} },
      outcome = "clear" },
    { "at the limit", pipe = { siphon_back = "0 gal" }, outcome = "clear" },
  },
}

rule "target-flow-missed" {
  title = "Spills and jets get the flow that was wanted, within a tenth",
  for_each = { "spill", "jet" }, stage = "plumbing", severity = "revise",
  judges = "share_of_target", within = { "90 %", "110 %" },
  why = [[The picture the owner signed has a certain amount of water in it. A tenth more or less
    nobody sees; beyond that it splashes or it dribbles. Find it here, where a pipe size costs
    nothing.]],
  source = "worked out from pump and pipes; a tenth: common practice, no source",
  fix = { advise = "Another pump, pipe size or valve opening brings the flow to its target." },
  examples = {
    { "far too little", spill = { flow = "800 gal/h", target = "1,200 gal/h" },
      outcome = "flagged" },
    { "close", jet = { flow = "2,500 gal/h", target = "2,600 gal/h" }, outcome = "clear" },
    { "at the limit", spill = { flow = "900 gal/h", target = "1,000 gal/h" }, outcome = "clear" },
  },
}

rule "target-flow-missed-dirty" {
  title = "Spills and jets keep nine tenths of their flow when the filters are dirty",
  for_each = { "spill", "jet" }, stage = "plumbing", severity = "advise",
  limit = { least = "90 %" },
  check = function(outlet, limit)
    local dirty = at_least(outlet.share_filter_dirty, limit.least)
    return dirty and at_most(outlet.share_of_target, limit.least) and dirty
  end,
  why = [[On the day it is set the filter is clean; the owner lives with the day before it is
    washed. If the fall dies by then, it is the filter that was drawn too small. A line of its
    own for the filter keeps the fall out of it.]],
  source = "worked out from pump, pipes and the filter's dirty loss; a tenth: common practice",
  fix = { advise = "A larger filter, or a line of its own for it." },
  examples = {
    { "dies down", spill = { share_filter_dirty = "60 %", share_of_target = "105 %" },
      outcome = "flagged" },
    { "hardly seen", jet = { share_filter_dirty = "97 %", share_of_target = "100 %" },
      outcome = "clear" },
    { "too little from the first day", spill = { share_filter_dirty = "60 %",
      share_of_target = "70 %" }, outcome = "clear" },
    { "at the limit", spill = { share_filter_dirty = "90 %", share_of_target = "100 %" },
      outcome = "clear" },
  },
}

rule "basin-balance" {
  title = "As much water comes back to a basin as the pumps take out of it",
  for_each = "basin", when = { flow_drawn = { at_least = "1 gal/h" } },
  stage = "plumbing", severity = "hold",
  judges = "return_share", at_least = "90 %",
  why = [[When the pumps draw from one basin and the water comes back to another, the first runs
    dry while the second runs over. It happens wherever a line is added late. A tenth is left
    for flows that were measured with a bucket.]],
  source = "worked out: what goes in comes out",
  fix = { advise = [[Lead the return to the basin that the pumps draw from, or join the two
    basins.]] },
  examples = {
    { "comes back elsewhere", basin = { flow_in = "1,000 gal/h", flow_drawn = "3,000 gal/h" },
      outcome = "flagged" },
    { "all comes back", basin = { flow_in = "3,000 gal/h", flow_drawn = "3,000 gal/h" },
      outcome = "clear" },
    { "at the limit", basin = { flow_in = "2,700 gal/h", flow_drawn = "3,000 gal/h" },
      outcome = "clear" },
  },
}

rule "turnover-slow" {
  title = "A display basin turns over once in 2 hours",
  for_each = "basin", when = { purpose = { one_of = { "display", "plunge" } } },
  stage = "plumbing", severity = "revise",
  judges = "turnover", at_most = "2 h",
  why = [[Water that stands goes green. One turnover passes only about two thirds of the water,
    because the clean mixes with the rest, so it takes several to clear a basin. A basin that
    takes all day for one never catches up in July.]],
  source = "common practice, no source",
  fix = { advise = "More flow through the basin, or a smaller basin." },
  examples = {
    { "all morning", basin = { purpose = "display", turnover = "4 h" }, outcome = "flagged" },
    { "from volume and flow", basin = { purpose = "display", net_volume = "1,500 gal",
      flow_in = "1,500 gal/h", flow_drawn = "1,500 gal/h" }, outcome = "clear" },
    { "at the limit", basin = { purpose = "display", turnover = "2 h" }, outcome = "clear" },
  },
}

rule "turnover-slow-fish" {
  title = "A fish basin turns over once in an hour",
  for_each = "basin", when = { purpose = "fish" },
  stage = "plumbing", severity = "revise",
  judges = "turnover", at_most = "1 h",
  why = [[Fish foul their water every hour of the day, and the filter can only clean what
    reaches it. Once an hour is what keepers settle on. Less shows as sick fish in the first
    warm spell.]],
  source = "common practice, no source",
  fix = { advise = "More flow through the filter, or fewer fish in a smaller basin." },
  examples = {
    { "too slow", basin = { purpose = "fish", turnover = "2 h" }, outcome = "flagged" },
    { "from volume and flow", basin = { purpose = "fish", net_volume = "1,500 gal",
      flow_in = "2,000 gal/h", flow_drawn = "2,000 gal/h" }, outcome = "clear" },
    { "at the limit", basin = { purpose = "fish", turnover = "1 h" }, outcome = "clear" },
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

rule "jet-too-high" {
  title = "A jet in the open is no higher than half the way to the edge",
  for_each = "jet", when = { wind = "open" },
  stage = "plumbing", severity = "advise",
  judges = "height_to_edge", at_most = "1/2",
  why = [[Wind carries a jet about as far as it is high, and gusts carry it twice that. The
    water ends on the paving, where it makes ice or slime, and the basin has to be topped up
    daily. Lower the jet or stand it farther in.]],
  source = "common practice, no source",
  fix = { advise = "A lower jet (larger bore or less head), or a place farther from the edge." },
  examples = {
    { "tall in a small basin", jet = { wind = "open", height = "3 ft 6 in", to_edge = "4 ft" },
      outcome = "flagged" },
    { "low", jet = { wind = "open", height = "12 in", to_edge = "4 ft" }, outcome = "clear" },
    { "at the limit", jet = { wind = "open", height = "2 ft", to_edge = "4 ft" },
      outcome = "clear" },
  },
}

rule "jet-too-high-sheltered" {
  title = "A sheltered jet is no higher than the way to the edge",
  for_each = "jet", when = { wind = "sheltered" },
  stage = "plumbing", severity = "advise",
  judges = "height_to_edge", at_most = "1",
  why = [[Between walls the wind is small, yet a jet still breaks into drops at its top and they
    fall outward. As high as the edge is far is what a courtyard takes without wet shoes.]],
  source = "common practice, no source",
  fix = { advise = "A lower jet (larger bore or less head), or a place farther from the edge." },
  examples = {
    { "over the edge", jet = { wind = "sheltered", height = "5 ft", to_edge = "4 ft" },
      outcome = "flagged" },
    { "low", jet = { wind = "sheltered", height = "3 ft", to_edge = "4 ft" }, outcome = "clear" },
    { "at the limit", jet = { wind = "sheltered", height = "4 ft", to_edge = "4 ft" },
      outcome = "clear" },
  },
}

rule "branch-without-valve" {
  title = "Each branch behind a joint has a valve of its own",
  for_each = "junction", stage = "plumbing", severity = "revise",
  check = function(junction)
    local bare
    for _, pipe in ipairs(junction.pipes_out) do
      bare = bare or is(pipe.valve, "ball", "gate", "globe")
    end
    return #junction.pipes_out > 1 and bare or nil
  end,
  why = [[Where one line feeds two outlets the nearer takes most of the water. A valve on each
    branch is how you share it out on the last day. Without one you cut the pipe, and by then it
    lies under the stones.]],
  source = "common practice, no source",
  fix = { advise = "Draw a valve in each branch, where a hand gets to it." },
  examples = {
    { "one branch bare", junction = { pipes_out = { { valve = "ball" }, { valve = "none" } } },
      outcome = "flagged" },
    { "both have one", junction = { pipes_out = { { valve = "ball" }, { valve = "gate" } } },
      outcome = "clear" },
    { "no branching", junction = { pipes_out = { { valve = "none" } } }, outcome = "clear" },
  },
}

rule "one-pump-out" {
  title = "Pumps that share a line have a check valve each",
  for_each = "junction", stage = "plumbing", severity = "revise",
  check = function(junction)
    local bare
    for _, pipe in ipairs(junction.pipes_in) do
      bare = bare or is(pipe.check_valve, "fitted")
    end
    return #junction.pipes_in > 1 and bare or nil
  end,
  why = [[When one of two pumps stops, the other pushes its water back down through the dead one
    and nothing reaches the top. It spins the idle pump backward, too. One check valve on each
    pump is the price of having two.]],
  source = "worked out from the pipes",
  fix = { set = "pipes_in.check_valve", to = "fitted" },
  examples = {
    { "one bare", junction = { pipes_in = { { check_valve = "fitted" },
      { check_valve = "none" } } },
      outcome = "flagged" },
    { "both fitted", junction = { pipes_in = { { check_valve = "fitted" },
      { check_valve = "fitted" } } },
      outcome = "clear" },
    { "one pump alone", junction = { pipes_in = { { check_valve = "none" } } }, outcome = "clear" },
  },
}

rule "one-pump-out-fish" {
  title = "Fish are left with some flow when a pump stops",
  for_each = "basin", when = { purpose = "fish" },
  stage = "plumbing", severity = "advise",
  judges = "flow_in_pump_out", at_least = "1 gal/h",
  why = [[A pump fails on the hottest day, when water holds the least air, and by the next
    morning the fish are gone. A second, smaller pump on its own line, or an air pump, carries
    them over until somebody notices.]],
  source = "worked out from pumps and pipes, each pump out in turn",
  fix = { advise = "A second pump on a line of its own, or an air pump on another circuit." },
  examples = {
    { "one pump for all", basin = { purpose = "fish", flow_in_pump_out = "0 gal/h" },
      outcome = "flagged" },
    { "two lines", basin = { purpose = "fish", flow_in_pump_out = "600 gal/h" },
      outcome = "clear" },
    { "at the limit", basin = { purpose = "fish", flow_in_pump_out = "1 gal/h" },
      outcome = "clear" },
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
    { "the line decides", pump = { freeboard_left = "-1/2 in", freeboard_with_check = "1/2 in" },
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

rule "valve-nearly-shut" {
  title = "No valve has to be nearly shut to keep the flow down",
  for_each = "pipe", when = { valve = { one_of = { "ball", "gate", "globe" } } },
  stage = "plumbing", severity = "revise",
  judges = "valve_k", at_most = "50",
  why = [[A valve that hardly opens is a knife: it hums, wears, and a leaf shuts it. A turn of
    two degrees changes the flow by half, so nobody ever sets it twice alike. A smaller pump or
    an orifice plate does the same work and stays as it is.]],
  source = "common practice, no source",
  fix = { advise = "A smaller pump, a slower one, or an orifice plate in the line." },
  examples = {
    { "a quarter open", pipe = { valve = "ball", valve_open = "25 %" }, outcome = "flagged" },
    { "half open", pipe = { valve = "ball", valve_open = "50 %" }, outcome = "clear" },
    { "at the limit", pipe = { valve = "ball", valve_k = "50" }, outcome = "clear" },
  },
}

rule "valve-nearly-shut-for-target" {
  title = "No valve has to be nearly shut to bring the flow down to its target",
  for_each = "pipe", when = { valve = { one_of = { "ball", "gate", "globe" } } },
  stage = "plumbing", severity = "revise",
  limit = { most = 50 },
  check = function(pipe, limit)
    local needed = at_most(pipe.k_for_target, limit.most)
    return needed and at_least(pipe.valve_k, limit.most) and needed
  end,
  why = [[The pump gives this branch far more than it should have, and the valve is left to burn
    it off. Nearly shut it hums and clogs, and nobody sets it twice alike. What it burns is paid
    for every month.]],
  source = "worked out from pump, pipes and targets; K 50: common practice, no source",
  fix = { advise = "A smaller pump, a slower one, or an orifice plate in the line." },
  examples = {
    { "far too much pump", pipe = { valve = "ball", k_for_target = "130", valve_k = "0.05" },
      outcome = "flagged" },
    { "a little throttling", pipe = { valve = "ball", k_for_target = "12", valve_k = "0.05" },
      outcome = "clear" },
    { "drawn nearly shut, which is said elsewhere", pipe = { valve = "ball", k_for_target = "130",
      valve_k = "275" }, outcome = "clear" },
    { "at the limit", pipe = { valve = "ball", k_for_target = "50", valve_k = "0.05" },
      outcome = "clear" },
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

rule "pipe-test" {
  title = "Each pipe is tested with water before it is covered",
  for_each = "pipe", stage = "plumbing", severity = "revise",
  judges = "water_test", is = "planned",
  why = [[A joint that weeps under the stones is found by taking the stones off again. Fill the
    line, cap it, and hold it at one and a half times the pump's shut-off head for an hour
    before anything goes on top. Never use air: a cap that lets go under air kills.]],
  source = "common practice, no source",
  caution = "Water only. Stand clear of caps and ends while the line is under pressure.",
  fix = { set = "water_test", to = "planned" },
  examples = {
    { "none", pipe = { water_test = "none" }, outcome = "flagged" },
    { "planned", pipe = { water_test = "planned" }, outcome = "clear" },
  },
}

rule "pipe-freezes" {
  title = "A pipe that stays full in winter lies under the frost",
  for_each = "pipe", when = { ["site.frost"] = "running" },
  stage = "plumbing", severity = "revise",
  judges = "cover_below_frost", at_least = "0 in",
  why = [[Running water seldom freezes, but the pump stops some night in January, and then all of
    the line freezes at once and splits. Under the frost, or drained each autumn: one of the two.]],
  source = "common practice, no source",
  fix = { raise = "cover_depth", by = "2 in", to_no_more_than = "60 in" },
  examples = {
    { "a foot down", pipe = { cover_depth = "12 in", from = {}, to = {} },
      site = { frost = "running", frost_depth = "30 in" }, outcome = "flagged" },
    { "under the frost", pipe = { cover_depth = "36 in" },
      site = { frost = "running", frost_depth = "30 in" }, outcome = "clear" },
    { "at the limit", pipe = { cover_depth = "30 in" },
      site = { frost = "running", frost_depth = "30 in" }, outcome = "clear" },
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
