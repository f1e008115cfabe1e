-- SPDX-License-Identifier: MIT
-- Slate rill: a plunge pool that people get into, filled by a thin sheet from a slate trough; beside it a source stone,
-- a straight rill and a fish basin with plants. Two circuits that never mix: treated water here, fish there. Invented.
-- Heights are over the site datum: 0 is the bolt in the corner of the terrace.

project {
  name = "Slate rill", units = "si",
  fixed_point = "bolt in the south corner of the terrace, 0 mm", closing_error = "2 mm",
  nights_open = 4, pit_watch = "panels with feet round both pits, looked at before each shift", dig_days = 3,
  leak_test = "planned", hand_over = "planned", permit = "asked",
  order_stated = "stated",
}

site {
  soil = "type B", ground = "0 mm",
  gate_width = "1300 mm", gate_height = "2.2 m",
  utilities = "located", private_lines = "located",
  barrier_depth = "450 mm",
  test_hole = "1.8 m", debris = "none", ground_water = "none",
  footing_distance = "6 m", footing_depth = "800 mm",
  storm = { depth = "32 mm", lasts = "15 min", returns = "10 yr" }, runoff_area = "3 m2",
  truck_volume = "8 m3", truck_limit = "12 t", haul_cycle = "60 min",
  gravel_size = "20 mm",
  line_distance = "none", haul_over = "mats",
  shrink = "10 %", pan_evaporation = "6 mm/day", altitude = "150 m", ice = "150 mm",
  frost = "drained",
}

-- The plunge pool and the trough over it ------------------------------------------------------------------------------

-- Fenced, with a gate that shuts by itself; the steps run along the whole of the south side.
basin "plunge" {
  purpose = "plunge", reach = "fenced", entered = "yes", barrier = "stated", treatment = "stated",
  outline = rectangle { "3.2 m", "2 m" },
  rim = "0 mm", water_level = "-110 mm", depth = "1350 mm +/- 10 mm",
  shelves = { { depth = "280 mm", width = "300 mm" }, { depth = "560 mm", width = "300 mm" } },
  fill_flow = "12 L/min", fill_gap = "25 mm", fill_bore = "15 mm", fill_device = "none", overflow_to = "drain",
  overflow_bore = "75 mm", overflow_at = "-80 mm",
}
basin "trough" {
  purpose = "bowl", reach = "fenced", entered = "no",
  outline = rectangle { "1200 mm", "400 mm" },
  rim = "560 mm", depth = "300 mm", drain_at = "200 mm",
  ring = {
    { starts = "0 mm", ends = "3.2 m", width = "250 mm", depth = "200 mm", lined = "yes", returns_to = "plunge",
      path = "1600 mm", fall = "150 mm" },
  },
}
spill "blade" {
  from = "trough", into = "plunge", crest = "490 mm", lip = "thin edge", lip_width = "600 mm",
  effect = "sheet", drip_edge = "edge", setback = "-60 mm", out_of_level = "3 mm", target = "1.8 L/s",
  fill_under = "100 mm", fill_other = "80 mm",
}

-- Two guarded openings, more than a metre apart: one may be covered and the pump still draws.
intake "bottom openings" {
  reach_in = "350 mm",
  basin = "plunge", type = "submerged", openings = 2, cover = "guarded", second_safeguard = "fitted",
  open_area = "900 cm2",
  bore = "63 mm", cover_depth = "700 mm",
  least_flow = "0.5 L/s", greatest_flow = "3 L/s", lowest_level = "-700 mm",
}
pump "plunge pump" {
  reach_in = "350 mm",
  suction_length = "2.5 m", suction_size = "63 mm", suction_fittings = { { type = "elbow 90", count = 2 } },
  from = "bottom openings", type = "dry", low_water_cutoff = "fitted",
  power = "180 W", best_flow = "1.6 L/s",
  curve = {
    { "0 L/s", "3.6 m" }, { "0.8 L/s", "2.9 m" }, { "1.6 L/s", "1.6 m" }, { "2.2 L/s", "0.6 m" }, { "2.5 L/s", "0 m" },
  },
}
pipe "trough line" {
  water_test = "planned",
  from = "plunge pump", to = "trough", size = "50 mm", length = "7 m",
  fittings = { { type = "elbow 90", count = 3 }, { type = "union", count = 2 } },
  valve = "ball", outlet = "above water", outlet_at = "520 mm",
}

-- Source stone, rill, fish --------------------------------------------------------------------------------------------

basin "source" {
  purpose = "hollow", in_stone = "source stone", reach = "children", entered = "no",
  outline = circle "440 mm", rim = "60 mm", depth = "220 mm", drain_at = "-250 mm",
}
channel "rill" {
  from = "source", into = "fish basin", start = "-40 mm", length = "6 m", width = "250 mm", fall = "60 mm",
  roughness = 0.03, edge = "160 mm",
}
basin "fish basin" {
  purpose = "fish", reach = "children", entered = "no", barrier = "stated",
  outline = polygon {
    { "0 m", "0 m" }, { "2.6 m", "-0.3 m" }, { "3.1 m", "1.1 m" }, { "1.9 m", "2.2 m" }, { "0.2 m", "1.8 m" },
  },
  rim = "-60 mm", water_level = "-180 mm", depth = "900 mm", side_slope = "1H:4V",
  shelves = { { depth = "250 mm", width = "350 mm" } },
  gravel_bed = "60 mm", voids = "38 %",
  disinfectant = "chloramine", disinfectant_level = "0.8 mg/L", neutraliser = "stated", ammonia_binder = "stated",
  warmest = "24 degC",
  fill_flow = "10 L/min", fill_gap = "40 mm", fill_bore = "15 mm", overflow_to = "drain",
  overflow_bore = "75 mm", overflow_at = "-150 mm",
}
intake "skimmer" {
  reach_in = "350 mm",
  basin = "fish basin", type = "skimming", openings = 1, cover = "guarded", open_area = "700 cm2",
  least_flow = "0.8 L/s", greatest_flow = "3.5 L/s", lowest_level = "-260 mm",
  hidden_by = { "west slate", "east slate" }, gap_width = "150 mm", gap_depth = "200 mm",
  basket = "12 L",
}
pump "fish pump" {
  reach_in = "350 mm",
  from = "skimmer", type = "submersible", low_water_cutoff = "fitted", cord = "2 m",
  power = "70 W", best_flow = "1.5 L/s",
  curve = {
    { "0 L/s", "2.4 m" }, { "0.7 L/s", "1.9 m" }, { "1.4 L/s", "1.1 m" }, { "2 L/s", "0.3 m" }, { "2.2 L/s", "0 m" },
  },
}
pipe "source line" {
  water_test = "planned",
  from = "fish pump", to = "source", size = "50 mm", length = "9 m",
  fittings = { { type = "elbow 90", count = 2 }, { type = "elbow 45", count = 2 } },
  valve = "gate", outlet = "above water", outlet_at = "70 mm", target = "1.4 L/s",
}

-- Stone ---------------------------------------------------------------------------------------------------------------

-- The quarry's slate: its density was weighed, so it is written; what the shape leaves of its box is still a guess.
boulder "source stone" {
  length = "760 mm", width = "600 mm", height = "520 mm", density = "2750 kg/m3", shape = "sawn", pose = "lying",
  embedment = "460 mm", stands_on = "gravel", underlay = "one side",
  gravel_behind = "460 mm", gravel_height = "300 mm",
  people_reach = "yes", machine_beside = "no",
}
boulder "standing slate" {
  length = "700 mm", width = "240 mm", height = "1600 mm", density = "2750 kg/m3", shape = "squared", pose = "upright",
  embedment = "400 mm", stands_on = "gravel", underlay = "both sides",
  gravel_behind = "460 mm", gravel_height = "400 mm", beside = "fish basin",
  people_reach = "yes", machine_beside = "no", seat_width = "200 mm",
  measured = { mass_low = "600 kg", mass_high = "620 kg", with = "scale" },
}
boulder "bench slate" {
  length = "850 mm", width = "500 mm", height = "400 mm", density = "2750 kg/m3", shape = "sawn", pose = "lying",
  embedment = "100 mm", stands_on = "gravel", underlay = "both sides", gravel_behind = "460 mm",
  gravel_height = "300 mm", beside = "trough", people_reach = "yes", machine_beside = "no",
}
for _, side in ipairs { "west", "east" } do
  boulder(side .. " slate") {
    length = "450 mm", width = "300 mm", height = "230 mm", density = "2750 kg/m3", shape = "squared", pose = "lying",
    embedment = "60 mm", stands_on = "underlay on liner", underlay = "both sides",
    gravel_behind = "460 mm", gravel_height = "200 mm", beside = "fish basin",
    seat_slope = "2 %", shelf_edge = "700 mm", shelf_drop = "600 mm", membrane = "textured",
  }
end

machine "mini digger" {
  width = "990 mm", height = "1.9 m", weight = "1750 kg",
  chart = "rated", track_length = "1.2 m", track_width = "230 mm", from_edge = "1 m", greatest_reach = "3.9 m",
  lifts = {
    { reach = "1.5 m", rated = "760 kg", deducted = "60 kg" },
    { reach = "2 m", rated = "520 kg", deducted = "60 kg" },
    { reach = "3 m", rated = "310 kg", deducted = "60 kg" },
  },
}

sling "webbing" { rated = "1 t", tag = "yes", edge_guard = "fitted" }
for _, stone in ipairs { "source stone", "standing slate", "bench slate" } do
  pick(stone .. " in") {
    of = stone, machine = "mini digger", sling = "webbing", legs = 2, hitch = "basket", leg_angle = "60 deg",
    reach = "1.5 m", rigging = "20 kg", carried = "no", people_clear = "stated",
  }
end

-- Ground, liner, wall, cap --------------------------------------------------------------------------------------------

dig "plunge pit" {
  of = "plunge", beyond = "300 mm", below = "150 mm", slope = "1H:1V", protection = "sloped", examined = "yes",
  way_out = "4 m", spoil_setback = "1 m", staged_from_edge = "1.5 m",
}
dig "fish pit" {
  of = "fish basin", beyond = "200 mm", below = "150 mm", slope = "1H:1V", protection = "sloped", examined = "yes",
  way_out = "4 m", spoil_setback = "1 m", staged_from_edge = "1.5 m",
}
liner "plunge liner" {
  of = "plunge", length = "7 m", width = "6 m", edge = "0 mm", on_fill = "no", underlay = "both sides",
}
liner "fish liner" {
  of = "fish basin", length = "6 m", width = "5 m", edge = "-60 mm", on_fill = "no", underlay = "both sides",
}
wall "trough wall" {
  beside = "plunge", length = "2.4 m", footing_to_top = "860 mm", thickness = "500 mm", top_thickness = "300 mm",
  embedment = "300 mm", base_pad = "200 mm", drain = "fitted", above = "level", fill_friction = "30 deg",
  liner_under = "no",
}
coping "pool edge" {
  anchored = "no",
  on = "plunge", length = "900 mm", depth = "400 mm", thickness = "50 mm", overhang = "28 mm", strength = "40 MPa",
  set_by = "machine",
}

-- Power ---------------------------------------------------------------------------------------------------------------

-- The electrician has not sized the wire yet.
circuit "pump house" {
  volts = "230 V", breaker = "10 A", run = "18 m", feeds = { "plunge pump", "fish pump" },
  gfci = "fitted", bonding = "stated", disconnect_distance = "3 m", disconnect_seen = "yes",
  cable = "PVC conduit", cover_depth = "500 mm", overhead_clear = "none",
}

-- Life ----------------------------------------------------------------------------------------------------------------

fish "goldfish" { basin = "fish basin", sort = "goldfish", count = 6, length = "180 mm" }
planting "shelf plants" {
  basin = "fish basin", area = "1.5 m2", soil_depth = "200 mm", soil_over_rim = "-40 mm", root_barrier = "fitted",
  plants = 18,
}

crew {
  people = 3, days = 10, cutting = "wet", silica_row = "stationary masonry saw", fall_zone_kept = "stated",
  stones_per_day = 3, soil_per_day = "12 m3", wall_per_day = "2.4 m", paving_per_day = "6 m2",
}
