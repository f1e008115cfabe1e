# SPDX-License-Identifier: MIT
# shellcheck shell=bash disable=SC2034  # the scripts that read this use the names
# For the scripts beside it: a folder of one's own to work in, the command run with its answers kept, results as TAP.
set -u
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
forebay=$(realpath "${FOREBAY:-$root/build/forebay}")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1
unset FOREBAY_RULES
number=0 failed=0 status=

# Runs the command: its status in $status, its answers in the files out and err.
run() {
  "$forebay" "$@" >out 2>err </dev/null
  status=$?
}

# verdict NAME WHETHER [WHY]
verdict() {
  number=$((number + 1))
  if [ "$2" -eq 0 ]; then
    echo "ok $number - $1"
    return
  fi
  echo "not ok $number - $1"
  failed=$((failed + 1))
  printf '%s\n' "${@:3}" | sed 's/^/# /'
  head -n 5 out err 2>/dev/null | sed 's/^/#   /'
}

# is NAME GOT EXPECTED
is() {
  [ "$2" = "$3" ]
  verdict "$1" $? "got:      $2" "expected: $3"
}

# one_of NAME GOT CHOICE...
one_of() {
  local name=$1 got=$2
  shift 2
  [[ " $* " == *" $got "* ]]
  verdict "$name" $? "got: $got" "expected one of: $*"
}

# has NAME FILE... PATTERN: some of the files holds the pattern.
has() {
  local name=$1 pattern=${*: -1}
  grep -qE -- "$pattern" "${@:2:$#-2}"
  verdict "$name" $? "nowhere in ${*:2:$#-2}: $pattern"
}

# hasnt NAME FILE... PATTERN
hasnt() {
  local name=$1 pattern=${*: -1}
  ! grep -qE -- "$pattern" "${@:2:$#-2}"
  verdict "$name" $? "found in ${*:2:$#-2}: $pattern"
}

# empty NAME FILE, filled NAME FILE
empty() {
  [ ! -s "$2" ]
  verdict "$1" $?
}
filled() {
  [ -s "$2" ]
  verdict "$1" $? "$2 is empty"
}

same() {
  cmp -s "$2" "$3"
  verdict "$1" $? "$2 and $3 differ"
}

# rule ID BODY: a rule on every basin whose check is BODY.
rule() {
  cat <<END
rule "$1" {
  title = "A rule to try", for_each = "basin", stage = "dig", severity = "advise",
  limit = { least = "1 in" },
  check = function(basin, limit) $2 end,
  why = [[To see what becomes of it.]], source = "common practice, no source",
}
END
}

finish() {
  echo "1..$number"
  [ "$failed" -eq 0 ]
}
