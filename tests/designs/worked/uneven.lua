-- SPDX-License-Identifier: MIT
-- An L-shaped pit under uneven ground; the points are in feet, the design in metres.
project { name = "Worked survey", units = "si" }
site { soil = "type C", survey = "uneven.csv", shrink = "10 %", footing_distance = "none", ground_water = "none" }
basin "ell" { purpose = "display", rim = "-6 in", water_level = "-1 ft", depth = "18 in",
  outline = polygon { { "-5 ft", "-4 ft" }, { "7 ft", "-4 ft" }, { "7 ft", "2 ft" }, { "1 ft", "2 ft" }, { "1 ft", "6 ft" },
    { "-5 ft", "6 ft" } } }
dig "upright" { of = "ell", beyond = "0 in", below = "6 in", slope = "upright", sump_flow = "0 gal/min" }
dig "one to one" { of = "ell", beyond = "0 in", below = "6 in", slope = "1H:1V" }
dig "flatter" { of = "ell", beyond = "0 in", below = "6 in", slope = "1.5H:1V" }
