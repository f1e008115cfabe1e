#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Decisions in a design (accept), and how far the work has come (--stage).
# shellcheck disable=SC1091,SC2154,SC2016  # the names are from tap.bash
source "$(dirname "$0")/tap.bash"
export FOREBAY_RULES=$root/rules/trade

# A cap of 36 x 14 x 2 in: 1,008 in3 = 0.583 ft3; granite of at most 175 lb/ft3 makes 102 lb (the page says what it is).
design() {
  sed '/^-- Decisions/,$d' "$root/projects/stone-court.lua" >"$1"
  cat >>"$1"
}
line_of_last() { wc -l <"$1"; }

design plain.lua </dev/null
run review plain.lua
has "a finding counts" out '^DO NOT DIG YET   1 hold, 1 revise, 7 advise$'
hasnt "and nothing is accepted" out ACCEPTED

design taken.lua <<'END'
accept { rule = "jet-too-high", on = "three jets", because = "the owner likes them high" }
END
run review taken.lua
has "an accepted finding does not count" out '^DO NOT DIG YET   1 hold, 1 revise, 6 advise; 1 accepted$'
has "it stays listed" out '^ACCEPTED IN THE DESIGN'
has "with its reason" out 'jet-too-high on jet "three jets": the owner likes them high\.'
has "and says how to be told when it gets worse" out 'at = "0\.74"'
run review --short taken.lua
has "in short too" out '6 advise; 1 accepted'
run review --fail-at advise taken.lua
is "what is left still fails" "$status" 1

design at.lua <<'END'
accept { rule = "jet-too-high", on = "three jets", because = "x", at = "0.74" }
END
run review at.lua
has "accepted at what the report printed" out '1 accepted'
design worse.lua <<'END'
accept { rule = "jet-too-high", on = "three jets", because = "the owner likes them high", at = "0.7" }
END
run review worse.lua
has "a worse value counts again" out '1 hold, 1 revise, 7 advise$'
has "and is said" out 'was accepted at 0\.7 and is worse now'

design stale.lua <<'END'
accept { rule = "stone-out-of-scale", on = "cup stone", because = "chosen at the yard" }
END
run review stale.lua
has "nothing flags any more" out 'is stale: nothing is flagged'
is "a stale accept alone changes no status" "$status" 1

design stage.lua <<'END'
accept { rule = "hand-lift", on = "wall cap", because = "two people and a clamp", up_to = "stone" }
END
run review stage.lua
has "accepted as long as its stage lasts" out '1 accepted'
run review --stage stone stage.lua
has "the stage itself is not past" out '1 accepted'
run review --stage plumbing stage.lua
has "behind us, accepted or not" out 'behind us'
design later.lua <<'END'
accept { rule = "jet-too-high", on = "three jets", because = "x", up_to = "stone" }
END
run review --stage plumbing later.lua
has "it comes back when its stage is past" out 'was accepted up to stone, and the'
has "and counts" out 'ADVISE [0-9]+  NOT MET: A jet in the open'

# Stages. The gate is a matter of layout, the cap's tipping one of life.
run review --stage layout plain.lua
has "layout: nothing is behind" out '1 hold, 1 revise, 7 advise$'
run review --stage dig plain.lua
has "dig: the gate is behind us" out '^BEHIND US'
has "listed with its rule" out 'layout, hold: machine "hired excavator": .*'
has "by name" out '\[gate-too-narrow\]'
is "and does not hold" "$status" 0
run review --stage hand-over plain.lua
has "what lives depend on counts to the end" out 'REVISE 1  NOT MET: A cap stone does not tip'
is "and the rest does not" "$(grep -c '^ADVISE' out)" 0
run review --stage soon plain.lua
is "no such stage" "$status" 2
has "names those that there are" err 'hand-over'

# Slips, each with its line.
slip() { # NAME ACCEPT PATTERN
  design slip.lua <<<"$2"
  run review slip.lua
  has "$1" err "^slip.lua:$(line_of_last slip.lua): .?accept.*$3"
  is "$1: status" "$status" 2
}
slip "accept of nothing" 'accept {}' 'is not written'
slip "no such rule" 'accept { rule = "jet-to-high", on = "three jets", because = "x" }' '`jet-too-high`, if that is meant'
slip "no such thing" 'accept { rule = "jet-too-high", on = "three jet", because = "x" }' 'write "three jets"'
slip "a thing that the rule does not judge" 'accept { rule = "jet-too-high", on = "pool", because = "x" }' 'is a basin, which this rule does not judge'
slip "on what" 'accept { rule = "jet-too-high", because = "x" }' 'does not say what the finding is on'
slip "no reason" 'accept { rule = "jet-too-high", on = "three jets" }' 'because: is not written'
slip "no such stage in up_to" 'accept { rule = "jet-too-high", on = "three jets", because = "x", up_to = "water" }' '"water-up"'
slip "a value of another sort" 'accept { rule = "hand-lift", on = "wall cap", because = "x", at = "18 in" }' 'a weight \(mass\) is asked for'
slip "what lives depend on" 'accept { rule = "coping-tips", on = "wall cap", because = "x" }' 'lives depend on this rule'
slip "a misspelt key" 'accept { rule = "jet-too-high", of = "three jets", because = "x" }' '`of` is not known here'
slip "a name" 'accept "jet" { rule = "jet-too-high", on = "three jets", because = "x" }' 'takes no name'
slip "accepted twice" 'accept { rule = "jet-too-high", on = "three jets", because = "x" }  accept { rule = "jet-too-high", on = "three jets", because = "y" }' 'another accept accepts already'
design slip.lua <<<'accept { rule = "jet-to-high", on = "three jets", because = "x" }'
run review slip.lua
has "the report is written all the same" out '^DO NOT DIG YET'
has "and says so" out '^NOT ACCEPTED'

slip "a blank reason" 'accept { rule = "jet-too-high", on = "three jets", because = "  " }' 'is blank'
slip "a tolerance" 'accept { rule = "jet-too-high", on = "three jets", because = "x", at = "0.74 +/- 5" }' 'states a tolerance'

# A rule on which lives depend that holds by one of its limits alone, and a rule on the site among others.
cat >own.lua <<'END'
rule "two-grades" { title = "It is shallow", for_each = "basin", when = { purpose = "display" }, stage = "water-up",
  life_safety = true, judges = "depth", at_most = { hold = "1 ft", advise = "6 in" }, why = "x", source = "x" }
rule "site-or-basin" { title = "It is so", for_each = { "site", "basin" }, stage = "water-up", severity = "advise",
  check = function(it) return must(false, "so") end, why = "x", source = "x" }
END
design own-slip.lua <<<'accept { rule = "two-grades", on = "pool", because = "x" }'
run review --rules own.lua own-slip.lua
has "what holds by one limit alone" err 'lives depend on this rule'
design own-site.lua <<<'accept { rule = "site-or-basin", because = "the site alone" }'
run review --rules own.lua own-site.lua
has "the site has no name to accept it on" out 'site-or-basin on site: the site alone'
has "and the basins are not meant" out 'basin "pool": so'

# Behind us and accepted no more: it does not count.
design behind.lua <<<'accept { rule = "jet-too-high", on = "three jets", because = "x", up_to = "plumbing" }'
run review --stage power behind.lua
has "past, and behind us like its rule" out '^  plumbing, advise: jet "three jets"'
hasnt "and not listed twice" out '^ACCEPTED'
has "a hold behind us is told apart" out 'behind us \(1 hold\)'

# By eye, or nobody says how: no life is staked on that.
eye() { sed "s/overhang = \"1 1.2 in\"/overhang = \"10 in\", measured = { tip_factor = \"$1\"$2 }/" plain.lua >eye.lua; }
for with in ', with = "eye"' ''; do
  eye 9 "$with"
  run review eye.lua
  has "a guess${with:+ by eye} does not clear what lives depend on" out '^HOLD [0-9]+  NOT MET: A cap stone does not tip'
done
eye 0.1 ', with = "eye"'
sed -i 's/overhang = "10 in"/overhang = "1\/2 in"/' eye.lua
run review eye.lua
has "a guess that is worse is heeded" out '^HOLD [0-9]+  NOT MET: A cap stone does not tip'
eye 9 ', with = "scale"'
run review eye.lua
hasnt "what was taken with an instrument stands" out 'NOT MET: A cap stone does not tip'
has "and where it is off, that is flagged" out 'NOT MET: What was taken on site agrees'

# Further down: the weight of the standing stone goes into what it tips and what it is lifted by.
sed 's/with = "scale"/with = "eye"/' plain.lua >weight.lua
run review weight.lua
has "what rests on a guess has no answer where lives depend on it" out 'it rests on boulder "standing$|it rests on boulder "standing stone"'
has "and holds" out '^HOLD [0-9]+  NOT ANSWERED: A stone does not tip'
run review plain.lua
hasnt "by scale it has one" out 'it rests on boulder'
sed 's/mass_low = "3,300 lb", mass_high = "3,700 lb"/mass_low = "3,700 lb", mass_high = "3,300 lb"/' plain.lua >swapped.lua
run review swapped.lua
is "lowest over highest: status" "$status" 2
has "lowest over highest: at its line" err "^swapped.lua:$(grep -n 'mass_high' swapped.lua | cut -d: -f1): boulder \"standing stone\".mass_high: was measured lower"
sed 's/mass_low = "3,300 lb", mass_high = "3,700 lb"/mass_high = "700 lb"/' plain.lua >dropped.lua
run review dropped.lua
has "highest under what is worked out as lowest" out 'NOT MET: What was taken on site agrees'

# JSON: a list.
sed 's/"accept": \[/"accept": [ { "rule": "hand-lift", "on": "wall cap", "because": "clamp" },/' \
  "$root/tests/designs/stone-court.json" >both.json
run review both.json
has "accepts in JSON" out '; 2 accepted$'
sed 's/"accept": \[/"accept": [ { "rule": "hand-lift", "on": "wal cap", "because": "clamp" },/' \
  "$root/tests/designs/stone-court.json" >slip.json
run review slip.json
has "a slip in JSON has its line" err "^slip.json:$(grep -n '"accept"' slip.json | cut -d: -f1): accept.on"
printf '{ "project": { "name": "x" }, "accept": { "rule": "x" } }\n' >no-list.json
run review no-list.json
has "no list" err 'no-list.json:1: is no list; read "accept"'
finish
