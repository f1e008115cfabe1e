-- SPDX-License-Identifier: MIT
-- What is left: shares, sums and differences whose parts are stated or measured, so that each is one line of arithmetic.
project { name = "Worked sums", units = "us", dig_days = 2 }
site { soil = "type C", ground = "0 in", gate_width = "6 ft", gate_height = "7 ft", barrier_depth = "18 in", test_hole = "6 ft",
  storm = { depth = "2 in", lasts = "30 min" }, truck_volume = "12 yd3", truck_limit = "30 ton", haul_cycle = "60 min" }

basin "sump" { purpose = "display", outline = rectangle { "10 ft", "8 ft" }, rim = "6 in", water_level = "0 in", depth = "3 ft",
  fill_gap = "1 1/2 in", fill_bore = "3/4 in",
  ring = { { starts = "0 ft", ends = "9 ft", width = "12 in", depth = "6 in", lined = "yes", returns_to = "sump" } },
  measured = { water_in_flight = "50 gal", rain_area = "120 ft2", highest_water = "1 in" } }
intake "mouth" { basin = "sump", type = "submerged", open_area = "0.5 ft2", greatest_flow = "1,600 gal/h",
  least_flow = "800 gal/h", lowest_level = "-6 in" }
pump "one" { from = "mouth", type = "submersible", best_flow = "1,000 gal/h",
  curve = { { "0 gal/h", "16 ft" }, { "1,000 gal/h", "8 ft" }, { "2,000 gal/h", "0 ft" } },
  measured = { flow = "500 gal/h", static_head = "4 ft" } }
pump "two" { from = "mouth", type = "submersible", curve = { { "0 gal/h", "16 ft" }, { "2,000 gal/h", "0 ft" } },
  measured = { flow = "700 gal/h" } }
circuit "feed" { volts = "120 V", feeds = { "one", "two" } }
pipe "one line" { from = "one", to = "bowl", size = "1 1/2 in", length = "40 ft", fittings = { { type = "elbow 90", count = 2 } },
  outlet = "above water", outlet_at = "30 in" }
pipe "two line" { from = "two", to = "jets", size = "1 1/2 in", length = "10 ft" }
jet "jets" { basin = "sump", at = "0 in", orifice = "1/2 in", count = 2, target = "1,000 gal/h", to_edge = "4 ft" }

basin "bowl" { purpose = "bowl", outline = rectangle { "4 ft", "3 ft" }, rim = "28 in", depth = "12 in" }
spill "lip" { from = "bowl", into = "sump", crest = "24 in", lip = "thin edge", lip_width = "10 in", lip_depth = "3 in",
  drip_edge = "edge", setback = "-1 in", target = "625 gal/h" }
spill "read" { from = "side", into = "sump", crest = "24 in", lip = "notch", lip_width = "10 in", lip_depth = "3 in",
  setback = "-1 in",
  measured = { flow = "350 gal/h", head_high = "1 in", throw_high = "6 in", flow_per_width = "70 gal/h/in",
    sheet_asked = "35 gal/h/in" } }
basin "side" { purpose = "bowl", outline = rectangle { "4 ft", "3 ft" }, rim = "27 in", depth = "12 in", side_slope = "1H:2V" }

-- A pair by itself: a lip of a cup and 20 ft of pipe stand over the well.
basin "well" { purpose = "display", outline = rectangle { "10 ft", "8 ft" }, rim = "6 in", water_level = "0 in", depth = "3 ft",
  measured = { flow_drawn = "900 gal/h", flow_in = "600 gal/h", rise_at_power_loss = "2 in" } }
pump "lifter" { from = "well", type = "submersible", curve = { { "0 gal/h", "12 ft" }, { "1,200 gal/h", "0 ft" } },
  measured = { flow = "40 gal/h" } }
pipe "riser" { from = "lifter", to = "cup", size = "2 in", length = "20 ft", outlet = "above water", outlet_at = "30 in" }
basin "cup" { purpose = "bowl", outline = rectangle { "4 ft", "3 ft" }, rim = "28 in", depth = "12 in",
  shelves = { { depth = "6 in", width = "6 in" }, { depth = "9 in", width = "4 in" } } }
spill "cup lip" { from = "cup", into = "well", crest = "24 in", lip = "thin edge", lip_width = "12 in", drip_edge = "edge",
  setback = "0 in", measured = { head_high = "1 in" } }

-- A reach of stream fed by a lip that was measured.
basin "spring" { purpose = "bowl", outline = circle { "3 ft" }, rim = "50 in", depth = "12 in" }
spill "source" { from = "spring", into = "brook", crest = "48 in", lip = "notch", lip_width = "8 in", lip_depth = "3 in",
  setback = "0 in", measured = { flow = "3,000 gal/h" } }
basin "catch" { purpose = "display", outline = circle { "8 ft" }, rim = "8 in", water_level = "0 in", depth = "2 ft" }
channel "brook" { into = "catch", start = "40 in", length = "20 ft", width = "18 in", fall = "12 in", roughness = 0.05, edge = "6 in" }
channel "run" { from = "brook", into = "catch", start = "28 in", length = "10 ft", width = "12 in", fall = "6 in",
  measured = { depth = "1 in", depth_high = "2 in" }, edge = "6 in" }

boulder "rock" { length = "3 ft", width = "2 ft", height = "2 ft", stone = "granite", shape = "sawn", embedment = "6 in",
  beside = "sump", gravel_behind = "18 in", gravel_height = "12 in", measured = { mass_high = "1,000 lb" } }
boulder "post" { length = "1 ft", width = "1 ft", height = "4 ft", stone = "granite", shape = "sawn", gravel_behind = "0 in",
  stands_in = "sump", measured = { mass_high = "500 lb", volume = "4 ft3" } }
machine "digger" { width = "5 ft", height = "6 ft 6 in" }
dig "hole" { of = "sump", slope = "1.5H:1V", measured = { bank_volume = "20 yd3", depth = "4 ft" } }
dig "second hole" { of = "well", slope = "1.5H:1V", measured = { bank_volume = "10 yd3" } }
liner "sheet" { of = "sump", edge = "5 in" }
wall "kerb" { length = "10 ft", footing_to_top = "3 ft", thickness = "12 in" }
coping "cap" { on = "kerb", length = "18 in", depth = "24 in", thickness = "3 in", overhang = "1 in", stone = "granite" }
