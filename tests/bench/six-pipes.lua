-- SPDX-License-Identifier: MIT
-- One pump and six pipes, for timing a trial that solves their flow again.
project { name = "Six pipes", units = "us" }
site { }

local curve = { { "0 gal/h", "16 ft" }, { "2,000 gal/h", "13 ft" }, { "4,000 gal/h", "6 ft" }, { "5,000 gal/h", "0 ft" } }

basin "pool" { purpose = "display", outline = circle "10 ft", rim = "0 in", water_level = "-4 in", depth = "24 in" }

pump "pump" { from = "pool", type = "submersible", curve = curve }
pipe "line" { from = "pump", to = "tee", size = "2 in", length = "20 ft", valve = "gate", valve_open = "90 %" }
junction "tee" { at = "-10 in" }
for i = 1, 5 do
  pipe("branch " .. i) { from = "tee", to = "pool", size = "1 1/2 in", length = q"10 ft" * i, outlet = "above water",
    outlet_at = "30 in", valve = "gate", valve_open = "70 %" }
end
