-- SPDX-License-Identifier: MIT
-- Lips out of level, a blocked lip, a ring, a storm, losses, ice: values by hand arithmetic and with scipy.
project { name = "Worked faults", units = "us", closing_error = "1/8 in" }
site { storm = { depth = "2 in", lasts = "30 min" }, runoff_area = "100 ft2", gravel_size = "3/4 in",
  pan_evaporation = "0.3 in/day" }
benchmark "nail" { level = "0 in", error = "1/16 in" }
benchmark "bolt" { level = "4 in", error = "1/16 in" }

basin "pool" { purpose = "display", outline = rectangle { "12 ft", "8 ft" }, rim = "0 in", water_level = "-6 in", depth = "3 ft",
  fill_flow = "5 gal/min", overflow_bore = "3 in", overflow_at = "-4 in" }
intake "intake" { basin = "pool", type = "submerged", lowest_level = "-12 in", from_landing = "30 in", clear_of_landing = "24 in" }
pump "pump" { from = "intake", type = "submersible", curve = { { "0 gal/h", "14 ft" }, { "3,000 gal/h", "0 ft" } },
  measured = { flow = "2,160 gal/h", with = "bucket" } }
pipe "line" { from = "pump", to = "knee", size = "1 1/2 in", length = "30 ft", check_valve = "fitted" }
junction "knee" { at = "0 in" }
pipe "rise" { from = "knee", to = "bowl", size = "1 1/2 in", length = "6 ft", outlet = "above water", outlet_at = "32 in" }
basin "bowl" { purpose = "bowl", outline = circle "4 ft", rim = "30 in", depth = "16 in", drain_at = "10 in",
  ring = { { starts = "0 ft", ends = "9 ft", width = "12 in", depth = "6 in", lined = "yes", returns_to = "pool",
    path = "4 ft 6 in", fall = "3 in" } } }
spill "lip" { from = "bowl", into = "pool", crest = "24 in", lip = "thin edge", lip_width = "12 in", effect = "sheet",
  drip_edge = "none", setback = "0 in", out_of_level = "1/2 in", target = "2,000 gal/h", lip_depth = "3 in",
  fill_under = "24 in", fill_other = "6 in", liner_behind = "4 in" }

liner "bowl liner" { of = "bowl", edge = "29 in" }

-- Half of the lip is full of leaves; it falls into a three-cornered basin of 6, 8 and 10 ft.
basin "leafy" { purpose = "bowl", outline = circle "4 ft", rim = "30 in", depth = "16 in",
  ring = { { starts = "0 ft", ends = "12 ft", width = "12 in", depth = "6 in", lined = "yes", returns_to = "corner" } },
  measured = { flow_in = "1,000 gal/h" } }
spill "half" { from = "leafy", into = "corner", crest = "24 in", lip = "broad stone", lip_width = "12 in", blocked = "50 %",
  drip_edge = "edge", setback = "0 in", out_of_level = "2 in" }
basin "corner" { purpose = "display", outline = polygon { { "0 ft", "0 ft" }, { "8 ft", "0 ft" }, { "0 ft", "6 ft" } },
  rim = "4 in", water_level = "0 in", depth = "2 ft", leak = "1/4 in/day" }

-- Runs over its whole rim: lowest at the front, a quarter of an inch higher at both sides, half an inch at the back.
basin "hollow" { purpose = "hollow", outline = circle "3 ft", water_level = "19.9 in", depth = "7 in", wet_wanted = "50 %",
  rim_profile = { { at = "0 in", level = "20 in" }, { at = "28.27 in", level = "20 1/4 in" },
    { at = "56.55 in", level = "20 1/2 in" }, { at = "84.82 in", level = "20 1/4 in" } },
  measured = { flow_in = "1,000 gal/h" } }
basin "head" { purpose = "hollow", outline = circle "2 ft", rim = "18 in", depth = "8 in" }
channel "run" { from = "head", into = "corner", start = "12 in", length = "10 ft", width = "12 in", fall = "6 in", roughness = 0.04, edge = "8 in",
  measured = { flow = "1,000 gal/h" } }
