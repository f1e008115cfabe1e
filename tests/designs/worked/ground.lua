-- SPDX-License-Identifier: MIT
-- Shapes whose areas, volumes and weights stand in handbooks.
project { name = "Worked shapes", units = "us" }
site { soil = "type C", truck_volume = "12 yd3", truck_limit = "30 ton" }

basin "oval" { purpose = "display", outline = ellipse { "12 ft", "8 ft" }, rim = "2 in", water_level = "0 in", depth = "3 ft",
  fill_flow = "5 gal/min" }
basin "tiers" { purpose = "display", outline = rectangle { "12 ft", "8 ft" }, rim = "2 in", water_level = "0 in",
  depth = "3 ft", shelves = { { depth = "1 ft", width = "18 in" } } }
basin "elbow" { purpose = "display", rim = "0 ft", water_level = "-1 ft", depth = "1 ft", side_slope = "1H:1V",
  outline = polygon { { "0 ft", "0 ft" }, { "12 ft", "0 ft" }, { "12 ft", "6 ft" }, { "6 ft", "6 ft" }, { "6 ft", "10 ft" },
    { "0 ft", "10 ft" } } }
basin "ragged" { purpose = "display", rim = "1 ft", water_level = "0 ft", depth = "1 ft",
  outline = polygon { { "0 ft", "2 ft" }, { "3 ft", "0 ft" }, { "7 ft", "1 ft" }, { "9 ft", "0 ft" }, { "12 ft", "3 ft" },
    { "11 ft", "7 ft" }, { "7 ft", "6 ft" }, { "4 ft", "8 ft" }, { "1 ft", "6 ft" } } }
basin "flat" { purpose = "display", outline = rectangle { "52 ft", "22 ft" }, rim = "1 ft", water_level = "0 ft", depth = "12 ft" }
basin "gravelled" { purpose = "display", outline = rectangle { "10 ft", "10 ft" }, rim = "1 ft", water_level = "0 ft",
  depth = "2 ft", gravel_bed = "6 in", voids = "40 %" }

dig "oval upright" { of = "oval", beyond = "12 in", below = "6 in", slope = "upright" }
dig "oval sloped" { of = "oval", beyond = "12 in", below = "6 in", slope = "1H:1V" }
dig "flat pit" { of = "flat", beyond = "0 in", below = "0 in", slope = "2H:1V" }

boulder "small" { length = "3 ft", width = "2 ft", height = "2 ft", shape = "blocky", density = "165 lb/ft3" }
boulder "large" { length = "5 ft", width = "3 ft", height = "4 ft", shape = "blocky", density = "165 lb/ft3", embedment = "8 in",
  gravel_behind = "18 in", gravel_height = "12 in" }
boulder "round" { length = "4 ft", width = "3 ft", height = "2 ft", shape = "rounded", density = "165 lb/ft3", gravel_behind = "0 in" }
boulder "unknown" { length = "1 ft", width = "1 ft", height = "1 ft", gravel_behind = "0 in" }
boulder "squared seven" { length = "7 ft", width = "3 ft", height = "2 ft", shape = "squared", stone = "sandstone", gravel_behind = "0 in" }

boulder "in water" { length = "2 ft", width = "2 ft", height = "3 ft", shape = "sawn", stands_in = "gravelled", gravel_behind = "0 in" }
dig "trench" { of = "wall", beyond = "6 in", slope = "upright" }
wall "wall" { length = "10 ft", footing_to_top = "3 ft", thickness = "12 in", embedment = "8 in", base_pad = "6 in" }
coping "cap" { on = "wall", length = "18 in", depth = "24 in", thickness = "3 in", overhang = "2.05 in", stone = "granite" }
