-- SPDX-License-Identifier: MIT
-- In here: what this firm can buy, what it pays, what its crews get done, and how well they measure.
-- Put your own figures in place of these. All of them are made up, and so are the pumps.
-- To try it: `forebay rulebook --rules rules/house` shows it all at its end, and
-- `forebay takeoff --rules rules/house DESIGN` prices by it.
-- Units: every number is text with its unit. A curve goes from no flow at the top to no head at the end.

stock {
  -- Pumps on the shelf or at the supplier's. `type`, `curve`, `power`, `best_flow` and the rest mean what they mean in
  -- a design. A fix that changes a pump picks one of these and nothing else. With pumps = {} there is nothing to pick.
  pumps = {
    { model = "small 900", type = "submersible", power = "35 W", best_flow = "550 gal/h", price = "$95",
      curve = { { "0 gal/h", "8 ft" }, { "300 gal/h", "7 ft" }, { "600 gal/h", "5 ft" }, { "1,000 gal/h", "0 ft" } } },
    { model = "small 1400", type = "submersible", power = "60 W", best_flow = "850 gal/h", price = "$140",
      curve = { { "0 gal/h", "10 ft" }, { "500 gal/h", "9 ft" }, { "1,000 gal/h", "6 ft" },
        { "1,500 gal/h", "0 ft" } } },
    { model = "tall 2300", type = "submersible", power = "140 W", best_flow = "1,450 gal/h", price = "$260",
      curve = { { "0 gal/h", "16 ft" }, { "600 gal/h", "14 1/2 ft" }, { "1,200 gal/h", "11 ft" },
        { "1,800 gal/h", "6 ft" }, { "2,300 gal/h", "0 ft" } } },
    { model = "tall 3200", type = "submersible", power = "300 W", best_flow = "1,900 gal/h", price = "$390",
      curve = { { "0 gal/h", "22 ft" }, { "1,000 gal/h", "20 ft" }, { "2,000 gal/h", "15 ft" },
        { "2,800 gal/h", "8 ft" }, { "3,200 gal/h", "0 ft" } } },
    { model = "wide 3600", type = "submersible", power = "140 W", best_flow = "2,200 gal/h", price = "$245",
      curve = { { "0 gal/h", "9 ft" }, { "1,200 gal/h", "7 ft" }, { "2,200 gal/h", "4 ft 3 in" },
        { "3,000 gal/h", "2 ft" }, { "3,600 gal/h", "0 ft" } } },
    { model = "wide 4000", type = "submersible", power = "170 W", best_flow = "2,400 gal/h", price = "$285",
      curve = { { "0 gal/h", "10 ft" }, { "1,500 gal/h", "8 ft" }, { "2,500 gal/h", "5 1/2 ft" },
        { "3,300 gal/h", "3 ft" }, { "4,000 gal/h", "0 ft" } } },
    { model = "big 5200", type = "submersible", power = "380 W", best_flow = "3,100 gal/h", price = "$430",
      curve = { { "0 gal/h", "14 ft" }, { "2,000 gal/h", "12 ft" }, { "3,500 gal/h", "8 ft" },
        { "4,600 gal/h", "3 ft" }, { "5,200 gal/h", "0 ft" } } },
  },

  -- Pipe on the rack; the price is for a foot of it. Without a material it is PVC schedule 40.
  pipe_sizes = {
    { size = "1 in", price = "$0.90" },
    { size = "1 1/4 in", price = "$1.20" },
    { size = "1 1/2 in", price = "$1.45" },
    { size = "2 in", price = "$1.90" },
    { size = "3 in", price = "$3.80" },
    { size = "1 1/2 in", material = "smooth hose", price = "$2.60" },
    { size = "2 in", material = "smooth hose", price = "$3.40" },
  },

  -- What things cost us, for designs that say nothing of it: stone, gravel and base by the ton, haul by the truckload,
  -- liner, underlay, wall face and paving by the square foot, coping and plants by the piece, the crew by the day,
  -- energy by the kilowatt-hour.
  prices = {
    stone = "$260", gravel = "$38", base = "$36", haul = "$190", liner = "$1.10", underlay = "$0.35", wall = "$14",
    coping = "$48", paving = "$9.50", plant = "$12", crew_day = "$1,450", energy = "$0.17",
  },

  -- What one crew gets done in a day when the weather holds.
  rates = { stones_per_day = 6, soil_per_day = "22 yd3", wall_per_day = "8 ft", paving_per_day = "60 ft2" },

  -- How far off a value can be, either way, by how it was got.
  tolerances = {
    tape = "1/2 in", ["laser level"] = "1/8 in", level = "1/4 in", eye = "10 %", ["maker's curve"] = "5 %",
    bucket = "5 %", scale = "2 %",
  },
}
