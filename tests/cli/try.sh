#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# --try: a change worked out without touching the file.
# shellcheck disable=SC1091,SC2154,SC2016  # the names are from tap.bash; dollars and backquotes are meant so
source "$(dirname "$0")/tap.bash"
export FOREBAY_RULES=$root/rules/trade

# A pit of 12 x 12 ft, 6 ft under water that was measured 1 in under the ground: 12 x 12 x 6 1/12 = 876 ft3, 32.4 yd3 of 27.
cat >pit.lua <<'END'
project { name = "Pit", units = "us" }
basin "pit" { purpose = "display", outline = rectangle { "12 ft", "12 ft" }, rim = "1 in", water_level = "0 in", depth = "9 ft",
  measured = { water_level = "-1 in", with = "tape" } }
dig "hole" { of = "pit", beyond = "0 in", below = "0 in", slope = "upright" }
intake "skimmer" { basin = "pit", type = "skimming" }
pump "main" { from = "skimmer", type = "submersible", curve = { { "0 gal/h", "10 ft" }, { "900 gal/h", "0 ft" } } }
END
cp pit.lua before.lua

run takeoff pit.lua --try 'pit.depth = 6 ft'
is 'a depth: status' "$status" 0
has 'a depth: the head' out '^TRIED: basin "pit"[.]depth = 6 ft \(is 9 ft\)$'
has 'a depth: what follows' out '^  in the ground [.]+ 32[.]4 yd3$'
run takeoff pit.lua --try='basin "pit".depth="6 ft"' --try 'prices.haul=$180'
has 'value in quotes' out '^TRIED: basin "pit"[.]depth = 6 ft \(is 9 ft\)$'
has 'the second of two, of a kind the design lacks' out '^TRIED: prices[.]haul = \$180 \(is not written\)$'

run explain pit.lua main.speed --try 'main.speed=80 %'
is 'explain: status' "$status" 0
has 'explain: the head' out '^TRIED: pump "main"[.]speed = 80 % \(is 100 %, a default\)$'
has 'explain: the origin' out 'speed = 80 % \(tried\)$'
run explain pit.lua pit.water_level --try 'pit.water_level=-2 in'
has 'measured: it still holds' out 'TRIED: basin "pit"[.]water_level = -2 in \(is 0 in; -1 in was measured, and that$'
has 'measured: it is what the value is' out 'water_level = -1 in \(measured with a tape'

run review pit.lua --try 'main.speed=80 %'
has 'review: the head' out '^TRIED: pump "main"[.]speed = 80 %'
run review pit.lua --short --try 'main.speed=80 %'
has 'in short too' out '^TRIED: pump "main"[.]speed = 80 %'

# Status 2, nothing but a message.
refused() {
  run review pit.lua --try "$2"
  is "$1: status" "$status" 2
  empty "$1: no report" out
  has "$1: message" err "$3"
}
refused 'no equals sign' 'main.speed' '^--try: does not say what is tried; read "main.speed"; write ENTITY[.]GIVEN=VALUE'
refused 'unknown name' 'mian.speed=80 %' '^--try: the design has nothing of this name; .*write "main", if that is meant$'
refused 'unknown given' 'main.sped=80 %' '^--try: a pump has no given of this name; .*write `speed`, if that is meant$'
refused 'wrong unit' 'pit.depth=6 gal' '^--try: basin "pit"[.]depth: .*read "6 gal"'
refused 'no unit' 'pit.depth=6' '^--try: basin "pit"[.]depth: .*; read "6"; write '
refused 'worked out' 'pit.water_area=9 ft2' '^--try: `water_area` is worked out, not given; .*givens it comes from, such as .*basin[.]water_level'
refused 'contradicts the file' 'pit.rim=-1 in' '^--try: basin "pit"[.]rim: '
sed 's/depth = "9 ft"/depth = "9 ft", gravel_bed = "4 in"/' pit.lua >bed.lua
run review bed.lua --try 'pit.depth=3 in'
has 'a given of the file does not go with it: its line' err '^bed[.]lua:2: basin "pit"[.]gravel_bed: '
has 'a given of the file does not go with it: and why' err '^--try: the design can be read as it is, and not with what is'
run review pit.lua --try 'pit.depth=x' --try 'main.speed=y'
has 'both are told: one' err '^--try 1: basin'
has 'both are told: two' err '^--try 2: pump'
run rulebook --try 'a.b=1'
is 'a command without a design knows no --try' "$status" 2

same 'the file is as it was' pit.lua before.lua
finish
