-- expect: 23: bowl | not known | "bowl" in quotes
-- Two basins beside a porch. Invented. Heights are over the paving at the door.
project { name = "Porch basins", units = "us" }
site { soil = "type B", gate_width = "4 ft", utilities = "located",
  storm = { depth = "1.2 in", lasts = "15 min" } }

basin "lower" { purpose = "display", reach = "adults", entered = "no",
  outline = polygon {
    {"0 ft", "0 ft"},
    {"8 ft", "0 ft"},
    {"8 ft", "5 ft"},
    {"0 ft", "5 ft"},
  },
  rim = "0 in", water_level = "-4 in",
  depth = "24 in", side_slope = "upright",
  shelves = {
    { depth = "8 in", width = "10 in" },
    { depth = "14 in", width = "6 in" },
  } }
basin "bowl" { purpose = "bowl",
  outline = circle { "4 ft" },
  rim = "20 in", depth = "12 in" }
spill "lip" { from = bowl, into = "lower",
  crest = "18 in", lip = "broad stone",
  lip_width = "14 in", effect = "sheet",
  measured = { flow = "820 gal/h", with = "bucket" } }
intake "skim" { basin = "lower", type = "skimming",
  hidden_by = { "left stone",
    "right stone" } }
pump "feeder" { from = "skim", type = "submersible",
  curve = {
    {"0 gal/h", "12 ft"},
    {"900 gal/h", "9 ft"},
    {"1,800 gal/h", "0 ft"},
  } }
pipe "riser" { from = "feeder", to = "bowl", size = "1 1/2 in",
  length = "14 ft", outlet = "above water", outlet_at = "22 in",
  fittings = { { type = "elbow 90", count = 2 },
    { type = "union" } } }
for _, side in ipairs { "left", "right" } do
  boulder(side .. " stone") { length = "28 in", width = "18 in", height = "20 in",
    embedment = "4 in", beside = "lower" }
end
machine "small digger" { width = "3 ft 4 in",
  lifts = { { reach = "6 ft", rated = "900 lb", deducted = "60 lb" } } }
circuit "pumps" { volts = "120 V", feeds = { "feeder" } }
