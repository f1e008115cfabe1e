-- expect: 4: has control characters in its name | ?2J
-- A name with U+009B in it, which some terminals obey. Invented.
project { name = "Porch", units = "us" }
basin "po2Jol" { purpose = "display", reach = "adults", entered = "no",
  outline = circle { "6 ft" }, rim = "0 in", water_level = "-4 in", depth = "12 in" }
