#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Rules that are wrong, fail, or never end: each is named, the rest is reviewed, the status is 2.
# shellcheck disable=SC1091,SC2154,SC2016  # the names are from tap.bash
source "$(dirname "$0")/tap.bash"

mkdir trade
run new
cp out pond.lua

rule good-rule 'return at_least(basin.depth, limit.least)' >trade/good.lua
export FOREBAY_RULES=$work/trade

run review pond.lua
is 'a good rule: status 0' "$status" 0
filled 'a good rule: a report' out
cp out good
run review pond.lua --rules trade
one_of 'the same rules once more on top: no crash' "$status" 0 1 2
run rulebook
is 'rulebook: status 0' "$status" 0
has 'rulebook: lists it' out 'good-rule'
run rulebook good-rule
is 'rulebook RULE: status 0' "$status" 0
run rulebook good-ruel
is 'rulebook, no such rule: status 2' "$status" 2
has 'rulebook, no such rule: the nearest' err 'good-rule'

# bad NAME ID FILE SECONDS: reviewed with status 2, in time, with a report; the rule or file is named.
bad() {
  local from=$SECONDS
  run review pond.lua --rules "$3" --without-house
  same "$1: --without-house is as if it were not there" out good
  run review pond.lua --rules "$3"
  is "$1: status 2" "$status" 2
  filled "$1: the rest is reviewed" out
  has "$1: it is named" out err "$2"
  hasnt "$1: no internal fault" out err 'internal fault'
  is "$1: within $4 s" "$((SECONDS - from <= $4))" 1
}

printf 'rule "half" {\n  title = \n' >syntax.lua
bad 'a syntax error' 'syntax\.lua:[0-9]+' syntax.lua 10
rule no-such-name 'return at_least(basin.dept, limit.least)' >misspelt.lua
bad 'a misspelt quantity' 'no-such-name|misspelt\.lua' misspelt.lua 10
run review pond.lua --rules misspelt.lua
has 'a misspelt quantity: the right word' out err 'depth'
rule wrong-dimension 'return at_least(basin.depth, q"3 gal/h")' >dimension.lua
bad 'a length held against a flow' 'wrong-dimension|dimension\.lua' dimension.lua 10
rule endless 'while true do end' >endless.lua
bad 'a rule without an end' 'endless' endless.lua 15
rule greedy 'local s = "x" while true do s = s .. s end' >greedy.lua
bad 'a rule that eats memory' 'greedy' greedy.lua 15
rule long-winded 'local s = "0123456789abcdef" for i = 1, 20 do s = s .. s end
  while true do local t = s .. "x" end' >winded.lua
bad 'a rule that joins long texts for ever' 'long-winded' winded.lua 40
# Few instructions, each of them long, and no memory: only the clock ends it.
rule long-looks 'local a, b = "0123456789abcdef", "0123456789abcdef"
  for i = 1, 17 do a, b = a .. a, b .. b end
  while true do local same = a == b end' >looks.lua
bad 'a rule that compares long texts for ever' 'long-looks' looks.lua 40
rule bottomless 'local function f(n) return 1 + f(n + 1) end return f(1)' >bottomless.lua
bad 'a rule that calls itself without an end' 'bottomless' bottomless.lua 15
printf 'while true do end\n' >endless-file.lua
bad 'a rule file without an end' 'endless-file' endless-file.lua 15
head -c 2000 /dev/urandom >noise.lua
bad 'a rule file of noise' 'noise' noise.lua 10
rule spawns 'return os.execute("touch escaped")' >spawns.lua
bad 'a rule that asks for os' 'spawns' spawns.lua 10
is 'a rule that asks for os: nothing ran' "$(find . -name escaped | wc -l)" 0

mkdir many && cp syntax.lua endless.lua greedy.lua many/
head -c $((2 * 1024 * 1024)) /dev/zero >many/large.lua
bad 'four bad files in a folder' 'endless' many 30
has 'four bad files in a folder: the syntax error' out err 'syntax\.lua:[0-9]+'
has 'four bad files in a folder: the size' out err '2\.0 MB, at most 1 MB is read'

mkdir linked && cp pass.lua linked/ 2>/dev/null || printf '' >linked/empty.lua
ln -s nowhere linked/lost.lua && mkfifo linked/pipe.lua
run review pond.lua --rules linked
is 'a link to nowhere in a folder of rules: status 2' "$status" 2
has 'a link to nowhere in a folder of rules: named' err 'linked/lost\.lua.*no plain file'
has 'a pipe in a folder of rules: named' err 'linked/pipe\.lua.*no plain file'

run rule-test --rules syntax.lua
is 'rule-test with an unusable file: status 2' "$status" 2
run review pond.lua --rules missing
is 'a layer that is not there: status 2' "$status" 2
has 'a layer that is not there: named' err '^missing: '
empty 'a layer that is not there: no report' out
mkdir empty
run review pond.lua --rules empty
is 'an empty layer: status 2' "$status" 2
FOREBAY_RULES=$work/nowhere run review pond.lua
is 'no trade rules: status 2' "$status" 2
has 'no trade rules: says where' err 'nowhere'

run review pond.lua --require-seal
if "$forebay" --version | grep -q '^seal: whole'; then
  is '--require-seal where it holds: status 0' "$status" 0
else
  is '--require-seal where it does not hold: status 2' "$status" 2
fi

# Layers that soften, one on top of the other; keys given twice; names that are taken.
unset FOREBAY_RULES
export FOREBAY_RULES=$root/rules/trade
cp "$root/projects/stone-court.lua" court.lua
mkdir -p one two p/house q/house
echo 'adjust "spoil-at-edge" { at_least = "1 ft", because = "a reason" }' >one/a.lua
echo 'adjust "spoil-at-edge" { at_least = "18 in" }' >two/a.lua
run rulebook --rules one --rules two
has 'softer than the trade wrote it, without a reason of its own' err 'two/a.lua:1: .*lives depend on this rule'
echo 'adjust "spoil-at-edge" { at_least = "2 ft", at_least = "1 in", because = "x" }' >two/a.lua
run rulebook spoil-at-edge --rules two
hasnt 'a key given twice: neither holds' out '1 in'
echo 'adjust "cave-in-protection-examined" { limit = { deep = { hold = "5 ft", advise = "6 ft" } } }' >two/a.lua
run rulebook --rules two
has 'a limit of a check by severity' err 'two/a.lua:1: .*lives depend on this rule'
echo 'adjust "spoil-at-edge" { at_least = "2 ft +/- 3 ft", because = "x" }' >two/a.lua
run rulebook --rules two
has 'a limit with a tolerance' err 'two/a.lua:1: .*a limit has no tolerance'
echo 'adjust "freeboard-low" { at_least = "3 in", because = "x" }' >p/house/a.lua
echo 'adjust "freeboard-low" { at_least = "4 in", because = "y" }' >q/house/a.lua
run rulebook --rules p/house --rules q/house
is 'two layers of one name are two' "$status" 0
has 'and are told apart' out 'q/house'
rule graver 'return at_most(basin.depth, { hold = q"1 in" })' | sed 's/severity = "[a-z]*"/severity = "advise"/' >two/a.lua
run review court.lua --rules two
has 'a limit in a function that is graver than the rule' out 'is graver than this rule declares'
is 'it is broken' "$status" 2
: >none.lua
FOREBAY_RULES=$PWD/none.lua run rule-test
is 'rule-test of nothing' "$status" 2
echo 'adjust "gate-too-narrow" { severity = "advise" }' >two/a.lua
run review court.lua --rules two
has 'a hold that holds no more wants a reason' err 'two/a.lua:1: .*this rule holds, and `because` is missing'
echo 'adjust "lip-overfed" { at_most = "9 gal/h/in" }' >two/a.lua
run review court.lua --rules two
has 'the limits of a check are named' err 'two/a.lua:1: .*limit = [{] most = '

# Fixes that say nothing that could be done.
slip_of_fix() { # NAME FIX PATTERN
  rule slip-fix 'return at_least(basin.depth, limit.least)' | sed "s/^}\$/  fix = $2,\n}/" >two/a.lua
  grep -q 'fix = ' two/a.lua || echo '-- no fix in it' >>two/a.lua
  run rulebook --rules two
  has "a fix: $1" err "$3"
}
slip_of_fix 'a step backwards' '{ raise = "depth", by = "-1 in" }' 'a step of nothing, or backwards'
slip_of_fix 'no step' '{ raise = "depth", by = "0 in" }' 'a step of nothing, or backwards'
slip_of_fix 'set to nothing' '{ set = "fill_device" }' 'does not say to what it is set'
slip_of_fix 'one given twice' '{ { raise = "depth", by = "1 in" }, { raise = "depth", by = "2 in" } }' 'changes one given twice'
finish
