-- SPDX-License-Identifier: MIT
-- Firm clay that nobody has disturbed; a second pit of the same clay, as a rule of thumb knows it.
project { name = "Worked clay", units = "us" }
site { soil = "type A", ground_water = "none", undisturbed = "yes", swell = "29.87 %", truck_volume = "12 yd3", truck_limit = "20 ton" }
basin "pond" { purpose = "display", outline = rectangle { "100 ft", "40 ft" }, rim = "1 ft", water_level = "0 ft", depth = "12 ft" }
dig "pond pit" { of = "pond", beyond = "0 in", below = "0 in", slope = "2H:1V", measured = { loose_volume = "7936.5 yd3" } }
