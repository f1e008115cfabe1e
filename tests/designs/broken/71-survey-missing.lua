-- expect: 3: site.survey | no such file | ground.csv
project { name = "n", units = "us" }
site { survey = "ground.csv" }
basin "pool" { purpose = "display", outline = circle "8 ft", rim = "0 in", water_level = "-4 in", depth = "20 in" }
