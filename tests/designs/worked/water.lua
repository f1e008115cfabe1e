-- SPDX-License-Identifier: MIT
-- Flows, heads and levels whose values stand in handbooks, or were worked out with general libraries.
project { name = "Worked water", units = "us" }

basin "low" { purpose = "display", outline = ellipse { "12 ft", "8 ft" }, rim = "4 in", water_level = "0 in", depth = "3 ft",
  measured = { water_in_flight = "44 gal" } }
basin "high" { purpose = "bowl", outline = circle { "4 ft" }, rim = "30 in", depth = "16 in" }
basin "shared" { purpose = "bowl", outline = circle { "5 ft" }, rim = "30 in", depth = "16 in" }

spill "edge" { from = "high", into = "low", crest = "24 in", lip = "thin edge", lip_width = "12 in", drip_edge = "edge",
  setback = "0 in", measured = { flow = "36 gal/min", with = "bucket" } }
spill "stone" { from = "shared", into = "low", crest = "24 in", lip = "broad stone", lip_width = "12 in", drip_edge = "undercut",
  setback = "-1 in", measured = { flow = "720 gal/h" } }
spill "twin" { from = "shared", into = "low", crest = "24 in", lip = "broad stone", lip_width = "12 in",
  drip_edge = "none", setback = "-3 in" }
spill "three feet" { from = "high", into = "low", crest = "36 in", lip = "thin edge", lip_width = "12 in" }

spill "vee" { from = "high", into = "low", crest = "24 in", lip = "V", lip_width = "2 in", lip_depth = "3 in",
  measured = { flow = "1,663 gal/h" } }

intake "intake" { basin = "low", type = "submerged", open_area = "1 ft2" }
pump "pump" { from = "intake", type = "submersible", power = "300 W", best_flow = "1,300 gal/h",
  curve = { { "0 gal/h", "14 ft" }, { "800 gal/h", "11 1/2 ft" }, { "1,600 gal/h", "6 1/2 ft" }, { "2,100 gal/h", "0 ft" } } }
pipe "line" { from = "pump", to = "shared", size = "1 1/2 in", length = "36 ft", fittings = { { type = "elbow 90", count = 3 } },
  outlet = "above water", outlet_at = "46 in" }
pump "stalled" { from = "low", type = "submersible", curve = { { "0 gal/h", "3 ft" }, { "2,000 gal/h", "0 ft" } } }
pipe "stalled line" { from = "stalled", to = "high", size = "2 in", length = "60 ft", outlet = "above water", outlet_at = "4 ft" }
-- The pipe ends a foot under a bowl of 4 ft: what stands over its end runs back.
basin "drowned" { purpose = "bowl", outline = circle { "4 ft" }, rim = "30 in", depth = "16 in" }
spill "drowned lip" { from = "drowned", into = "run-off", crest = "24 in", lip = "notch", lip_width = "6 in", lip_depth = "4 in",
  setback = "0 in" }
basin "pit" { purpose = "display", outline = circle { "8 ft" }, rim = "8 in", water_level = "0 in", depth = "3 ft" }
pump "lift" { from = "pit", type = "dry", curve = { { "0 gal/h", "20 ft" }, { "2,000 gal/h", "0 ft" } }, best_flow = "1,000 gal/h",
  suction_length = "4 ft", suction_size = "2 in", suction_fittings = { { type = "elbow 90", count = 1 } } }
pipe "rise" { from = "lift", to = "knee", size = "2 in", length = "30 ft", material = "smooth hose" }
junction "knee" { at = "10 in" }
pipe "end" { from = "knee", to = "drowned", size = "2 in", length = "10 ft", valve = "gate", valve_open = "50 %", outlet = "drowned",
  outlet_at = "12 in" }
channel "run-off" { into = "pit", start = "20 in", length = "6 ft", width = "12 in", fall = "6 in" }

channel "reach" { from = "shared", into = "low", start = "25 in", length = "12 ft", width = "18 in", fall = "2.88 in", roughness = 0.04 }
