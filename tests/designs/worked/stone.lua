-- SPDX-License-Identifier: MIT
-- One stone in all states of its build, and what is asked of seats, slings, machines and people.
project { name = "Worked stones", units = "us" }
site {
  soil = "type B", ground_water = "none", ground = "0 in", gravel_size = "4 in", line_distance = "40 ft", line_voltage = "69 kV",
  gate_width = "7 ft", gate_height = "9 ft",
}
crew { people = 3 }

-- On a seat that falls forward. 5 x 3 x 4 ft, 6,435 lb on the scale, 3 ft of gravel behind, water up to 2 ft 6 in.
for _, on in ipairs { "stone", "underlay on liner" } do
  boulder("sloped on " .. on) {
    length = "5 ft", width = "3 ft", height = "4 ft", density = "165 lb/ft3", shape = "blocky", seat_width = "2 ft",
    measured = { mass_low = "6,435 lb", with = "scale" },
    embedment = "0 in", stands_on = on, membrane = "smooth", seat_slope = "5H:1V", climbable = "no",
    gravel_behind = "18 in", gravel_height = "3 ft", water_beside = "30 in", falls_away = "no",
  }
end
-- The same stone with a level seat.
for _, on in ipairs { "stone", "underlay on liner" } do
  boulder("level on " .. on) {
    length = "5 ft", width = "3 ft", height = "4 ft", density = "165 lb/ft3", shape = "blocky", seat_width = "2 ft",
    measured = { mass_low = "6,435 lb", with = "scale" },
    embedment = "0 in", stands_on = on, seat_slope = "level", climbable = "no", machine_beside = "yes",
    gravel_behind = "18 in", gravel_height = "3 ft", water_beside = "30 in", beside = "pond",
  }
end
boulder "textured" {
  length = "5 ft", width = "3 ft", height = "4 ft", density = "165 lb/ft3", shape = "blocky", seat_width = "2 ft",
  measured = { mass_low = "6,435 lb", with = "scale" },
  embedment = "0 in", stands_on = "underlay on liner", membrane = "textured", climbable = "no", gravel_behind = "18 in",
  gravel_height = "3 ft",
}
for _, soft in ipairs { { "soft on top", "0 in" }, { "soft bedded", "12 in" } } do
  boulder(soft[1]) {
    length = "5 ft", width = "3 ft", height = "4 ft", density = "165 lb/ft3", shape = "blocky", seat_width = "2 ft",
    measured = { mass_low = "6,435 lb", with = "scale" },
    embedment = soft[2], stands_on = "gravel", climbable = "no", gravel_behind = "18 in", gravel_height = "3 ft",
  }
end
-- A sawn block of 2 x 2 x 4 ft that leans and is climbed.
boulder "leaning" {
  length = "2 ft", width = "2 ft", height = "4 ft", density = "150 lb/ft3", shape = "sawn", lean = "5 deg",
  embedment = "0 in", stands_on = "stone", gravel_behind = "0 in", shelf_edge = "9 in", shelf_drop = "24 in",
  bore = "2 in", bore_wall = "5 in",
}
boulder "climbed" {
  length = "4 ft", width = "3 ft", height = "2 ft", density = "160 lb/ft3", shape = "sawn", seat_width = "2 ft",
  embedment = "0 in", stands_on = "stone", gravel_behind = "2 ft", gravel_height = "2 ft", machine_beside = "no",
  pad = "12 in", hands = 2, stands_in = "pond",
}
boulder "cap" {
  length = "18 in", width = "12 in", height = "4 in", density = "160 lb/ft3", shape = "sawn", stands_on = "soil", hands = 2,
  gravel_behind = "0 in",
}
boulder "row of stone" { length = "20 ft", width = "2 ft", height = "4 ft", gravel_behind = "20 in", gravel_height = "47 1/2 in" }
boulder "standing" { length = "3 ft", width = "2 ft", height = "6 ft", pose = "upright", embedment = "1 ft", gravel_behind = "0 in" }
boulder "small" { length = "3 ft", width = "2 ft", height = "2 ft", shape = "blocky", density = "165 lb/ft3", gravel_behind = "0 in" }

basin "pond" {
  purpose = "display", outline = rectangle { "20 ft", "20 ft" }, rim = "4 in", water_level = "0 in", depth = "1 ft",
  shelves = { { depth = "6 in", width = "12 in" } },
}
basin "high" { purpose = "bowl", outline = ellipse { "4 ft", "3 ft" }, rim = "24 in", depth = "12 in" }
spill "lip" { from = "high", into = "pond", crest = "20 in", lip = "broad stone", lip_width = "12 in", breadth = "8 in" }
dig "steep" { of = "pond", below = "36 in", slope = "upright", staged_from_edge = "5 ft" }
dig "flat" { of = "pond", below = "36 in", slope = "2H:1V", staged_from_edge = "5 ft" }

machine "rated" {
  width = "6 ft", height = "8 ft", weight = "14,000 lb", chart = "rated", track_length = "7 ft", track_width = "16 in", from_edge = "7 ft",
  greatest_reach = "22 ft",
  lifts = {
    { reach = "15 ft", rated = "2,640 lb", deducted = "240 lb" }, { reach = "10 ft", rated = "4,440 lb", deducted = "240 lb" },
    { reach = "20 ft", rated = "1,700 lb", deducted = "240 lb" },
  },
}
machine "tipping" {
  width = "6 ft", weight = "14,000 lb", chart = "tipping", track_length = "7 ft", track_width = "16 in", from_edge = "2 ft",
  greatest_reach = "18 ft",
  lifts = { { reach = "10 ft", rated = "6,000 lb", deducted = "240 lb" }, { reach = "15 ft", rated = "4,000 lb", deducted = "240 lb" } },
}
sling "two ton" { rated = "4,000 lb", tag = "yes", edge_guard = "fitted" }
pick "at sixty" {
  of = "small", machine = "rated", sling = "two ton", legs = 2, hitch = "vertical", leg_angle = "60 deg", reach = "12 ft",
  rigging = "60 lb",
}
pick "four at forty-five" {
  of = "small", machine = "tipping", sling = "two ton", legs = 4, hitch = "choker", leg_angle = "45 deg",
  choke_angle = "130 deg", reach = "10 ft",
}
pick "basket" { of = "small", machine = "rated", sling = "two ton", legs = 1, hitch = "basket", leg_angle = "60 deg", reach = "15 ft" }
pick "single" { of = "wall cap", machine = "rated", sling = "two ton", legs = 1, hitch = "vertical", reach = "10 ft" }
pick "too far" { of = "small", machine = "rated", sling = "two ton", legs = 1, hitch = "vertical", reach = "21 ft" }
wall "back wall" { length = "10 ft", footing_to_top = "3 ft", thickness = "12 in", embedment = "8 in", base_pad = "6 in" }
coping "wall cap" { on = "back wall", length = "36 in", depth = "14 in", thickness = "2 in", overhang = "1 in", stone = "granite" }
