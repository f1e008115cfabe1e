-- SPDX-License-Identifier: MIT
-- The pits of slope.lua under the same plane, surveyed.
project { name = "Worked survey of a plane", units = "us" }
site { soil = "type B", survey = "survey.csv", truck_volume = "5 yd3", truck_limit = "8 ton",
  footing_distance = "8 ft", footing_depth = "12 in", ground_water = "33 1/3 in", permeability = "2 in/h" }

basin "pool" { purpose = "display", rim = "-3 in", water_level = "-6 in", depth = "3 ft",
  outline = polygon { { "-5 ft", "-3 ft" }, { "5 ft", "-3 ft" }, { "5 ft", "3 ft" }, { "-5 ft", "3 ft" } } }
dig "pit" { of = "pool", beyond = "0 in", below = "6 in", slope = "1H:1V", sump_flow = "2 gal/min" }
dig "upright" { of = "pool", beyond = "0 in", below = "6 in", slope = "upright" }
dig "benched" { of = "pool", beyond = "0 in", below = "6 in", slope = "upright", benches = { { up = "2 ft", width = "2 ft" } } }
