#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# The takeoff: whole pages for small designs whose figures were worked out by hand (beside each design), and slips.
# shellcheck disable=SC1091,SC2154  # the names are from tap.bash
source "$(dirname "$0")/tap.bash"
export FOREBAY_RULES=$root/rules/trade

# Stone: 12 ft3 x 0.65 x 165 lb/ft3 = 1,287 lb likely, x 0.52 = 1,030 lb, x 0.85 = 1,683 lb.
# Gravel: 7 ft x 55 in x 50 in = 231,000 in3 = 200 buckets of 5 gal = 133.7 ft3 = 4.95 yd3; at 100 lb/ft3 6.68 tons;
# 6,064 kg in bags of 1,000 kg: 7. At $30 a ton $200.52.
# Soil: 12 x 12 x 9 ft = 48 yd3, a quarter more 60 yd3, 12 loads of 5 yd3; 3,200 lb/yd3 gives 76.8 tons.
# Water: 12 x 12 x 9 ft x 7.4805 = 9,695 gal.
cat >small.lua <<'END'
project { name = "Small order", units = "us" }
site { truck_volume = "5 yd3", truck_limit = "30 ton" }
prices { gravel = "$30" }
basin "pit" { purpose = "display", outline = rectangle { "12 ft", "12 ft" }, rim = "1 in", water_level = "0 in", depth = "9 ft",
  measured = { rise_at_power_loss = "3/4 in", with = "tape" } }
dig "hole" { of = "pit", beyond = "0 in", below = "0 in", slope = "upright" }
boulder "step" { length = "3 ft", width = "2 ft", height = "2 ft", shape = "blocky", stone = "granite",
  density = "165 lb/ft3", gravel_behind = "0 in" }
boulder "long" { length = "7 ft", width = "1 ft", height = "1 ft", shape = "sawn", stone = "limestone",
  density = "160 lb/ft3", gravel_behind = "55 in", gravel_height = "50 in" }
intake "skimmer" { basin = "pit", type = "skimming" }
junction "tee" { at = "-1 ft" }
pipe "left" { from = "tee", to = "pit", size = "2 in", length = "12 ft 6 in", valve = "ball", valve_open = "40 %",
  outlet = "above water", outlet_at = "2 in", fittings = { { type = "elbow 90", count = 2 }, { type = "union" } } }
pipe "right" { from = "tee", to = "pit", size = "2 in", length = "7 ft 6 in", check_valve = "fitted",
  outlet = "above water", outlet_at = "2 in", fittings = { { type = "elbow 90", count = 1 } } }
END
cat >small.txt <<'END'
TAKEOFF Small order
What follows from the design as it is written. Nothing is added for waste; stone
is estimated by its box, and a lift is never planned on the likely weight.

STONE
  granite, 1 stone ................ low 1,030 lb, likely 1,290 lb, high 1,680 lb
  limestone, 1 stone .............. low 1,120 lb, likely 1,120 lb, high 1,120 lb
  all stones ...................... low 1.1 ton, likely 1.2 ton, high 1.4 ton

GRAVEL
  to order ........................ 5.0 yd3
  weight .......................... 6.7 ton
  bulk bags, 1,000 kg in each ..... 7
  or level five-gallon buckets .... 200

SOIL
  in the ground ................... 48.0 yd3
  loose, to haul .................. 60.0 yd3
  compacted again ................. missing: site.shrink
  weight .......................... 76.8 ton
  truckloads ...................... 12

PIPE, FITTINGS, VALVES
  PVC schedule 40, 2 in ........... 20 ft
  elbow 90, 2 in .................. 3
  union, 2 in ..................... 1
  ball valve, 2 in ................ 1
  check valve, 2 in ............... 1
  all pipe ........................ 20 ft

THE FIRST FILLING
  pit: water ...................... 9,695 gal

DAYS, at the firm's rates
  to set the stones ............... missing: crew.stones_per_day
  to dig .......................... missing: crew.soil_per_day
  all of it, one crew ............. missing: crew.stones_per_day;
                                    crew.soil_per_day
  one truck, to haul the soil ..... missing: site.haul_cycle

PRICE, at what the firm pays
  stone, at its likely weight ..... no price; missing: prices.stone
  gravel .......................... $200.52
  soil hauled ..................... no price; missing: prices.haul
  crew ............................ no price; missing: crew.stones_per_day;
                                    crew.soil_per_day; and 1 more
  total ........................... $200.52 for 1 of 4 lines; the others have no
                                    price

FOR THE OWNER'S SHEET
  pit: still water ................ 0 in
  pit: rises when the power fails . 3/4 in
  pit: goes down on a dry day ..... missing: site.pan_evaporation
  left: valve open ................ 40 %
END
run takeoff small.lua
is 'a small design: status 0' "$status" 0
empty 'a small design: no complaint' err
same 'a small design: the page' out small.txt
diff small.txt out | sed 's/^/# /'

run takeoff small.lua -o written
is '-o: status 0' "$status" 0
same '-o: the page' written small.txt
empty '-o: nothing on standard output' out

# A ton is 2,000 lb of 0.45359237 kg; a yard 0.9144 m: 48 yd3 = 36.70 m3, 60 yd3 = 45.87 m3; 9,695 gal = 36.70 m3.
run takeoff --units si small.lua
is '--units si: status 0' "$status" 0
has '--units si: soil' out '^  in the ground \.+ 36\.70 m3$'
has '--units si: pipe' out '^  all pipe \.+ 6\.10 m$'
has '--units si: stone' out '^  granite, 1 stone \.+ low 467 kg, likely 584 kg, high 763 kg$'

run takeoff --working small.lua
is '--working: status 0' "$status" 0
has '--working: a formula' out '^    = bank_volume x \(1 - shrink of the site\)'
has '--working: a sum over sizes' out '^    = length of these pipes, summed; nothing for waste$'
has '--working: a source' out 'common practice, no'
is '--working: 80 columns at most' "$(awk 'length > 80' out)" ''
is '--working: the same values' "$(grep -c '^  [^ ].* \.\. \|^  [^ ].* \.\.\.' out)" "$(grep -c ' \.\.' small.txt)"

# 100 x 77 x 30 in is 231,000 in3, a thousand gallons.
cat >bare.lua <<'END'
project { name = "Bare", units = "us" }
basin "dish" { purpose = "display", outline = rectangle { "100 in", "77 in" }, rim = "1 in", water_level = "0 in", depth = "30 in" }
END
cat >bare.txt <<'END'
TAKEOFF Bare
What follows from the design as it is written. Nothing is added for waste; stone
is estimated by its box, and a lift is never planned on the likely weight.

THE FIRST FILLING
  dish: water ..................... 1,000 gal
END
run takeoff bare.lua
is 'little to order: status 0' "$status" 0
same 'little to order: lines that come to nothing are left out' out bare.txt

printf 'project { name = "Wrong", units = "us" }\nbasin "a" { depth = 3 }\n' >wrong.lua
run takeoff wrong.lua
is 'an unusable design: status 2' "$status" 2
empty 'an unusable design: no page' out
has 'an unusable design: its line' err '^wrong\.lua:2: '
run takeoff missing.lua
is 'no file: status 2' "$status" 2
run takeoff
is 'no design named: status 2' "$status" 2
is 'no design named: says so' "$(head -n 1 err)" 'forebay: missing: DESIGN'
run takeoff --full small.lua
is 'an option of another command: status 2' "$status" 2

# The report points to it.
run review small.lua
has 'review: points to the takeoff' out '^  The whole list: forebay takeoff\.$'
finish
