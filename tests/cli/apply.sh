#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Fixes in the report, and --apply: a design written with them in it.
# shellcheck disable=SC1091,SC2154  # the names are from tap.bash
source "$(dirname "$0")/tap.bash"

# One rule that asks for a foot set 9 in deep, and one that no change settles.
mkdir rules
cat >rules/stone.lua <<'END'
-- SPDX-License-Identifier: MIT
rule "foot-shallow" {
  title = "A foot is set 9 in deep", for_each = "boulder", stage = "stone", severity = "hold",
  judges = "embedment", at_least = "9 in",
  why = "It tips.", source = "none",
  fix = { raise = "embedment", by = "1 in" },
  examples = {
    { "shallow", boulder = { embedment = "4 in" }, outcome = "flagged" },
    { "deep", boulder = { embedment = "12 in" }, outcome = "clear" },
    { "at the limit", boulder = { embedment = "9 in" }, outcome = "clear" },
  },
}
rule "reached" {
  title = "Nobody gets at it", for_each = "boulder", stage = "stone", severity = "revise",
  judges = "people_reach", is = "no", why = "They climb.", source = "none", fix = { advise = "Plant a hedge." },
  examples = {
    { "reached", boulder = { people_reach = "yes" }, outcome = "flagged" },
    { "not", boulder = { people_reach = "no" }, outcome = "clear" },
  },
}
END
export FOREBAY_RULES=$PWD/rules
cat >a.lua <<'END'
project { name = "A", units = "us" }
basin "pond" { purpose = "display", outline = circle { "10 ft" }, depth = "30 in", rim = "0 in", water_level = "-4 in" }
boulder "left" { length = "4 ft", width = "3 ft", height = "24 in",
  embedment = "4 in +/- 1/2 in", -- as dug
  people_reach = "yes" }
for i = 1, 1 do
  boulder("right " .. i) { length = "4 ft", width = "3 ft", height = "24 in", embedment = "5 in", people_reach = "no" }
end
END
cp a.lua before.lua
sed 's|"4 in +/- 1/2 in"|"9 in +/- 1/2 in"|' a.lua >wanted.lua

# A size that only slips under the threshold of the rule's `when` is no fix.
mkdir slip
cat >slip/deep.lua <<'END'
rule "deep-has-shelf" { title = "Where it is 24 in deep there is a shelf", for_each = "basin",
  when = { depth = { at_least = "24 in" } }, stage = "layout", severity = "revise",
  judges = "foothold_depth", at_most = "12 in", why = "They fall in.", source = "none",
  fix = { lower = "depth", by = "1 in" } }
END
cat >slip.lua <<'END'
project { name = "A", units = "us" }
basin "pond" { purpose = "display", outline = circle { "10 ft" }, depth = "24 in", rim = "0 in", water_level = "-4 in",
  measured = { foothold_depth = "20 in", with = "tape" } }
END
FOREBAY_RULES=$PWD/slip run review slip.lua
has 'slip: flagged' out 'NOT MET: Where it is 24 in deep'
hasnt 'slip: nothing is proven' out '[Pp]roven'

# Two fixes that are each proven and hold together no more.
mkdir pair
cat >pair/pair.lua <<'END'
rule "tall" { title = "Tall", for_each = "boulder", stage = "stone", severity = "revise", judges = "height",
  at_least = "30 in", why = "w", source = "s", fix = { raise = "height", by = "1 in" } }
rule "wide" { title = "Wide", for_each = "boulder", stage = "stone", severity = "revise", judges = "width",
  at_least = "30 in", why = "w", source = "s", fix = { raise = "width", by = "1 in" } }
rule "both" { title = "Not both", for_each = "boulder", stage = "stone", severity = "hold",
  limit = { most = "58 in" }, check = function(b, limit) return at_most(b.height + b.width, limit.most) end,
  why = "w", source = "s" }
END
cat >pair.lua <<'END'
project { name = "A", units = "us" }
basin "pond" { purpose = "display", outline = circle { "10 ft" }, depth = "30 in", rim = "0 in", water_level = "-4 in" }
boulder "one" { length = "4 ft", width = "24 in", height = "24 in" }
END
FOREBAY_RULES=$PWD/pair run review pair.lua --apply 1 -o pair-1.lua
is 'pair: one of them' "$status" 0
FOREBAY_RULES=$PWD/pair run review pair.lua --apply 1,2 -o pair-2.lua
is 'pair: both: refused' "$status" 2
has 'pair: both: says what they raise' err 'raises both on boulder "one", a hold'
[ ! -e pair-2.lua ]
verdict 'pair: both: nothing is made' $?

# The digest of the report that gave the numbers.
cp before.lua of.lua
run review of.lua
digest=$(grep -oE '\([0-9a-f]{16}\)' out | head -n 1 | tr -d '()')
run review of.lua --apply 1 --of "$digest"
is 'of: the same bytes: written' "$status" 0
echo '-- one more line' >>of.lua
run review of.lua --apply 1 --of "$digest" -o of-made.lua
is 'of: other bytes: refused' "$status" 2
has 'of: says so' err '^of\.lua: is not what that report was made of'
[ ! -e of-made.lua ]
verdict 'of: nothing is made' $?

run review a.lua
is 'review: status' "$status" 1
has 'review: the fix' out '^    Fix 1: raise how deep its foot is set \(embedment\) from 4 in [+]/- 1/2 in to 9$'
has 'review: proven' out '^         in[.] Proven, right at the limit'
has 'review: by hand' out 'Fix 2: raise how deep its foot is set'
has 'review: it works all the same' out 'Works in a'
has 'review: where' out 'line 7 is written in a loop'
has 'review: advice keeps its words' out '^    Advice: Plant a hedge[.]$'
run review a.lua --without-fixes
has 'without fixes: the words of the rule' out '^    Try: Raise embedment'
hasnt 'without fixes: none is shown' out 'Fix 1'
run review a.lua --short
has 'in short' out '^    Proven fix 1: raise embedment from 4 in [+]/- 1/2 in to 9 in$'

run review a.lua --apply 1 -o b.lua
is 'apply: status' "$status" 0
is 'apply: nothing is said' "$(cat out err)" ''
cmp -s b.lua wanted.lua
verdict 'apply: that given and no other byte' $?
run review b.lua
hasnt 'apply: the finding is gone' out 'boulder "left": how deep'
run review a.lua --apply=1
is 'apply to standard output' "$(cat out)" "$(cat wanted.lua)"
run review a.lua --apply joint -o joint.lua
one_of 'joint: written, or there is none' "$status" 0 2
printf 'project { name = "A", units = "us" }\r\n' >crlf.lua
tail -n +2 wanted.lua | sed 's|"9 in|"4 in|; s|$|\r|' >>crlf.lua
run review crlf.lua --apply 1 -o made.lua
tail -n +2 wanted.lua | sed 's|$|\r|' >tail.lua
tail -n +2 made.lua | cmp -s - tail.lua
verdict 'apply: ends of lines stay' $?

# Status 2, a message, and nothing written.
refused() {
  rm -f new.lua
  run review a.lua --apply "$2" -o new.lua
  is "$1: status" "$status" 2
  has "$1: message" err "$3"
  [ ! -e new.lua ]
  verdict "$1: nothing is written" $?
}
refused 'no such number' 9 'there is no finding 9: they go from 1 to 3; write 1$'
refused 'number 0' 0 'there is no finding 0'
refused 'one of two is not there' 1,12 'there is no finding 12'
refused 'advice' 3 'fix 3 cannot be written: advice'
refused 'in a loop' 2 'fix 2 cannot be written: works in a trial'
refused 'no number' one '--apply: is neither numbers of findings nor joint; read "one"'
refused 'a number and more' 1x 'is neither numbers'
refused 'a comma too many' 1, 'is neither numbers'
refused 'far too large' 12345678 'is neither numbers'
run review a.lua --apply 1 --try 'left.height=30 in' -o new.lua
is 'beside a trial: status' "$status" 2
has 'beside a trial: message' err '--apply.*does not go with --try'
run review a.lua --apply 1 -o a.lua
is 'never over what was read: status' "$status" 2
cmp -s a.lua before.lua
verdict 'never over what was read' $?

cat >a.json <<'END'
{
  "project": { "name": "A", "units": "us" },
  "basin": { "pond": { "purpose": "display", "outline": { "circle": ["10 ft"] }, "depth": "30 in", "rim": "0 in",
    "water_level": "-4 in" } },
  "boulder": { "left": { "length": "4 ft", "width": "3 ft", "height": "24 in", "embedment": "4 in",
    "people_reach": "no" } }
}
END
run review a.json --apply 1 -o b.json
is 'JSON: status' "$status" 0
is 'JSON: the one given' "$(diff a.json b.json | grep -c '^[<>]')" 2
has 'JSON: the new text' b.json '"embedment": "9 in"'

# A pump that cannot lift the water, and one in the firm's stock that can: the curve goes into the file whole.
cat >rules/stone.lua <<'END'
-- SPDX-License-Identifier: MIT
rule "gives" {
  title = "A pump gives water", for_each = "pump", stage = "plumbing", severity = "hold",
  judges = "flow", at_least = "100 gal/h", why = "It is dry.", source = "none", fix = { choose = "model" },
  examples = {
    { "none", pump = { flow = "0 gal/h" }, outcome = "flagged" },
    { "some", pump = { flow = "200 gal/h" }, outcome = "clear" },
    { "at the limit", pump = { flow = "100 gal/h" }, outcome = "clear" },
  },
}
END
cat >firm.lua <<'END'
-- SPDX-License-Identifier: MIT
stock { pumps = { { model = "mid 1900", type = "submersible", power = "110 W", price = "$240",
  curve = { { "0 gal/h", "20 ft" }, { "900 gal/h", "6 ft" }, { "1,900 gal/h", "0 ft" } } } } }
END
cat >lift.json <<'END'
{
  "project": { "name": "Lift", "units": "us" },
  "basin": {
    "low": { "purpose": "display", "outline": { "circle": ["10 ft"] }, "depth": "30 in", "rim": "0 in",
      "water_level": "-4 in" },
    "high": { "purpose": "bowl", "outline": { "circle": ["3 ft"] }, "depth": "10 in", "rim": "138 in",
      "water_level": "130 in" }
  },
  "pump": { "p": { "from": "low", "type": "submersible", "power": "40 W",
    "curve": [["0 gal/h", "10 ft"], ["900 gal/h", "0 ft"]] } },
  "pipe": { "q": { "from": "p", "to": "high", "size": "2 in", "length": "14 ft", "outlet": "above water",
    "outlet_at": "144 in" } },
  "spill": { "s": { "from": "high", "into": "low", "crest": "130 in", "lip": "thin edge", "lip_width": "12 in" } }
}
END
run review lift.json --rules firm.lua
has 'a pump: it is told with its price' out 'Fix 1: take "mid 1900" of the firm.s stock, with its maker.s data, [$]240[.]00[.]$'
run review lift.json --rules firm.lua --apply 1 -o lifted.json
is 'a pump into JSON: status' "$status" 0
has 'a pump into JSON: the model' lifted.json '"model": "mid 1900"'
has 'a pump into JSON: the curve' lifted.json '"20 ft"'
has 'a pump into JSON: its power' lifted.json '"power": "110 W"'
run review lifted.json --rules firm.lua
is 'a pump into JSON: nothing is held' "$status" 0
run review lift.json --apply 1 -o none.json
is 'without a stock: status' "$status" 2
has 'without a stock: nothing to choose' err 'fix 1 cannot be written'

finish
