#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# forebay tolerance: the same report from the same seed, however the work is parted; slips; what the figures come from.
# shellcheck disable=SC1091,SC2154  # the names are from tap.bash
source "$(dirname "$0")/tap.bash"
export FOREBAY_RULES=$root/rules/trade
court=$root/projects/stone-court.lua

mkdir rules
cat >rules/soil.lua <<'END'
rule "soil-over-cable" {
  title = "Enough soil over the cable", for_each = "circuit", stage = "power", severity = "hold",
  judges = "cover_depth", at_least = "18 in",
  why = "A spade finds it.", source = "common practice, no source",
}
END
# write_cable COVER: a design about one depth of soil.
write_cable() {
  cat >cable.lua <<END
project { name = "Cable", units = "us" }
basin "pool" { purpose = "display", outline = circle { "10 ft" }, depth = "30 in", rim = "0 in", water_level = "-4 in" }
light "lamp" { volts = "12 V", power = "5 W" }
circuit "feed" { volts = "12 V", feeds = { "lamp" }, cover_depth = "$1" }
END
}
export FOREBAY_RULES=$work/rules

# Half a width of 2 in round 19 in: below 18 in in a quarter of the draws.
write_cable '19 in +/- 2 in'
run tolerance cable.lua --samples 4000
is 'a hold that is fragile: status' "$status" 1
has 'the verdict' out '^NOT SURE YET: 1 that can stop the dig is not firm;'
has 'the share' out 'flagged in 2[3-7] of 100 draws \(2[0-9] to 2[0-9] %\)'
has 'what drives it' out 'Driven by circuit "feed"[.]cover_depth \([+]/- 2 in as stated\) (9[0-9]|100) %'
has 'half of it is enough' out 'Measure this better: circuit "feed"[.]cover_depth: known twice as well'
has 'how many vary' out '4,000 draws, seed 1; 5 values vary, 1 of them as the design states'
cp out first

run tolerance cable.lua --samples 4000 --seed 1 --jobs 1
same 'the same again' first out
run tolerance cable.lua --samples 4000 --seed 2
hasnt 'another seed is said' out 'seed 1'

write_cable '22 in +/- 2 in'
run tolerance cable.lua --samples 1000
is 'firm: status' "$status" 0
has 'firm: the verdict' out '^NOTHING THAT CAN STOP THE DIG IS IN DOUBT BY THE TOLERANCES:'
has 'no permit' out 'This is not a permit to dig'
write_cable '17 in +/- 2 in'
run tolerance cable.lua --samples 1000
is 'failing: status' "$status" 1
has 'failing' out '^FAILING'
write_cable '12 in +/- 2 in'
run tolerance cable.lua --samples 1000
has 'not to be measured away' out '^NOT MET IN NEARLY EVERY DRAW'

# By tape: 1/2 in, or what the firm says.
write_cable '18 3/4 in'
run tolerance cable.lua --samples 1000
is 'by tape: status' "$status" 0
has 'by tape' out '3 values by tape, [+]/- 1/2 in'
cat >firm.lua <<'END'
stock { tolerances = { tape = "1 1/2 in" } }
END
run tolerance cable.lua --samples 1000 --rules firm.lua
is 'by the tape of the firm: status' "$status" 1
has 'by the tape of the firm' out '3 values by tape, [+]/- 1 1/2 in'
run tolerance cable.lua --samples 1000 --rules firm.lua --without-house
has 'without the firm' out '3 values by tape, [+]/- 1/2 in'
run tolerance cable.lua --samples 1000 --units si
has 'metric' out '3 values by tape, [+]/- 12[.]7 mm'

write_cable '2 in +/- 3 in'
run tolerance cable.lua --samples 1000
is 'a tolerance larger than the value: status' "$status" 2
has 'a tolerance larger than the value' err '^cable[.]lua:4: .*cover_depth.* has a tolerance as large as the value itself'
empty 'and nothing else' out

# A rim an inch over the water, each known to an inch: at or under the water in an eighth of the draws.
cat >rim.lua <<'END'
project { name = "Rim", units = "us" }
basin "pool" { purpose = "display", outline = circle { "10 ft" }, depth = "30 in", rim = "0 in +/- 1 in",
  water_level = "-1 in +/- 1 in" }
END
run tolerance rim.lua --samples 1000
is 'draws that contradict themselves: status' "$status" 1
has 'draws that contradict themselves' out 'in (9|1[0-6]) of 100 draws; in'
has 'and what the first says' out 'basin "pool"[.](rim|water_level) leaves the rim at or under'
run tolerance rim.lua --samples 1000 --jobs 3
has 'parted, the same' out 'in (9|1[0-6]) of 100 draws; in'

# A gravel bed that is as deep as the basin in half of the draws, twice over: too few go together.
cat >deep.lua <<'END'
project { name = "Deep", units = "us" }
basin "pool" { purpose = "display", outline = circle { "10 ft" }, depth = "30 in +/- 1 in", rim = "0 in", water_level = "-4 in",
  gravel_bed = "29 7/8 in +/- 3 in", shelves = { { depth = "29 7/8 in +/- 6 in", width = "9 in" } } }
END
run tolerance deep.lua --samples 1000
is 'few that go together: status' "$status" 1
has 'few that go together' out 'settle that( |$)|call anything firm|that first[.]'

write_cable '19 in +/- 2 in'
for wrong in '--samples 999' '--samples 0' '--samples -5' '--samples 1e4' '--samples many' '--samples 1000001' \
  '--seed x' '--seed -1' '--seed 1.5' '--jobs 0' '--jobs 65' '--jobs two'; do
  # shellcheck disable=SC2086  # two words
  run tolerance cable.lua $wrong
  is "$wrong: status" "$status" 2
  has "$wrong: said" err "${wrong%% *}: is no such number; read \"${wrong##* }\"; write a whole number from"
  empty "$wrong: nothing else" out
done
run tolerance cable.lua --samples=
is 'no number: status' "$status" 2
run tolerance nowhere.lua
is 'no such design: status' "$status" 2

# Parted: the same bytes.
export FOREBAY_RULES=$root/rules/trade
run tolerance "$court" --samples 1000 --seed 7
is 'a whole garden: status' "$status" 1
cp out whole
longest=$(wc -L <out)
[ "$longest" -le 80 ]
verdict '80 columns' $? "$longest"
for jobs in 2 5; do
  run tolerance "$court" --samples 1000 --seed 7 --jobs "$jobs"
  same "$jobs jobs: the same" whole out
  is "$jobs jobs: status" "$status" 1
done
run tolerance "$court" --samples 1000 --seed 7 --jobs 2 -o parted.txt
same 'into a file' whole parted.txt

# A thing more moves nothing of the others: their shares stand as they were, in the same order.
sed "s|^END||" "$court" >more.lua
echo 'tree "oak" { trunk = "14 in", distance = "20 ft" }' >>more.lua
run tolerance more.lua --samples 1000 --seed 7
grep -F 'In draws:' whole >shares
grep -F 'In draws:' out | grep -Fxf shares >stand
same 'a tree more' shares stand

finish
