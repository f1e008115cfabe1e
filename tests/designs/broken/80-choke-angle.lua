-- expect: 10: pick "lift".choke_angle | 200 deg | 180 deg
-- A sling choked round a stone cannot open wider than straight.
project { name = "One lift", units = "us" }
basin "pool" { purpose = "display", outline = circle "8 ft", rim = "0 in", water_level = "-4 in", depth = "20 in" }
boulder "stone" { length = "3 ft", width = "2 ft", height = "2 ft" }
machine "digger" { width = "4 ft" }
sling "web" { rated = "2,000 lb", tag = "yes", edge_guard = "fitted" }
pick "lift" {
  of = "stone", machine = "digger", sling = "web", legs = 1, hitch = "choker", reach = "6 ft",
  choke_angle = "200 deg",
}
