-- SPDX-License-Identifier: MIT
-- An order list and a basin with life in it, whose figures can be redone by hand.
project { name = "Worked order", units = "us", dig_days = 2 }
site { soil = "type C", ground = "0 in", swell = "25 %", shrink = "20 %", truck_volume = "5 yd3", truck_limit = "30 ton",
  haul_cycle = "60 min", altitude = "0 ft", ice = "10 in", pan_evaporation = "0.25 in/day" }
crew { people = 3, days = 4, stones_per_day = 4, soil_per_day = "24 yd3", wall_per_day = "20 ft", paving_per_day = "50 ft2" }
prices { gravel = "$30", haul = "$150", stone = "$200", liner = "$1.10", underlay = "$0.45", wall = "$12", coping = "$80",
  paving = "$5", base = "$40", plant = "$9", crew_day = "$900" }

-- 100 x 77 x 30 in is 231,000 in3: 1,000 gallons of 231 in3. The lake is a hundred times that.
basin "tank" { purpose = "fish", outline = rectangle { "100 in", "77 in" }, rim = "4 in", water_level = "0 in", depth = "30 in",
  disinfectant = "chlorine", disinfectant_level = "2 mg/L", warmest = "25 degC", leak = "0.0625 in/day" }
basin "lake" { purpose = "display", outline = rectangle { "1,000 in", "770 in" }, rim = "4 in", water_level = "0 in",
  depth = "30 in", disinfectant = "chloramine", disinfectant_level = "1 mg/L" }
basin "spring water" { purpose = "display", outline = rectangle { "100 in", "77 in" }, rim = "4 in", water_level = "0 in",
  depth = "30 in", disinfectant = "none" }
basin "pit" { purpose = "display", reach = "children", outline = rectangle { "12 ft", "12 ft" }, rim = "1 in", water_level = "0 in", depth = "9 ft" }
dig "hole" { of = "pit", beyond = "0 in", below = "0 in", slope = "upright" }

fish "comets" { basin = "tank", sort = "goldfish", count = 20, length = "6 in" }
fish "two koi" { basin = "tank", sort = "koi", count = 2, length = "20 in" }
planting "iris" { basin = "tank", area = "12 ft2", soil_depth = "10 in", plants = 9 }

filter "barrel" { rated_flow = "2,000 gal/h" }
intake "skimmer" { basin = "tank", type = "skimming", basket = "3 gal" }
pump "pump" { from = "skimmer", type = "submersible", curve = { { "0 gal/h", "14 ft" }, { "2,100 gal/h", "0 ft" } } }
pipe "to the tee" { from = "pump", to = "tee", size = "2 in", length = "36 ft", fittings = { { type = "elbow 90", count = 3 } } }
junction "tee" { at = "-1 ft" }
pipe "through the filter" { from = "tee", to = "tank", size = "1 1/2 in", length = "10 ft", filter = "barrel", valve = "ball",
  check_valve = "fitted", outlet = "above water", outlet_at = "12 in" }
pump "sump" { from = "lake", type = "submersible", curve = { { "0 gal/h", "14 ft" }, { "2,100 gal/h", "0 ft" } } }
pipe "sump line" { from = "sump", to = "lake", size = "1 1/2 in", length = "4 ft", outlet = "above water", outlet_at = "12 in" }

boulder "blocky" { length = "3 ft", width = "2 ft", height = "2 ft", shape = "blocky", density = "165 lb/ft3",
  gravel_behind = "0 in" }
boulder "squared" { length = "7 ft", width = "3 ft", height = "2 ft", shape = "squared", density = "165 lb/ft3",
  gravel_behind = "55 in", gravel_height = "50 in" }

liner "sheet" { of = "tank", length = "25 ft", width = "20 ft", underlay = "both sides" }
liner "patch" { of = "pit", length = "10 ft", width = "10 ft", underlay = "one side" }
wall "wall" { length = "10 ft", footing_to_top = "3 ft", thickness = "12 in", embedment = "8 in", base_pad = "6 in" }
coping "caps" { on = "wall", length = "36 in", depth = "14 in", thickness = "2 in", overhang = "1 in" }
coping "rim stones" { on = "tank", length = "36 in", depth = "14 in", thickness = "2 in", overhang = "1 in" }
paving "terrace" { beside = "tank", area = "100 ft2", base = "4 in", thickness = "1 1/2 in" }
circuit "pumps" { volts = "120 V", wire = "12 AWG copper", run = "70 ft", feeds = { "pump", "sump" } }
light "spot" { basin = "tank", volts = "12 V", power = "5 W", run = "30 ft", wire = "12 AWG copper" }
