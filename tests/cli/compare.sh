#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Designs side by side: a whole page for small designs whose figures were worked out by hand, and slips.
# shellcheck disable=SC1091,SC2154  # the names are from tap.bash
source "$(dirname "$0")/tap.bash"

mkdir trade
cat >trade/stone.lua <<'END'
rule "foot" {
  title = "A stone has its foot in the ground",
  for_each = "boulder", stage = "stone", severity = "hold",
  judges = "embedded_share", at_least = "25 %",
  why = [[It falls.]], source = "common practice, no source",
  examples = { { "shallow", boulder = { embedded_share = "10 %" }, outcome = "flagged" },
    { "deep", boulder = { embedded_share = "40 %" }, outcome = "clear" },
    { "at the limit", boulder = { embedded_share = "25 %" }, outcome = "clear" } },
}
END
export FOREBAY_RULES=$PWD/trade

# 6 in of 6 ft is 8 %, 24 in a third. The box of 3 x 2 x 2 ft, 12 ft3, likely half full, at 165 lb/ft3: see takeoff.sh for
# how stone is estimated; here a blocky one, 0.65: 12 x 0.65 x 165 = 1,287 lb; at 80 % of its height 1,029.6 lb.
# At $100 a ton of 2,000 lb: $64.35 and $51.48, $12.87 less.
cat >a.lua <<'END'
project { name = "Yard", units = "us" }
prices { stone = "$100" }
basin "pool" { purpose = "display", outline = circle { "6 ft" }, rim = "0 in", water_level = "-4 in", depth = "20 in +/- 1 in" }
boulder "step" { length = "3 ft", width = "2 ft", height = "2 ft", shape = "blocky", density = "165 lb/ft3", embedment = "3 in" }
boulder "old" { length = "1 ft", width = "1 ft", height = "1 ft", density = "100 lb/ft3", shape = "sawn", embedment = "1 in" }
pump "main" { from = "pool", type = "dry", curve = { { "0 gal/h", "10 ft" }, { "900 gal/h", "0 ft" } } }
END
sed 's/height = "2 ft", shape/height = "19.2 in", shape/; s/embedment = "3 in"/embedment = "8 in"/; s/20 in +\/- 1 in/22 in +\/- 1 in/
  s/900 gal\/h/1,000 gal\/h/; s/"old"/"new"/' a.lua >b.lua
cat >page.txt <<'END'
COMPARED
A  a.lua (DIGEST)
B  b.lua (DIGEST)

VERDICTS
  A  DO NOT DIG YET: 2 hold, 0 revise, 0 advise; 0 unanswered in all, 0 clear
  B  DO NOT DIG YET: 1 hold, 0 revise, 0 advise; 0 unanswered in all, 1 clear

WHAT THE DESIGNS SAY   A | B
  basin "pool".depth .................. 20 in +/- 1 in | 22 in +/- 1 in
  boulder "step".height ............... 24 in | 19 1/4 in
  boulder "step".embedment ............ 3 in | 8 in
  boulder "old" ....................... there | -
  pump "main".curve[2].flow ........... 900 gal/h | 1,000 gal/h
  boulder "new" ....................... - | there

FINDINGS of B against A
  gone    hold -> clear: A stone has its foot in the ground: boulder "step"
  new     not asked -> hold: A stone has its foot in the ground: boulder "new"
  gone    hold -> not asked: A stone has its foot in the ground: boulder "old"

WHAT FOLLOWS, of what rules judge
  boulder "step".embedded_share ....... 13 % | 42 %

TO ORDER, HAUL AND BOOK
END
run compare a.lua b.lua
is 'two designs: status, though something is held' "$status" 0
empty 'two designs: no complaint' err
sed -E 's/\([0-9a-f]{16}\)/(DIGEST)/; /^TO ORDER/q' out >head.txt
same 'two designs: the page down to the order list' head.txt page.txt
has 'the price of stone' out '^    stone, at its likely weight [.]+ [$]69[.]35 [|] [$]56[.]48$'
has 'the total and its difference' out '^  price, total of its lines [.]+ [$]69[.]35 for 1 of 3 [|] [$]56[.]48 \(-[$]12[.]87\) for$'
awk 'length > 80' out >wide.txt
empty 'no line is wider than 80 columns' wide.txt

cp out first
run compare a.lua b.lua
same 'the same inputs, the same bytes' out first

run compare a.lua a.lua
has 'alike: what they say' out '^  The same in all of them[.]$'
has 'alike: findings' out '^  The same findings[.]$'
has 'alike: what follows' out '^  Nothing that prints differently[.]$'
has 'alike: order' out '^  The same[.]$'

run compare a.lua b.lua a.lua
is 'three: status' "$status" 0
has 'three: values' out '^  basin "pool"[.]depth [.]+ 20 in [+]/- 1 in [|] 22 in [+]/- 1 in [|] 20 in$'
has 'three: B' out '^FINDINGS of B against A$'
has 'three: C' out '^FINDINGS of C against A$'

run compare a.lua --try 'step.embedment=12 in'
is 'a trial: status' "$status" 0
has 'a trial: the head' out '^   TRIED: boulder "step"[.]embedment = 12 in \(is 3 in\)$'
has 'a trial: the given' out '^  boulder "step"[.]embedment [.]+ 3 in [|] 12 in$'
has 'a trial: the finding' out '^  gone    hold -> clear: A stone has its foot in the ground: boulder "step"$'
run compare a.lua b.lua --try 'step.embedment=12 in'
has 'a trial is of the last' out '^  boulder "step"[.]embedment [.]+ 3 in [|] 12 in$'
sed 's/, embedment = "3 in"//' a.lua >open.lua
run compare a.lua open.lua
has 'no answer is told' out '^  other   hold -> hold, not answered: A stone has its foot in the ground:$'
has 'no value' out '^  boulder "step"[.]embedded_share [.]+ 13 % [|] no answer$'
sed 's/6 ft/7 ft/; s/curve = .*/curve = { { "0 gal\/h", "12 ft" }, { "500 gal\/h", "9 ft" }, { "1,000 gal\/h", "0 ft" } } }/' a.lua >lists.lua
run compare a.lua lists.lua
has 'a list of another length' out '^  pump "main"[.]curve [.]+ 2 of them [|] 3 of them$'
has 'a width' out '^  basin "pool"[.]outline\[1\][.]x [.]+ 6 ft [|] 7 ft$'
sed 's/circle { "6 ft" }/rectangle { "6 ft", "6 ft" }/; s/pool", type/pool", speed = "90 %", type/' a.lua >shape.lua
run compare a.lua shape.lua
has 'another shape' out '^  basin "pool"[.]outline [.]+ circle 6 ft [|] rectangle 6 ft x 6 ft$'
has 'a default against a given' out '^  pump "main"[.]speed [.]+ 100 % \(default\) [|] 90 %$'
sed 's/20 in/508 mm/; s/1 in"/25.4 mm"/' a.lua >metric.lua
run compare a.lua metric.lua
has 'the same in other units is the same' out '^  The same in all of them[.]$'

run compare a.lua
is 'one design and no trial: status' "$status" 2
has 'one design and no trial: what to do' err 'nothing to compare it with; .*write a second DESIGN'
sed 's/6 in"/6"/; s/20 in/20/' a.lua >broken.lua
sed 's/900 gal/900 in/' a.lua >broken2.lua
run compare a.lua broken.lua broken2.lua
is 'broken ones: status' "$status" 2
empty 'broken ones: no page' out
has 'broken ones: the one' err '^broken[.]lua:3: basin "pool"[.]depth: '
has 'broken ones: the other' err '^broken2[.]lua:6: '
run compare a.lua gone.lua
is 'no such file: status' "$status" 2
run compare a.lua b.lua a.lua b.lua
is 'four: status' "$status" 2
run compare a.lua b.lua -o b.lua
is 'over a file that was read: status' "$status" 2
has 'over a file that was read' err 'not written over it'
finish
