-- SPDX-License-Identifier: MIT
-- Crew lesson: a design with mistakes in it, to learn on. Every line marked `-- planted:` is wrong on purpose, two or
-- more for each stage of the job. Review it, find the lines, mend them one at a time, and review again. Invented.
-- Heights are over the site datum: 0 is the top of the stake by the old maple.
--
-- One thing here looks wrong and is not: the pipe of the twin pump parts at a tee, and the right branch is the longer.
-- The water is worked out through both branches at once. The right one goes straight on through the tee, and that is
-- worth more than its 5 ft: both bowls get nearly the same. Shut one valve halfway and see what the other lip gets.

project {
  name = "Crew lesson", units = "us",
  fixed_point = "stake by the maple, 0 in", closing_error = "1/16 in",
  nights_open = 2, pit_watch = "panels round the pits, looked at each morning", dig_days = 2, permit = "asked",
  order_stated = "none",  -- planted: order-of-work
  leak_test = "none",  -- planted: leak-test
  hand_over = "none",  -- planted: hand-over
}

site {
  soil = "type C", ground = "0 in",
  gate_width = "6 ft", gate_height = "open",
  utilities = "not located",  -- planted: utilities-not-located
  private_lines = "none",
  barrier_depth = "18 in",
  test_hole = "6 ft", debris = "none", ground_water = "none", footing_distance = "none",
  storm = { depth = "1 in", lasts = "15 min", returns = "10 yr" }, runoff_area = "20 ft2",
  truck_volume = "10 yd3", truck_limit = "12 ton", haul_cycle = "60 min",
  gravel_size = "3/4 in",
  line_distance = "none", haul_over = "mats",
  frost = "drained", pan_evaporation = "0.25 in/day",
}

-- The pool with the two raised bowls: one pump for both ---------------------------------------------------------------

basin "pool" {
  purpose = "display", reach = "children", entered = "no",
  barrier = "none",  -- planted: barrier-needed
  outline = polygon {
    { "0 ft", "0 ft" }, { "9 ft", "-1 ft" }, { "12 ft", "4 ft" }, { "8 ft", "8 ft" }, { "1 ft", "6 ft" },
  },
  rim = "0 in", water_level = "-6 in", depth = "30 in", side_slope = "upright",
  shelves = { { depth = "11 in", width = "14 in" } },
  gravel_bed = "3 in",
  fill_flow = "4 gal/min", fill_gap = "2 in", fill_bore = "3/4 in", overflow_to = "drain",
  overflow_bore = "3 in", overflow_at = "-5 in",
}
for _, side in ipairs { "left", "right" } do
  basin(side .. " bowl") {
    purpose = "bowl", reach = "children", entered = "no",
    outline = circle "3 ft", rim = "21 in", depth = "12 in", drain_at = "6 1/2 in",
    ring = {
      { starts = "0 ft", ends = "9 ft 6 in", width = "12 in", depth = "6 in", lined = "yes", returns_to = "pool",
        path = "4 ft 9 in", fall = "4 in" },
    },
  }
  spill(side .. " lip") {
    from = side .. " bowl", into = "pool", crest = "18 in", lip = "broad stone", lip_width = "10 in", breadth = "8 in",
    effect = "sheet", drip_edge = "undercut", setback = "-2 in", out_of_level = "1/8 in",
    fill_under = "4 in", fill_other = "4 in",
  }
  boulder(side .. " shoulder") {
    length = "40 in", width = "24 in", height = "30 in", stone = "basalt", shape = "blocky", pose = "lying",
    embedment = "6 in", beside = side .. " bowl", stands_on = "gravel", underlay = "both sides",
    gravel_behind = "20 in", gravel_height = "18 in",
    seat_width = "22 in", people_reach = "yes", machine_beside = "no",
  }
end

intake "skimmer" {
  reach_in = "12 in",
  basin = "pool", type = "skimming", openings = 1, cover = "guarded", open_area = "1 ft2",
  least_flow = "1,000 gal/h", greatest_flow = "4,000 gal/h", lowest_level = "-9 in",
  gap_width = "8 in", gap_depth = "9 in",
  basket = "1 gal",  -- planted: leaf-basket
}
pump "twin pump" {
  reach_in = "12 in",
  from = "skimmer", type = "submersible", low_water_cutoff = "fitted", cord = "6 ft",
  power = "150 W", best_flow = "1,700 gal/h",  -- planted: pump-off-its-best
  curve = { { "0 gal/h", "12 ft" }, { "1,000 gal/h", "10 ft" }, { "2,000 gal/h", "6 ft" }, { "2,800 gal/h", "0 ft" } },
}
pipe "twin line" {
  water_test = "planned",
  from = "twin pump", to = "twin tee", size = "2 in", length = "12 ft", fittings = { { type = "elbow 90", count = 2 } },
}
junction "twin tee" { at = "-12 in" }
pipe "left branch" {
  water_test = "planned",
  from = "twin tee", to = "left bowl", size = "1 1/2 in", length = "9 ft", fittings = { { type = "tee branch" } },
  valve = "ball", outlet = "above water", outlet_at = "22 in",
}
pipe "right branch" {
  water_test = "planned",
  from = "twin tee", to = "right bowl", size = "1 1/2 in", length = "14 ft", fittings = { { type = "tee run" } },
  valve = "ball", outlet = "above water", outlet_at = "22 in",
}

-- The curtain by the gate: a trough, one wide lip, a small pool of its own --------------------------------------------

basin "gate pool" {
  purpose = "display", reach = "adults", entered = "no",
  outline = rectangle { "7 ft", "4 ft" },
  rim = "0 in", water_level = "-5 in", depth = "20 in",
  fill_flow = "4 gal/min", fill_bore = "3/4 in", overflow_to = "drain", overflow_at = "-1 in",
  overflow_bore = "1 in",  -- planted: fill-overtops
  fill_gap = "1 in", fill_device = "none",  -- planted: fill-backflow
}
basin "trough" {
  purpose = "bowl", reach = "adults", entered = "no",
  outline = rectangle { "4 ft", "18 in" }, rim = "36 in", depth = "12 in", drain_at = "21 1/2 in",
  ring = {
    { starts = "0 ft", ends = "11 ft", width = "18 in", depth = "8 in", lined = "yes", returns_to = "gate pool",
      path = "5 ft 6 in", fall = "6 in" },
  },
}
spill "curtain lip" {
  from = "trough", into = "gate pool", crest = "33 in", lip = "thin edge", effect = "sheet", drip_edge = "edge",
  setback = "-1 in", out_of_level = "1/16 in",
  fill_under = "3 in", fill_other = "3 in",
  lip_width = "42 in",  -- planted: sheet-breaks-up
}
pump "curtain pump" {
  reach_in = "12 in",
  from = "gate pool", type = "submersible", power = "220 W", best_flow = "2,300 gal/h", low_water_cutoff = "fitted",
  cord = "15 ft",  -- planted: cord-length
  curve = { { "0 gal/h", "30 ft" }, { "1,500 gal/h", "27 ft" }, { "2,500 gal/h", "21 ft" }, { "4,000 gal/h", "0 ft" } },
}
pipe "curtain line" {
  water_test = "planned",
  from = "curtain pump", to = "trough", length = "16 ft", valve = "gate",
  fittings = { { type = "elbow 90", count = 3 } },
  size = "1 in",  -- planted: pipe-too-fast
  outlet = "drowned", outlet_at = "28 in", check_valve = "none",  -- planted: siphon-back
}

-- Stone ---------------------------------------------------------------------------------------------------------------

boulder "trough stone" {
  length = "3 ft", width = "24 in", height = "3 ft", stone = "granite", shape = "squared", pose = "lying",
  embedment = "8 in", beside = "trough", stands_on = "gravel", underlay = "both sides", gravel_behind = "24 in",
  gravel_height = "20 in", seat_width = "22 in", people_reach = "yes", machine_beside = "no",
}
boulder "seat stone" {
  length = "4 ft", width = "30 in", height = "24 in", stone = "granite", shape = "blocky", pose = "lying",
  embedment = "5 in", beside = "pool", stands_on = "underlay on liner", underlay = "both sides",
  gravel_height = "12 in", seat_width = "24 in", people_reach = "no", machine_beside = "no",
  shelf_edge = "20 in", shelf_drop = "19 in",
  gravel_behind = "6 in",  -- planted: gravel-behind-stone
  seat_slope = "7H:1V",  -- planted: seat-slope, state-slides
}
boulder "tall stone" {
  length = "26 in", width = "18 in", height = "3 ft", stone = "basalt", shape = "squared", pose = "upright",
  beside = "pool", stands_on = "gravel", underlay = "both sides", gravel_behind = "20 in", gravel_height = "12 in",
  embedment = "4 in",  -- planted: stone-shallow-set-upright
  people_reach = "no", seat_width = "10 in",  -- planted: state-tips
}
machine "track loader" {
  height = "7 ft", weight = "7,800 lb", chart = "rated", greatest_reach = "11 ft",
  track_length = "5 ft", track_width = "13 in",
  lifts = {
    { reach = "6 ft", rated = "4,200 lb", deducted = "200 lb" },
    { reach = "10 ft", rated = "2,400 lb", deducted = "200 lb" },
  },
  from_edge = "2 ft",  -- planted: machine-at-edge
  width = "5 ft 8 in",  -- planted: gate-too-narrow
}

sling "web slings" { rated = "6,000 lb", tag = "yes", edge_guard = "fitted" }
for _, stone in ipairs { "left shoulder", "right shoulder", "trough stone" } do
  pick(stone .. " in") {
    of = stone, machine = "track loader", sling = "web slings", legs = 2, hitch = "basket", leg_angle = "60 deg",
    reach = "6 ft", carried = "no", people_clear = "stated",
  }
end
pick "seat stone in" {
  of = "seat stone", machine = "track loader", sling = "web slings", legs = 2, hitch = "basket", leg_angle = "60 deg",
  carried = "no", people_clear = "stated",
  reach = "10 ft",  -- planted: machine-overloaded
}
pick "tall stone in" {
  of = "tall stone", machine = "track loader", sling = "web slings", legs = 2, hitch = "basket", reach = "6 ft",
  carried = "no", people_clear = "stated",
  leg_angle = "25 deg",  -- planted: sling-overloaded
}
crew {
  people = 3, fall_zone_kept = "stated",
  cutting = "dry", silica_row = "none",  -- planted: silica-dust
}

-- Ground, liner, wall -------------------------------------------------------------------------------------------------

dig "pool pit" {
  of = "pool", examined = "yes", protection = "sloped", way_out = "10 ft",
  slope = "0.5H:1V",  -- planted: slope-too-steep
  staged_from_edge = "8 ft",
  spoil_setback = "6 in",  -- planted: spoil-at-edge
}
dig "gate pit" {
  of = "gate pool", examined = "yes", protection = "sloped", slope = "1.5H:1V", way_out = "10 ft",
  staged_from_edge = "3 ft",
  spoil_setback = "3 ft",
}
tree "old maple" {
  trunk = "14 in",
  distance = "4 ft",  -- planted: roots-cut
}
liner "pool liner" {
  of = "pool", edge = "0 in", on_fill = "no", length = "30 ft", width = "30 ft",
  underlay = "one side",  -- planted: underlay-missing
}
liner "gate liner" {
  of = "gate pool", underlay = "both sides", on_fill = "no", length = "30 ft",
  width = "6 ft",  -- planted: liner-too-small
  edge = "-3 in",  -- planted: liner-edge-low
}
wall "seat wall" {
  beside = "pool", length = "14 ft", footing_to_top = "30 in", thickness = "20 in", embedment = "8 in",
  base_pad = "6 in", above = "level", liner_under = "no",
  drain = "none",  -- planted: wall-drain, wall-overturns, wall-slides
}
coping "wall cap" {
  anchored = "no",
  on = "seat wall", length = "36 in", depth = "14 in", thickness = "2 in", stone = "sandstone", set_by = "machine",
  overhang = "3 in",  -- planted: coping-tips, coping-cracks
}

-- Power ---------------------------------------------------------------------------------------------------------------

circuit "garden circuit" {
  volts = "120 V", breaker = "15 A", wire = "12 AWG copper", run = "60 ft", feeds = { "twin pump", "curtain pump" },
  bonding = "stated", disconnect_seen = "yes",
  gfci = "none",  -- planted: gfci
  disconnect_distance = "2 ft",  -- planted: disconnect
  barrier = "none", overhead_clear = "none", cable = "PVC conduit",
  cover_depth = "8 in",  -- planted: burial-depth
}
