-- SPDX-License-Identifier: MIT
-- Walls, cap stones, paving and circuits whose figures stand in class problems, handbooks or below in hand arithmetic.
project { name = "Worked walls", units = "us" }
site { soil = "type C", ground = "0 in", frost = "drained" }
prices { energy = "$0.20" }

-- The 4 ft wall of a handbook's hand calculation, on drained ground and under 100 psf of people.
local four_feet = { length = "10 ft", footing_to_top = "4 ft", thickness = "2 ft", density = "145 lb/ft3",
  fill_density = "120 lb/ft3", fill_friction = "30 deg", base_friction = 0.55, embedment = "8 in", base_pad = "6 in",
  toe_slope = "level" }
local function four_feet_with(more)
  local wall_of = {}
  for name, value in pairs(four_feet) do wall_of[name] = value end
  for name, value in pairs(more) do wall_of[name] = value end
  return wall_of
end
wall "plain" (four_feet_with { above = "level", drain = "fitted" })
wall "loaded" (four_feet_with { above = "paving", drain = "fitted" })
wall "undrained" (four_feet_with { above = "level", drain = "none" })
wall "heavy stone" (four_feet_with { above = "boulder", drain = "fitted", holds = "load" })
boulder "load" { length = "4 ft", width = "2 ft", height = "2 ft", shape = "sawn", density = "150 lb/ft3" }

-- A garden wall of a class problem: vertical rear, front sloping back.
wall "garden" { length = "5 m", footing_to_top = "1.6 m", thickness = "0.8 m", top_thickness = "0.4 m",
  density = "2447.3 kg/m3", fill_density = "1835.49 kg/m3", fill_friction = "20 deg", base_friction = 0.7,
  embedment = "200 mm", above = "level", drain = "fitted", toe_slope = "3H:1V" }

basin "pool" { purpose = "display", outline = rectangle { "8 ft", "6 ft" }, rim = "2 in", water_level = "-4 in", depth = "3 ft" }
wall "edge" { beside = "pool", length = "6 ft", footing_to_top = "28 in", thickness = "18 in", embedment = "8 in",
  base_pad = "6 in", above = "slope", back_slope = "3H:1V", drain = "none", liner_under = "yes" }
wall "unpadded" { length = "6 ft", footing_to_top = "20 in", thickness = "18 in", embedment = "6 in", base_pad = "2 in",
  above = "paving", drain = "fitted", toe_slope = "2H:1V", drop_below = "40 in" }

coping "tread" { on = "plain", length = "12 in", depth = "24 in", thickness = "2 in", overhang = "12 in", stone = "granite" }
coping "lip" { on = "plain", length = "30 in", depth = "16 in", thickness = "2 in", overhang = "6 in", stone = "sandstone" }
coping "tested" { on = "plain", length = "30 in", depth = "16 in", thickness = "2 in", overhang = "6 in", stone = "unknown",
  strength = "2,000 psi" }
coping "white" { on = "plain", length = "30 in", depth = "16 in", thickness = "2 in", overhang = "6 in", stone = "marble" }

paving "terrace" { beside = "pool", area = "270 ft2", base = "6 in", edge_distance = "12 in" }
paving "walk" { beside = "edge", area = "54 ft2", base = "4 in", edge_distance = "40 in" }
paving "ledge" { area = "10 ft2", drop = "31 in", edge_distance = "36 in" }
