-- SPDX-License-Identifier: MIT
-- Values taken on site beside what is worked out from stated sizes.
project { name = "Measured", units = "us" }
site { soil = "type B", swell = "25 %" }
basin "tank" { purpose = "display", outline = rectangle { "10 ft", "8 ft" }, rim = "0 in", water_level = "-6 in", depth = "24 in",
  measured = { freeboard = "5.4 in", with = "tape" } }
basin "bowl" { purpose = "bowl", outline = rectangle { "3 ft", "3 ft" }, rim = "30 in", depth = "12 in",
  measured = { water_in_flight = "10 gal", start_level = "25 in", with = "level" } }
spill "lip" { from = "bowl", into = "tank", crest = "28 in", lip = "broad stone", lip_width = "10 in",
  measured = { flow = "1,000 gal/h", flow_per_width = "110 gal/h/in", with = "bucket" } }
channel "run" { from = "bowl", into = "tank", start = "28 in", length = "10 ft", width = "1 ft", fall = "6 in", edge = "4 in",
  measured = { depth_high = "2 in", edge_depths = "250 %", with = "tape" } }
intake "box" { basin = "tank", type = "submerged", openings = 2,
  measured = { face_speed = "0.1 ft/s", face_speed_blocked = "0.25 ft/s", with = "meter" } }
pump "one" { from = "box", type = "submersible", curve = { { "0 gal/h", "2 ft" }, { "1,000 gal/h", "0 ft" } },
  measured = { shut_off_head = "2.2 ft", with = "meter" } }
pipe "line" { from = "one", to = "bowl", size = "2 in", length = "10 ft", outlet = "above water", outlet_at = "32 in",
  measured = { bore = "2.2737 in", with = "tape" } }
jet "plume" { basin = "tank", at = "-4 in", orifice = "1/2 in", target = "200 gal/h",
  measured = { flow = "100 gal/h", share_of_target = "60 %", with = "bucket" } }
boulder "cube" { length = "2 ft", width = "2 ft", height = "2 ft", shape = "sawn", stone = "unknown", density = "160 lb/ft3",
  measured = { mass = "1,408 lb", mass_low = "1,300 lb", with = "scale" } }
dig "pit" { of = "tank", measured = { bank_volume = "10 yd3", loose_volume = "15 yd3", with = "eye" } }
liner "sheet" { of = "tank", lap_top = "2 in", measured = { lap_over_water = "10 in", with = "level" } }
wall "back" { beside = "tank", length = "10 ft", footing_to_top = "36 in", thickness = "12 in",
  measured = { face_area = "33 ft2", with = "tape" } }
coping "cap" { on = "back", length = "24 in", depth = "12 in", thickness = "2 in", overhang = "1 in",
  measured = { run = "11 ft", with = "tape" } }
circuit "feed" { volts = "120 V", breaker = "16 A", feeds = { "one" },
  measured = { running_current = "8 A", breaker_share = "60 %", with = "meter" } }
