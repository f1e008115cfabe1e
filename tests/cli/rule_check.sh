#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Writing rules: rulebook --check, rule-test --format tap, new --rule; and what each slip in a rule file is told as.
# shellcheck disable=SC1091,SC2154,SC2016  # the names are from tap.bash; `name` is what messages say
source "$(dirname "$0")/tap.bash"

# --- the trade's own rules, and a rule file to start from

run rulebook --check "$root/rules/trade"
is 'the trade rules: status 0' "$status" 0
empty 'the trade rules: nothing is wrong' err
has 'the trade rules: a closing line' out '^[0-9]+ rules checked: nothing is wrong'
run rulebook --check "$root/rules/house"
is 'the example firm: status 0' "$status" 0
empty 'the example firm: nothing is wrong' err

run new --rule -o mine.lua
is 'new --rule: status 0' "$status" 0
empty 'new -o: nothing on standard output' out
run new --rule -o mine.lua
is 'new --rule -o over a file: status 2' "$status" 2
run rulebook --check mine.lua
is 'new --rule passes its own check: status 0' "$status" 0
is 'new --rule passes its own check: said so' "$(cat out)" '2 rules checked: nothing is wrong.'
empty 'new --rule passes its own check: nothing on standard error' err
run rule-test --rules mine.lua
is 'new --rule: its examples come out as they say' "$status" 0
mkdir -p rules && run new --rule bowl-wide && cp out rules/bowl-wide.lua
has 'new --rule NAME: named' out '^rule "bowl-wide" \{'
has 'new --rule NAME: the second one too' out '^rule "bowl-wide-check" \{'
for key in title for_each when stage severity life_safety judges at_least limit check why source caution fix examples; do
  has "new --rule explains $key" rules/bowl-wide.lua "(^|[ {])$key = "
done
if command -v luacheck >/dev/null; then
  (cd "$root" && luacheck --no-color -q --std rules --config .luacheckrc -- "$work/rules/bowl-wide.lua") >out 2>err
  is 'new --rule passes luacheck' "$?" 0
fi
run new --rule 'Bowl Wide'
is 'new --rule with no name for a rule: status 2' "$status" 2
has 'new --rule with no name for a rule: what would be right' err 'small letters, digits and hyphens'
run new --rule bowl-
is 'new --rule with a hyphen at the end: status 2' "$status" 2

awk '/^```lua/ { on = 1; next } /^```/ { on = 0 } on' "$root/rules/README.md" >guide.lua
run rulebook --check guide.lua
is 'what the guide to rules shows passes: status 0' "$status" 0
empty 'what the guide to rules shows passes: nothing is wrong' err

# --- the command line

run rulebook --check
is '--check without a file: status 2' "$status" 2
has '--check without a file: says so' err '--check needs a rule file'
run rulebook --check missing.lua
is '--check of a file that is not there: status 2' "$status" 2
has '--check of a file that is not there: named' err '^missing\.lua: '
cp rules/bowl-wide.lua second.lua && sed -i 's/bowl-wide/other/' second.lua
run rulebook --check mine.lua rules
is '--check of a file and a folder: status 0' "$status" 0
is '--check of a file and a folder: both' "$(cat out)" '4 rules checked: nothing is wrong.'
run rulebook --check mine.lua --rules mine.lua
is '--check of a file that is a layer already: once' "$(cat out)" '2 rules checked: nothing is wrong.'
run rulebook --check mine.lua -o mine.lua
is '--check is not written over what it checks: status 2' "$status" 2

# --- one slip each

# wrong NAME LINE PATTERN: slip.lua is checked with status 2, and told at that line.
wrong() {
  run rulebook --check slip.lua
  is "$1: status 2" "$status" 2
  has "$1: at its line" err "^slip\\.lua:$2: $3"
}
# A right rule with the line after `stage` in place of one that a slip leaves out.
head='title = "t", why = "w", source = "s", stage = "layout", severity = "advise",'
examples='examples = { { "f", basin = { depth = "1 in" }, outcome = "flagged" },
{ "c", basin = { depth = "9 in" }, outcome = "clear" }, { "limit", basin = { depth = "8 in" }, outcome = "clear" } } }'

cat >slip.lua <<END
rule "slip" { $head
  for_each = "basin", judges = "detph", at_least = "8 in", $examples
END
wrong 'an unknown quantity' 2 '.*has no `detph`.*write `depth`'
cat >slip.lua <<END
rule "slip" { $head
  for_each = "basin", judges = "depth",
  at_least = "8 gal/h", $examples
END
wrong 'a limit of the wrong unit' 3 '.*gal/h is a flow, a length is asked for'
cat >slip.lua <<END
rule "slip" { $head
  for_each = "basin", judges = "depth", at_least = "8 in",
  examples = { { "f", basin = { depth = "9 in" }, outcome = "flagged" } } }
END
wrong 'an example that comes out otherwise' 3 '.*"f": is clear, and flagged was expected'
wrong 'an example of each sort' 1 '.*not enough; write also one that is clear, one at the limit'
cat >slip.lua <<END
rule "slip" { $head
  for_each = "basin", limit = { least = "8 in" },
  check = function(basin, limit)
    if basin.purpose == "fish" then
      return at_least(basin.dpeth, limit.lest)
    end
    return at_least(basin.depth, limit.least)
  end,
  examples = { { "f", basin = { purpose = "bowl", depth = "1 in" }, outcome = "flagged" },
    { "c", basin = { purpose = "bowl", depth = "9 in" }, outcome = "clear" },
    { "limit", basin = { purpose = "bowl", depth = "8 in" }, outcome = "clear" } } }
END
wrong 'a misspelt name on a branch' 5 '.*a basin has no `dpeth`; write `depth`, if that is meant'
wrong 'a misspelt limit on a branch' 5 '.*the rule has no limit `lest`; write `least`, if that is meant'
wrong 'a line that no example runs' 5 '.*line 5 is run by none of its examples'
cat >slip.lua <<END
rule "slip" { $head
  for_each = "basin",
  check = function(basin)
    if basin.depth > q"2 ft" then return 7 end
    return at_least(basin.depth, q"8 in")
  end, $examples
END
wrong 'nonsense on a branch that a variation takes' 3 '.*"f" with depth = "[0-9.]+ m+": `check` returns something else'
cat >slip.lua <<END
rule "slip" { $head
  for_each = "basin", judges = "depth",
  at_least = "0 in",
  $examples
END
wrong 'a rule that can never flag' 3 '.*the rule can never flag'
cat >slip.lua <<END
adjust "freebord-low" { at_least = "3 in" }
adjust "lip-overfed" {
  limit = { mots = "3 gal/h/in" } }
adjust "freeboard-low" {
  at_least = "3 gal/h" }
retire "pipe-too-slow" { because = "we flush" }
adjust "pipe-too-slow" { at_least = "1 ft/s" }
retire "nothing-like-it" { because = "we flush" }
rule "sheet-breaks-up" { $head for_each = "basin", judges = "depth", at_least = "8 in" }
END
wrong 'an adjust of an unknown rule' 1 'adjust "freebord-low": there is no such rule; write `freeboard-low`'
wrong 'an adjust of an unknown limit' 3 'adjust "lip-overfed": the rule has no limit `mots`; write `most`'
wrong 'an adjust in the wrong unit' 5 'adjust "freeboard-low"\.at_least: gal/h is a flow'
wrong 'a layer that retires what it adjusts later' 7 'adjust "pipe-too-slow".*retire.*line 6'
wrong 'a retire of an unknown rule' 8 'retire "nothing-like-it": there is no such rule'
wrong 'a rule of a name that stands already' 9 'rule "sheet-breaks-up": stands already in .*spills\.lua, line [0-9]+'

# --- a broken rule hides no other, and a file that cannot be read is no consent

run new && cp out pond.lua
cat >slip.lua <<END
rule "broken-one" { $head for_each = "basin", judges = "detph", at_least = "8 in" }
rule "whole-one" { $head for_each = "basin", judges = "depth", at_least = "900 ft",
  examples = { { "f", basin = { depth = "1 in" }, outcome = "flagged" } } }
END
run review pond.lua --rules slip.lua
is 'a broken rule: status 2' "$status" 2
has 'a broken rule: the next one is judged' out 'whole-one'
run rulebook --check slip.lua
has 'a broken rule: told' err '^slip\.lua:1: rule "broken-one"'
has 'a broken rule: the next one is checked too' err '^slip\.lua:2: rule "whole-one": its examples are not enough'
printf 'rule "half" {\n  title =\n' >half.lua
run review pond.lua --rules half.lua
is 'a file that cannot be read: the review ends with 2' "$status" 2
filled 'a file that cannot be read: the rest is reviewed' out
run rulebook --check half.lua
is 'a file that cannot be read: its check ends with 2' "$status" 2
has 'a file that cannot be read: told at its line' err '^half\.lua:[0-9]+: '
rule endless 'while true do end' >endless.lua
sed -i 's/^}$/examples = { { "f", basin = {}, outcome = "flagged" } } }/' endless.lua
run rulebook --check endless.lua
is 'a check without an end: status 2' "$status" 2
has 'a check without an end: named' err 'endless'
hasnt 'a check without an end: no internal fault' err 'internal fault'

# --- rule-test as TAP

FOREBAY_RULES=$work/rules
export FOREBAY_RULES
run rule-test --format tap
is 'tap: status 0' "$status" 0
is 'tap: its version comes first' "$(head -n 1 out)" 'TAP version 14'
is 'tap: the plan counts the tests' "$(tail -n 1 out)" "1..$(grep -cE '^(not )?ok ' out)"
has 'tap: rule and example' out '^ok 1 - bowl-wide: low rim$'
is 'tap: numbered from 1 on' "$(sed -nE 's/^(not )?ok ([0-9]+) .*/\2/p' out | tr '\n' ' ')" \
  "$(seq "$(grep -cE '^(not )?ok ' out)" | tr '\n' ' ')"
# Perl's reader of the protocol knows version 13, which says the same of all that is used here.
as_13() { sed '1s/14/13/' out >tap && prove -e cat tap >out 2>err; }
if command -v prove >/dev/null; then
  as_13
  is 'tap: another reader takes it, all passed' "$?" 0
fi
run rule-test --format text
is 'text: as ever' "$(cat out)" '2 rules tried: 9 passed, 0 failed.'
cat >slip.lua <<END
rule "slip" { $head
  for_each = "basin", judges = "depth", at_least = "8 in",
  examples = { { "a # sign", basin = { depth = "9 in" }, outcome = "flagged" } } }
END
run rule-test --format tap --rules slip.lua
is 'tap, a failure: status 1' "$status" 1
has 'tap, a failure: a sharp is escaped' out '^not ok [0-9]+ - slip: a \\# sign$'
has 'tap, a failure: where and why' out '^# slip\.lua:3: is clear, and flagged was expected$'
has 'tap, a firm without examples of each sort: skipped' out '^ok [0-9]+ - slip: has examples of each sort # SKIP '
if command -v prove >/dev/null; then
  as_13
  is 'tap, a failure: another reader sees it' "$?" 1
  has 'tap, a failure: that one alone' out err 'Failed 1/[0-9]+ subtests'
fi
run rule-test --format tap --rules half.lua
is 'tap, a file that cannot be read: status 2' "$status" 2
has 'tap, a file that cannot be read: bails out' out '^Bail out! half\.lua cannot be read'
run rule-test --format html
is 'an unknown format: status 2' "$status" 2
has 'an unknown format: those that there are' err 'there are text and tap'
cat >slip.lua <<END
rule "slip" { $head for_each = "basin",
  check = function(b)
    if b.depth == 24 then return must(false, "x") end
    if b.purpose == "bowel" then return must(false, "x") end
    if b.reach ~= nil then return at_least(b.depth, q"1 in") end
  end,
  $examples
END
wrong 'a value with a unit and a plain number' 3 '.*`depth` has a unit and never equals a plain number'
wrong 'a word that there is not' 4 '.*`purpose` is never this word; read "bowel"; write "plunge"'
wrong 'whether something is there' 5 '.*a rule cannot ask whether something is there'
finish
