-- SPDX-License-Identifier: MIT
-- Circuits of examination problems (120 V, 20 A, 100 ft) and of hand arithmetic.
project { name = "Worked power", units = "us" }
site { ground = "0 in" }
prices { energy = "$0.20" }
basin "pool" { purpose = "plunge", entered = "yes", outline = rectangle { "8 ft", "6 ft" }, rim = "2 in",
  water_level = "-4 in", depth = "3 ft" }
basin "pond" { purpose = "plunge", entered = "yes", outline = rectangle { "8 ft", "6 ft" }, rim = "2 in",
  water_level = "-4 in", depth = "3 ft" }
intake "sump" { basin = "pond", type = "sump" }
local curve = { { "0 gal/h", "10 ft" }, { "1,000 gal/h", "0 ft" } }
pump "twenty" { from = "pool", type = "submersible", curve = curve, power = "1,680 W", running_current = "20 A",
  starting_current = "60 A", on_share = "50 %" }
pump "other twenty" { from = "pool", type = "submersible", curve = curve, running_current = "20 A" }
pump "small" { from = "sump", type = "submersible", curve = curve, power = "168 W" }
pump "smaller" { from = "sump", type = "submersible", curve = curve, power = "84 W" }
pump "beside" { from = "sump", type = "dry", curve = curve, power = "84 W" }
light "path" { volts = "12 V", power = "25 W", count = 4, run = "50 ft", wire = "12 AWG copper", on_share = "25 %" }

circuit "twelve" { volts = "120 V", breaker = "25 A", wire = "12 AWG copper", run = "100 ft", feeds = { "twenty" },
  cable = "direct cable", cover_depth = "20 in", pump_off_to_enter = "stated" }
circuit "ten" { volts = "120 V", breaker = "25 A", wire = "10 AWG copper", run = "100 ft", feeds = { "other twenty" },
  cable = "PVC conduit", cover_depth = "20 in", pump_off_to_enter = "stated" }
circuit "metric" { volts = "230 V", breaker = "10 A", wire = "2.5 mm2 copper", run = "30 m",
  feeds = { "small", "smaller", "path" }, cable = "low voltage", cover_depth = "6 in", pump_off_to_enter = "none" }
