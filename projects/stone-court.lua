-- SPDX-License-Identifier: MIT
-- Stone court: a small deep pool set with large stone. Two bowls in a chain, a hollowed stone, a short stream reach,
-- three jets, a block wall with a stone cap. Invented.
-- Heights are over the site datum: 0 is the paving at the brass nail by the back door.

project {
  name = "Stone court", units = "us",
  fixed_point = "brass nail in the back door sill, 0 in", closing_error = "1/16 in",
  nights_open = 3, pit_watch = "fence panels round the pit, looked at each morning", dig_days = 2,
  leak_test = "planned", hand_over = "planned", permit = "asked",
  order_stated = "stated",
}

site {
  soil = "type B", ground = "0 in",
  gate_width = "7 ft 2 in", gate_height = "open",
  utilities = "located", private_lines = "located",
  barrier_depth = "18 in",
  test_hole = "6 ft", debris = "none", ground_water = "9 ft",
  footing_distance = "18 ft", footing_depth = "2 ft",
  storm = { depth = "1.2 in", lasts = "15 min", returns = "10 yr" }, runoff_area = "40 ft2",
  truck_volume = "10 yd3", truck_limit = "12 ton", haul_cycle = "75 min",
  gravel_size = "3/4 in",
  line_distance = "none", haul_over = "mats",
  shrink = "10 %", pan_evaporation = "0.25 in/day",
  frost = "drained",
}

-- Water ------------------------------------------------------------------------------------------------------------

basin "pool" {
  purpose = "display", reach = "children", entered = "no", barrier = "stated",
  outline = polygon {
    { "0 ft", "0 ft" }, { "7 ft", "-1 ft" }, { "11 ft 6 in", "1 ft 6 in" },
    { "12 ft", "6 ft" }, { "7 ft", "8 ft 6 in" }, { "1 ft", "7 ft" },
  },
  rim = "0 in", water_level = "-5 in", depth = "40 in +/- 1 in", side_slope = "upright",
  shelves = { { depth = "11 in", width = "16 in" } },
  gravel_bed = "3 in", voids = "40 %",
  fill_flow = "5 gal/min", fill_gap = "2 in", fill_bore = "3/4 in", overflow_to = "drain",
  overflow_bore = "3 in", overflow_at = "-4 in",
}

basin "upper bowl" {
  purpose = "bowl", reach = "children", entered = "no",
  outline = ellipse { "4 ft 6 in", "3 ft 8 in" },
  rim = "47 in", depth = "15 in", drain_at = "29 1/2 in",
  ring = {
    { starts = "0 ft", ends = "13 ft", width = "12 in", depth = "6 in", lined = "yes", returns_to = "pool",
      path = "6 ft 6 in", fall = "6 in" },
  },
}

basin "lower bowl" {
  purpose = "bowl", reach = "children", entered = "no",
  outline = ellipse { "4 ft", "3 ft 4 in" },
  rim = "31 in", depth = "14 in", drain_at = "14 1/2 in",
  ring = {
    { starts = "0 ft", ends = "11 ft 6 in", width = "12 in", depth = "6 in", lined = "yes", returns_to = "pool",
      path = "5 ft 9 in", fall = "6 in" },
  },
}

basin "cup" {
  purpose = "hollow", in_stone = "cup stone", reach = "children", entered = "no",
  outline = ellipse { "24 in", "17 in" }, depth = "7 in", drain_at = "10 1/2 in",
  rim_profile = {
    { at = "0 in", level = "20 1/4 in" }, { at = "22 in", level = "19 3/4 in" }, { at = "44 in", level = "20 in" },
  },
}

spill "upper lip" {
  from = "upper bowl", into = "lower bowl", crest = "44 in", lip = "broad stone", lip_width = "13 in", breadth = "9 in",
  effect = "sheet", drip_edge = "undercut", setback = "-2 in", out_of_level = "1/8 in",
  fill_under = "6 in", fill_other = "4 in",
  target = "1,600 gal/h",
}
spill "lower lip" {
  from = "lower bowl", into = "cup", crest = "28 in", lip = "broad stone", lip_width = "12 in", breadth = "8 in",
  effect = "sheet", drip_edge = "undercut", setback = "-3 in", out_of_level = "1/8 in",
  fill_under = "6 in", fill_other = "4 in",
  target = "1,600 gal/h",
}
spill "cup notch" {
  from = "cup", into = "run", crest = "17 in", lip = "notch", lip_width = "5 in", lip_depth = "3 in",
  effect = "cascade", drip_edge = "none", setback = "-3 in", out_of_level = "1/8 in",
  liner_behind = "6 in", target = "1,600 gal/h",
}
channel "run" {
  into = "pool", start = "10 in", length = "6 ft", width = "18 in", fall = "7 in", roughness = 0.05, edge = "6 in",
}

-- Pumps and pipe ---------------------------------------------------------------------------------------------------

intake "skimmer" {
  reach_in = "14 in",
  basin = "pool", type = "skimming", openings = 1, cover = "guarded", open_area = "1.2 ft2",
  least_flow = "1,500 gal/h", greatest_flow = "5,500 gal/h", lowest_level = "-8 in",
  hidden_by = { "left screen", "right screen" }, gap_width = "5 in", gap_depth = "9 in",
  basket = "4 gal",
}

pump "bowl pump" {
  reach_in = "14 in",
  from = "skimmer", type = "submersible", low_water_cutoff = "fitted", cord = "7 ft",
  power = "140 W", best_flow = "1,450 gal/h",
  curve = {
    { "0 gal/h", "16 ft" }, { "600 gal/h", "14 1/2 ft" }, { "1,200 gal/h", "11 ft" },
    { "1,800 gal/h", "6 ft" }, { "2,300 gal/h", "0 ft" },
  },
}
pipe "bowl line" {
  water_test = "planned",
  from = "bowl pump", to = "upper bowl", size = "1 1/2 in", length = "34 ft",
  fittings = { { type = "elbow 90", count = 3 }, { type = "union", count = 1 } },
  valve = "ball", check_valve = "none", outlet = "above water", outlet_at = "48 in",
}

pump "jet pump" {
  reach_in = "14 in",
  from = "skimmer", type = "submersible", low_water_cutoff = "fitted", cord = "7 ft",
  power = "170 W", best_flow = "2,400 gal/h",
  curve = {
    { "0 gal/h", "10 ft" }, { "1,500 gal/h", "8 ft" }, { "2,500 gal/h", "5 1/2 ft" },
    { "3,300 gal/h", "3 ft" }, { "4,000 gal/h", "0 ft" },
  },
}
pipe "jet line" {
  water_test = "planned",
  from = "jet pump", to = "jet foot", size = "2 in", length = "10 ft",
  fittings = { { type = "elbow 90", count = 1 } }, valve = "ball",
}
junction "jet foot" { at = "-24 in" }
pipe "jet riser" {
  water_test = "planned",
  from = "jet foot", to = "three jets", size = "2 in", length = "5 ft", fittings = { { type = "elbow 90", count = 2 } },
}
jet "three jets" {
  basin = "pool", at = "-4 in", orifice = "5/8 in", count = 3, to_edge = "5 ft", wind = "open", target = "2,400 gal/h",
}

-- Stone ------------------------------------------------------------------------------------------------------------

boulder "cup stone" {
  length = "4 ft", width = "3 ft", height = "26 in", stone = "granite", shape = "rounded", pose = "lying",
  embedment = "6 in", beside = "pool", stands_on = "underlay on liner", underlay = "both sides",
  gravel_behind = "18 in", gravel_height = "8 in",
  seat_width = "26 in", seat_slope = "level", membrane = "textured", shelf_edge = "30 in", shelf_drop = "29 in",
  people_reach = "yes", machine_beside = "no",
}
boulder "standing stone" {
  length = "30 in", width = "26 in", height = "6 ft", stone = "unknown", shape = "blocky", pose = "upright",
  embedment = "12 in", beside = "upper bowl", stands_on = "gravel", underlay = "both sides",
  gravel_behind = "24 in", gravel_height = "16 in",
  seat_width = "24 in", people_reach = "yes", machine_beside = "no",
  measured = { mass_low = "3,300 lb", mass_high = "3,700 lb", with = "scale" },
}
boulder "bowl shoulder" {
  length = "6 ft", width = "3 ft", height = "3 ft", stone = "granite", shape = "rounded", pose = "lying",
  embedment = "8 in", beside = "upper bowl", stands_on = "gravel", underlay = "both sides",
  gravel_behind = "18 in", gravel_height = "24 in",
  seat_width = "28 in", people_reach = "yes",
}
boulder "step stone" {
  length = "3 ft", width = "30 in", height = "20 in", stone = "granite", shape = "squared", pose = "lying",
  embedment = "5 in", beside = "pool", stands_on = "underlay on liner", underlay = "both sides",
  gravel_behind = "14 in", gravel_height = "12 in",
  seat_width = "26 in", seat_slope = "level", membrane = "textured", shelf_edge = "30 in", shelf_drop = "29 in",
  people_reach = "yes", machine_beside = "no",
}
for _, side in ipairs { "left", "right" } do
  boulder(side .. " screen") {
    length = "30 in", width = "30 in", height = "20 in", stone = "granite", shape = "squared", pose = "lying",
    embedment = "4 in", beside = "pool", stands_on = "underlay on liner", underlay = "both sides",
    gravel_behind = "18 in", gravel_height = "10 in",
    seat_width = "27 in", seat_slope = "level", membrane = "textured", shelf_edge = "30 in", shelf_drop = "29 in",
    people_reach = "yes", machine_beside = "no",
  }
end

machine "small excavator" {
  width = "5 ft 4 in", height = "8 ft", weight = "8,400 lb",
  chart = "rated", track_length = "5 ft 6 in", track_width = "12 in", from_edge = "4 ft", greatest_reach = "16 ft",
  lifts = {
    { reach = "8 ft", rated = "3,000 lb", deducted = "240 lb" },
    { reach = "12 ft", rated = "1,700 lb", deducted = "240 lb" },
  },
}
-- Hired for one day, for the large stones; the bucket stays on the ground.
machine "hired excavator" {
  width = "6 ft 4 in", height = "8 ft 4 in", weight = "14,000 lb",
  chart = "rated", track_length = "6 ft 6 in", track_width = "16 in", from_edge = "5 ft", greatest_reach = "19 ft",
  lifts = {
    { reach = "8 ft", rated = "7,600 lb", deducted = "300 lb" },
    { reach = "10 ft", rated = "5,600 lb", deducted = "300 lb" },
    { reach = "14 ft", rated = "3,600 lb", deducted = "300 lb" },
  },
}
sling "round slings" { rated = "6,400 lb", tag = "yes", edge_guard = "fitted" }
for _, lift in ipairs { { "cup stone", "10 ft" }, { "standing stone", "10 ft" }, { "bowl shoulder", "8 ft" } } do
  pick(lift[1] .. " in") {
    of = lift[1], machine = "hired excavator", sling = "round slings", legs = 2, hitch = "basket", leg_angle = "60 deg",
    reach = lift[2], rigging = "80 lb", carried = "no", people_clear = "stated",
  }
end
for _, stone in ipairs { "step stone", "left screen", "right screen" } do
  pick(stone .. " in") {
    of = stone, machine = "small excavator", sling = "round slings", legs = 2, hitch = "basket", leg_angle = "60 deg",
    reach = "8 ft", rigging = "60 lb", carried = "no", people_clear = "stated",
  }
end

-- Ground, liner, wall ----------------------------------------------------------------------------------------------

dig "pit" {
  of = "pool", beyond = "12 in", below = "6 in", slope = "1H:1V", protection = "sloped", examined = "yes",
  way_out = "12 ft", spoil_setback = "3 ft", staged_from_edge = "5 ft",
}
liner "pool liner" {
  of = "pool", length = "25 ft", width = "20 ft", edge = "2 in", on_fill = "no", underlay = "both sides",
  underdrain = "none",
}
wall "back wall" {
  beside = "pool", length = "12 ft", footing_to_top = "36 in", thickness = "22 in", top_thickness = "12 in",
  embedment = "8 in", base_pad = "6 in", drain = "fitted", above = "level", fill_friction = "30 deg",
  liner_under = "no",
}
coping "wall cap" {
  anchored = "no",
  on = "back wall", length = "36 in", depth = "14 in", thickness = "2 in", overhang = "1 1/2 in", stone = "granite",
  set_by = "hand",
}

-- Power ------------------------------------------------------------------------------------------------------------

circuit "pump circuit" {
  volts = "120 V", breaker = "15 A", wire = "12 AWG copper", run = "70 ft", feeds = { "bowl pump", "jet pump" },
  gfci = "fitted", bonding = "stated", disconnect_distance = "8 ft", disconnect_seen = "yes",
  cable = "PVC conduit", cover_depth = "18 in", overhead_clear = "none",
}

-- Crew and prices: the firm's own figures -----------------------------------------------------------------------------

crew {
  people = 3, days = 8, cutting = "wet", silica_row = "handheld power saw, outdoors", fall_zone_kept = "stated",
  stones_per_day = 3, soil_per_day = "20 yd3", wall_per_day = "8 ft", paving_per_day = "60 ft2",
}
prices {
  stone = "$260", gravel = "$38", haul = "$180", liner = "$1.15", wall = "$14", base = "$36", crew_day = "$1,450",
}

-- Decisions: what was found and stands all the same, with who decided. `at` is the value that was accepted; anything
-- worse comes back, and so does all of it once the work is past `up_to`.

accept {
  rule = "jet-too-high", on = "three jets", at = "0.74",
  because = "the owner wants the jets high and turns them off in wind; said on the walk round in spring",
}
