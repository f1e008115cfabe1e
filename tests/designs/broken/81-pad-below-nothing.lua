-- expect: 5: boulder "stone".pad | -2 in | 0 in
project { name = "One stone", units = "us" }
basin "pool" { purpose = "display", outline = circle "8 ft", rim = "0 in", water_level = "-4 in", depth = "20 in" }
boulder "stone" { length = "3 ft", width = "2 ft", height = "2 ft", climbable = "no", hands = 2, falls_away = "yes",
  pad = "-2 in" }
