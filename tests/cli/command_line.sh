#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# The command line itself: help, versions, slips.
# shellcheck disable=SC1091,SC2154  # the names are from tap.bash
source "$(dirname "$0")/tap.bash"

run
is 'no command: status 2' "$status" 2
is 'no command: the help, on standard error' "$(head -n 1 err)" 'Usage: forebay COMMAND [OPTION]... [OPERAND]...'
empty 'no command: nothing on standard output' out

for way in --help -h help; do
  run "$way"
  is "$way: status 0" "$status" 0
  is "$way: the help" "$(head -n 1 out)" 'Usage: forebay COMMAND [OPTION]... [OPERAND]...'
done

for command in review explain takeoff rulebook rule-test new schema version help; do
  run "$command" --help
  is "$command --help: status 0" "$status" 0
  is "$command --help: its usage" "$(head -n 1 out | cut -d' ' -f1-3)" "Usage: forebay $command"
  cp out by_option
  run help "$command"
  same "help $command: the same" out by_option
  is "$command --help: 80 columns at most" "$(awk 'length > 80' out)" ''
done

for way in --version version; do
  run "$way"
  is "$way: status 0" "$status" 0
  has "$way: the version" out '^forebay [0-9]+\.[0-9]+\.[0-9]+$'
  has "$way: the seal" out '^seal: (whole|in part|none): '
done

# slip EXPECTED WORDS...: status 2, that first line on standard error, nothing on standard output.
slip() {
  run "${@:2}"
  is "forebay ${*:2}: status 2" "$status" 2
  is "forebay ${*:2}: says why" "$(head -n 1 err)" "$1"
  empty "forebay ${*:2}: no result" out
}
slip "forebay: unknown command \"reveiw\"; did you mean review? 'forebay help' lists the commands" reveiw pond.lua
slip "forebay: unknown command \"rule_test\"; did you mean rule-test? 'forebay help' lists the commands" help rule_test
slip "forebay: unknown command \"xyzzy\" 'forebay help' lists the commands" xyzzy
slip 'forebay: unknown option --helpp; did you mean --help?' --helpp
slip 'forebay: unknown option --formt; did you mean --format?' review --formt=text pond.lua
slip 'forebay: unknown option --fail-at' explain --fail-at=hold pond.lua a.b
slip 'forebay: --format does not know "sculpture"; there is only text' review --format sculpture pond.lua
slip 'forebay: --units does not know "imperial"; there are us and si' review --units=imperial pond.lua
slip 'forebay: --fail-at does not know "advize"; there are hold, revise, advise and unanswered; did you mean advise?' \
  review --fail-at=advize pond.lua
slip 'forebay: --output needs a value: FILE' review pond.lua -o
slip 'forebay: unknown option --short' rulebook --short
slip 'forebay: missing: DESIGN' review
slip 'forebay: missing: DESIGN ENTITY.QUANTITY' explain pond.lua
slip 'forebay: one word too many: "b.lua"' review a.lua b.lua
slip '--units: the file cannot be opened' review -- --units

run explain --list
is 'explain --list: status 0' "$status" 0
has 'explain --list: names the kinds' out '^spill: '
run explain --list spill
has 'explain --list KIND: names its values' out '^  lip_width: '
run explain --list spil
is 'explain --list, no such kind: status 2' "$status" 2
has 'explain --list, no such kind: the nearest is named' err 'write spill'
run schema json
is 'schema: status 0' "$status" 0
has 'schema: is of draft 2020-12' out 'draft/2020-12/schema'
run schema xml
is 'schema, of another sort: status 2' "$status" 2
finish
