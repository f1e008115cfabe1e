#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Design files that cannot be used, and outputs that cannot be written.
# shellcheck disable=SC1091,SC2154  # the names are from tap.bash
source "$(dirname "$0")/tap.bash"
mkdir trade
rule deep-enough 'return at_least(basin.depth, limit.least)' >trade/a.lua
export FOREBAY_RULES=$work/trade

run new
is 'new: status 0' "$status" 0
filled 'new: a design' out
cp out pond.lua
run new 'The "east" court'
has 'new NAME: the name is in it, quoted' out 'name = "The \\"east\\" court"'
run new -o made.lua
same 'new -o: the same design' made.lua pond.lua
echo mine >made.lua
run new -o made.lua
is 'new -o over a file: status 2' "$status" 2
is 'new -o over a file: it stays' "$(cat made.lua)" mine
run new $'two\nlines'
is 'new with a name of two lines: status 2' "$status" 2

run review pond.lua
one_of 'the new design is reviewed' "$status" 0 1
filled 'the new design has a report' out
hasnt 'no colours in a file' out $'\033'
hasnt 'no fault is reported' err 'internal fault'
cp out report
run review pond.lua
same 'the same again, byte for byte' out report
run review pond.lua
whole=$status
run review --short pond.lua
is 'review --short: the same status' "$status" "$whole"
is 'review --short: the same verdict first' "$(head -n 1 out)" "$(grep -m 1 -E '^(DO NOT DIG YET|NOTHING HELD|THE REVIEW)' report)"
is 'review --short: the same findings, a line each' "$(grep -oE '^(HOLD|REVISE|ADVISE) [0-9-]+' out)" \
  "$(grep -oE '^(HOLD|REVISE|ADVISE) [0-9-]+' report)"
is 'review --short: nothing else but what was checked' \
  "$(sed 1d out | grep -vE '^((HOLD|REVISE|ADVISE) [0-9-]+  |This is not a permit|The whole report |$)' | head -c 9)" 'CHECKED  '
is 'review --short: 80 columns at most' "$(awk 'length > 80' out)" ''
run review "$work/pond.lua"
one_of 'a design named by a path is reviewed' "$status" 0 1

cat >pond.json <<'END'
{"project": {"name": "East court", "units": "si"},
 "basin": {"lower": {"purpose": "display", "rim": "0 in", "water_level": "-4 in", "depth": "30 in",
  "outline": {"polygon": [["0 ft", "0 ft"], ["10 ft", "0 ft"], ["10 ft", "8 ft"]]}}}}
END
run review pond.json
one_of 'a design in JSON is reviewed' "$status" 0 1
filled 'a design in JSON has a report' out

if command -v script >/dev/null; then
  # On a terminal: `script` makes one.
  on_terminal() { env -u NO_COLOR TERM=xterm "$@" script -qec "'$forebay' review pond.lua" /dev/null </dev/null >out 2>&1; }
  on_terminal env
  has 'colours on a terminal' out $'\033\\[[0-9;]*m'
  on_terminal env NO_COLOR=1
  hasnt 'no colours with NO_COLOR' out $'\033'
  on_terminal env TERM=dumb
  hasnt 'no colours on a dumb terminal' out $'\033'
fi

# unusable NAME DESIGN: status 2, no result, a line that begins with the file's name.
unusable() {
  run review "$2"
  is "$1: status 2" "$status" 2
  empty "$1: no report" out
  has "$1: says which file" err "^$2:"
  is "$1: says no more than a screen" "$(($(wc -l <err) <= 120))" 1
}
: >empty.lua
head -c 4096 /dev/urandom >binary.lua
head -c 300 "$forebay" >elf.lua
head -c $((10 * 1024 * 1024)) /dev/zero | tr '\0' ' ' >large.lua
printf 'basin "lower" { outline = \n' >cut.lua
printf '{"project": {"name": ' >cut.json
printf 'while true do end\n' >endless.lua
printf 'local s = "x"\nwhile true do s = s .. s end\n' >greedy.lua
printf 'return os.execute("touch escaped")\n' >program.lua
mkdir folder.lua
ln -s nowhere.lua dangling.lua
unusable 'an empty file' empty.lua
unusable 'noise' binary.lua
unusable 'a program' elf.lua
unusable 'a file of 10 MB' large.lua
has 'a file of 10 MB: its size and the limit' err '10\.0 MB, at most 1 MB is read'
unusable 'a design cut short' cut.lua
has 'a design cut short: with its line' err '^cut\.lua:[0-9]+:'
unusable 'JSON cut short' cut.json
unusable 'a design without an end' endless.lua
unusable 'a design that eats memory' greedy.lua
unusable 'a design that is a program' program.lua
is 'a design that is a program: nothing ran' "$(find . -name escaped | wc -l)" 0
unusable 'a folder' folder.lua
unusable 'no file' missing.lua
unusable 'a link to nowhere' dangling.lua
unusable 'a device' /dev/null
run explain missing.lua a.b
is 'explain, no file: status 2' "$status" 2
run explain pond.lua 'no such thing.depth'
is 'explain, no such entity: status 2' "$status" 2
filled 'explain, no such entity: says so' err

run review pond.lua -o written
one_of '-o: reviewed' "$status" 0 1
same '-o: the report' written report
empty '-o: nothing on standard output' out
is '-o: nothing is left beside it' "$(find . -name '*written*' | wc -l)" 1
run review pond.lua -o no/such/folder/report
is '-o into a missing folder: status 2' "$status" 2
has '-o into a missing folder: says so' err '^no/such/folder/report: '
run review pond.lua -o folder.lua
is '-o onto a folder: status 2' "$status" 2
echo 'the old report' >old
run review cut.lua -o old
is '-o with an unusable design: status 2' "$status" 2
is '-o with an unusable design: the old file stays' "$(cat old)" 'the old report'
cp pond.lua kept.lua
run review pond.lua -o pond.lua
is '-o onto the design: status 2' "$status" 2
same '-o onto the design: it stays' pond.lua kept.lua

if [ -e /dev/full ]; then
  for words in 'review pond.lua' new --version --help; do
    # shellcheck disable=SC2086  # words
    "$forebay" $words >/dev/full 2>err
    is "$words to a full device: status 2" $? 2
    has "$words to a full device: says so" err '^forebay: standard output cannot be written'
  done
  run review pond.lua -o /dev/full
  is '-o /dev/full: status 2' "$status" 2
fi
"$forebay" review pond.lua >&- 2>err
is 'standard output closed: status 2' $? 2
has 'standard output closed: says so' err '^forebay: standard output cannot be written'
"$forebay" review pond.lua 2>&- >out <&-
one_of 'standard error and input closed: reviewed' $? 0 1
same 'standard error and input closed: the report' out report
(trap '' PIPE && "$forebay" review pond.lua 2>err && echo $? >code || echo $? >code) | :
is 'a reader that went away: status 2' "$(cat code)" 2
finish
