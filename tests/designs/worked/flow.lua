-- SPDX-License-Identifier: MIT
-- Two pumps on one header, a filter, three branches: flows worked out apart from this program stand in flow.tsv.
project { name = "Worked flow", units = "us" }
site { frost_depth = "30 in" }

basin "pool" { purpose = "display", outline = rectangle { "20 ft", "10 ft" }, rim = "6 in", water_level = "0 in", depth = "3 ft",
  measured = { water_in_flight = "100 gal" } }
basin "left bowl" { purpose = "bowl", outline = circle { "4 ft" }, rim = "30 in", depth = "16 in" }
basin "right bowl" { purpose = "bowl", outline = circle { "4 ft" }, rim = "24 in", depth = "16 in" }
spill "left lip" { from = "left bowl", into = "pool", crest = "24 in", lip = "thin edge", lip_width = "24 in", target = "1,200 gal/h" }
spill "right lip" { from = "right bowl", into = "pool", crest = "18 in", lip = "thin edge", lip_width = "24 in", target = "900 gal/h" }

intake "box" { basin = "pool", type = "submerged", openings = 3, open_area = "1 ft2", bore = "3 in", cover_depth = "20 in",
  load_rating = "800 lb", load_over = "250 lb" }
intake "door" { basin = "pool", type = "skimming", gap_width = "6 in", gap_depth = "8 in" }
pump "one" { from = "box", type = "dry", suction_length = "6 ft", suction_size = "2 in",
  suction_fittings = { { type = "elbow 90", count = 2 } },
  curve = { { "0 gal/h", "24 ft" }, { "1,500 gal/h", "21 ft" }, { "3,000 gal/h", "12 ft" }, { "4,000 gal/h", "0 ft" } } }
pump "two" { from = "door", type = "submersible",
  curve = { { "0 gal/h", "20 ft" }, { "1,500 gal/h", "18 ft" }, { "2,500 gal/h", "12 ft" }, { "3,500 gal/h", "0 ft" } } }
pipe "one line" { from = "one", to = "tee", size = "2 in", length = "10 ft", check_valve = "fitted", target = "2,000 gal/h",
  fittings = { { type = "elbow 90", count = 2 } } }
pipe "two line" { from = "two", to = "tee", size = "1 1/2 in", length = "12 ft", check_valve = "fitted",
  fittings = { { type = "elbow 90", count = 1 }, { type = "tee branch" } } }
junction "tee" { at = "-6 in" }
pipe "main" { from = "tee", to = "fork", size = "2 in", length = "20 ft", filter = "drum", cover_depth = "18 in", valve = "ball" }
filter "drum" { rated_flow = "4,000 gal/h", clean_loss = "2 ft", dirty_loss = "8 ft" }
junction "fork" { at = "-6 in" }
pipe "to left" { from = "fork", to = "left bowl", size = "1 1/2 in", length = "15 ft", valve = "ball", valve_open = "75 %",
  fittings = { { type = "tee branch" }, { type = "elbow 45", count = 2 } }, outlet = "above water", outlet_at = "30 in" }
pipe "to right" { from = "fork", to = "right bowl", size = "1 1/2 in", length = "25 ft", valve = "gate", valve_open = "50 %",
  fittings = { { type = "sweep 90", count = 2 } }, outlet = "drowned", outlet_at = "12 in" }
pipe "to plume" { from = "fork", to = "plume", size = "1 1/2 in", length = "8 ft", valve = "globe",
  fittings = { { type = "tee run" } } }
jet "plume" { basin = "pool", at = "2 in", count = 2, orifice = "3/4 in", orifice_coefficient = 0.9, to_edge = "5 ft",
  target = "1,500 gal/h" }

-- A line that drains back into a small pit.
basin "pit" { purpose = "display", outline = circle { "8 ft" }, rim = "2 in", water_level = "0 in", depth = "3 ft",
  measured = { water_in_flight = "60 gal" } }
basin "pit bowl" { purpose = "bowl", outline = circle { "3 ft" }, rim = "30 in", depth = "12 in" }
spill "pit lip" { from = "pit bowl", into = "pit", crest = "24 in", lip = "notch", lip_width = "6 in", lip_depth = "3 in" }
pump "riser pump" { from = "pit", type = "submersible", curve = { { "0 gal/h", "12 ft" }, { "2,000 gal/h", "4 ft" } } }
pipe "riser" { from = "riser pump", to = "pit bowl", size = "2 in", length = "40 ft", valve = "ball", valve_open = "25 %",
  outlet = "above water", outlet_at = "30 in" }

-- The flow was taken with a bucket before the branch was drawn: its share is still solved.
basin "third" { purpose = "display", outline = circle { "6 ft" }, rim = "4 in", water_level = "0 in", depth = "2 ft" }
basin "near" { purpose = "bowl", outline = circle { "2 ft" }, rim = "16 in", depth = "8 in" }
basin "far" { purpose = "bowl", outline = circle { "2 ft" }, rim = "16 in", depth = "8 in" }
spill "near lip" { from = "near", into = "third", crest = "12 in", lip = "thin edge", lip_width = "8 in" }
spill "far lip" { from = "far", into = "third", crest = "12 in", lip = "thin edge", lip_width = "8 in" }
pump "old pump" { from = "third", type = "submersible", curve = { { "0 gal/h", "9 ft" }, { "2,000 gal/h", "0 ft" } },
  measured = { flow = "1,000 gal/h", with = "bucket" } }
pipe "old line" { from = "old pump", to = "old tee", size = "1 1/2 in", length = "6 ft" }
junction "old tee" { at = "0 in" }
pipe "near branch" { from = "old tee", to = "near", size = "1 in", length = "5 ft", outlet = "above water", outlet_at = "14 in" }
pipe "far branch" { from = "old tee", to = "far", size = "1 in", length = "20 ft", outlet = "above water", outlet_at = "14 in" }

-- A large pump whose bowls were taken with a bucket: the rest is for the jets.
basin "wide pool" { purpose = "display", outline = circle { "12 ft" }, rim = "4 in", water_level = "0 in", depth = "2 ft" }
pump "big pump" { from = "wide pool", type = "submersible", curve = { { "0 gal/h", "20 ft" }, { "9,000 gal/h", "0 ft" } },
  measured = { flow = "6,500 gal/h", with = "meter" } }
pipe "to bowl" { from = "big pump", to = "near", size = "2 in", length = "9 ft", outlet = "above water", outlet_at = "14 in",
  measured = { flow = "900 gal/h", with = "bucket" } }
pipe "to other bowl" { from = "big pump", to = "far", size = "2 in", length = "9 ft", outlet = "above water", outlet_at = "14 in",
  measured = { flow = "1,000 gal/h", with = "bucket" } }

-- Pipes that end drowned: the pump works against what stands over the lips, what falls in from the bowl above included.
basin "sump" { purpose = "display", outline = circle { "10 ft" }, rim = "4 in", water_level = "0 in", depth = "2 ft" }
basin "over" { purpose = "bowl", outline = circle { "3 ft" }, rim = "46 in", depth = "12 in" }
basin "under" { purpose = "bowl", outline = circle { "3 ft" }, rim = "30 in", depth = "16 in" }
spill "over lip" { from = "over", into = "under", crest = "40 in", lip = "thin edge", lip_width = "12 in" }
spill "under lip" { from = "under", into = "sump", crest = "24 in", lip = "thin edge", lip_width = "4 in" }
pump "drowning" { from = "sump", type = "submersible", curve = { { "0 gal/h", "10 ft" }, { "4,000 gal/h", "0 ft" } } }
pipe "drowning line" { from = "drowning", to = "drowning tee", size = "2 in", length = "8 ft" }
junction "drowning tee" { at = "0 in" }
pipe "to over" { from = "drowning tee", to = "over", size = "1 1/2 in", length = "10 ft", outlet = "above water", outlet_at = "44 in" }
pipe "to under" { from = "drowning tee", to = "under", size = "1 1/2 in", length = "14 ft", outlet = "drowned", outlet_at = "14 in" }

basin "vee bowl" { purpose = "bowl", outline = circle { "3 ft" }, rim = "30 in", depth = "16 in" }
spill "vee lip" { from = "vee bowl", into = "sump", crest = "20 in", lip = "V", lip_width = "4 in", lip_depth = "2 in" }
channel "vee run" { from = "vee bowl", into = "sump", start = "21 in", length = "10 ft", width = "6 in", fall = "6 in", roughness = 0.04 }
pump "vee pump" { from = "sump", type = "submersible", curve = { { "0 gal/h", "8 ft" }, { "3,000 gal/h", "0 ft" } } }
pipe "vee line" { from = "vee pump", to = "vee bowl", size = "1 1/2 in", length = "12 ft", outlet = "drowned", outlet_at = "10 in" }
