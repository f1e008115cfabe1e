-- SPDX-License-Identifier: MIT
-- Pieces of liner, ground water under them, benches and roots, on level ground.
project { name = "Worked liners", units = "us" }
site { soil = "type B", ground = "3 in", ground_water = "1 ft", permeability = "2 in/h", footing_distance = "3 ft",
  footing_depth = "30 in", truck_volume = "5 yd3", truck_limit = "9,300 lb" }

basin "eleven" { purpose = "display", outline = rectangle { "11 ft", "7 ft" }, rim = "3 in", water_level = "0 in", depth = "21 in" }
basin "six" { purpose = "display", outline = rectangle { "6 ft", "4 ft" }, rim = "3 in", water_level = "0 in", depth = "15 in" }
basin "twenty" { purpose = "display", outline = rectangle { "20 ft", "12 ft" }, rim = "3 in", water_level = "0 in", depth = "33 in",
  gravel_bed = "6 in", voids = "40 %", shelves = { { depth = "1 ft", width = "1 ft" } } }
basin "sloped" { purpose = "display", outline = rectangle { "20 ft", "20 ft" }, rim = "3 in", water_level = "0 in", depth = "33 in",
  side_slope = "2H:1V" }
liner "g1" { of = "eleven", over_edge = "1 ft", length = "17 ft", width = "12 ft", underlay = "one side", edge = "3 in",
  lap = "12 in", lap_top = "2 in" }
liner "g2" { of = "six", over_edge = "1 ft", length = "9 ft", width = "12 ft", underlay = "none", edge = "3 in" }
liner "g3" { of = "twenty", over_edge = "18 in", length = "30 ft", width = "22 ft", underlay = "both sides", edge = "3 in" }
liner "g4" { of = "sloped", over_edge = "18 in", length = "25 ft", width = "25 ft", underlay = "both sides", edge = "3 in" }

basin "block" { purpose = "display", outline = rectangle { "10 ft", "6 ft" }, rim = "3 in", water_level = "0 in", depth = "39 in" }
dig "stepped" { of = "block", beyond = "0 in", below = "6 in", slope = "0.5H:1V", benches = { { up = "2 ft", width = "2 ft" } },
  sump_flow = "3 gal/min" }
dig "shallow" { of = "six", beyond = "0 in", below = "12 in", slope = "upright", sump_flow = "1 gal/min" }
dig "twelve loads" { of = "block", slope = "upright", measured = { bank_volume = "48 yd3", loose_volume = "60 yd3" } }
tree "maple" { trunk = "12 in", distance = "6 ft" }
tree "maple, short cut" { trunk = "12 in", distance = "6 ft", cut_width = "8 ft" }
tree "far" { trunk = "6 in", distance = "6 ft" }
