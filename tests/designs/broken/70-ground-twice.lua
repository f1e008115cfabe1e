-- expect: 4: site.ground_slope | second time | one of the two
project { name = "n", units = "us" }
site { survey = "ground.csv",
  ground_slope = "5 %" }
basin "pool" { purpose = "display", outline = circle "8 ft", rim = "0 in", water_level = "-4 in", depth = "20 in" }
