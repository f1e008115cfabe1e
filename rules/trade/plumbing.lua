-- SPDX-License-Identifier: MIT
-- In here: pipes, valves, jets, and how fast a basin turns over.
-- Changes of your own go into rules/house, not in here: the next version replaces this file.
-- To try it: `forebay rule-test` runs the examples under each rule.
-- Units: every number is text with its unit ("2,400 gal/h", "8 ft/s", "2 h").

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
    { "dies down, from its flows", jet = { target = "1,000 gal/h",
      pipes_in = { { flow = "1,000 gal/h", flow_filter_dirty = "600 gal/h" } } }, outcome = "flagged" },
    { "hardly seen", jet = { target = "1,000 gal/h",
      pipes_in = { { flow = "1,000 gal/h", flow_filter_dirty = "970 gal/h" } } }, outcome = "clear" },
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
    { "one pump for all", basin = { purpose = "fish", water_level = "0 in", pipes_in = { {
      size = "1 1/2 in", length = "20 ft", valve = "none", outlet = "above water", outlet_at = "2 ft",
      from = { type = "submersible", from = { water_level = "-4 in" },
        curve = { { flow = "0 gal/h", head = "12 ft" }, { flow = "2,000 gal/h", head = "0 ft" } } } } } },
      outcome = "flagged" },
    { "two lines", basin = { purpose = "fish", flow_in_pump_out = "600 gal/h" },
      outcome = "clear" },
    { "at the limit", basin = { purpose = "fish", flow_in_pump_out = "1 gal/h" },
      outcome = "clear" },
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
    { "a tenth of what the pump gives is wanted", pipe = { size = "1 1/2 in", length = "20 ft", valve = "ball",
      valve_open = "100 %",
      from = { type = "submersible", from = { water_level = "-4 in" },
        curve = { { flow = "0 gal/h", head = "12 ft" }, { flow = "2,000 gal/h", head = "0 ft" } } },
      to = { target = "200 gal/h", orifice = "5/8 in", count = 3, at = "-7 in",
        basin = { water_level = "-4 in" } } }, outcome = "flagged" },
    { "a little throttling", pipe = { valve = "ball", k_for_target = "12", valve_k = "0.05" },
      outcome = "clear" },
    { "drawn nearly shut, which is said elsewhere", pipe = { valve = "ball", k_for_target = "130",
      valve_k = "275" }, outcome = "clear" },
    { "at the limit", pipe = { valve = "ball", k_for_target = "50", valve_k = "0.05" },
      outcome = "clear" },
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
