#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# A survey beside the design: found in the design's folder, read by the parent, told by its own lines.
# shellcheck disable=SC1091,SC2154  # the names are from tap.bash
source "$(dirname "$0")/tap.bash"

mkdir job
cat >job/design.lua <<'END'
project { name = "Bank", units = "us" }
site { survey = "ground.csv" }
basin "pool" { purpose = "display", outline = rectangle { "4 ft", "4 ft" }, rim = "0 in", water_level = "-3 in", depth = "27 in" }
dig "pit" { of = "pool", beyond = "12 in", below = "6 in", slope = "upright" }
END
run explain job/design.lua pit.bank_volume
is 'no survey there: status 2' "$status" 2
has 'no survey there: told at the given' err '^job/design.lua:2: .*ground.csv'

printf 'point,northing,easting,elevation\n1,-9,-9,1\n2,-9,40,1\n3,40,-9,1\n' >job/ground.csv
run explain job/design.lua pit.bank_volume
is 'a survey beside the design: status 0' "$status" 0
has 'a survey beside the design: its volume' out '5\.3 yd3'
cp out worked
cd job || exit 1
run explain design.lua pit.bank_volume
mv out err ..
cd ..
same 'named from its own folder: the same' out worked

printf '4,12,x,1\n' >>job/ground.csv
run review job/design.lua
is 'a bad row: status 2' "$status" 2
has 'a bad row: its file and line' err '^job/ground.csv:5: .*easting.*number'

run review -o job/ground.csv job/design.lua
is 'a report over the survey: status 2' "$status" 2
has 'a report over the survey: it stays' job/ground.csv 'northing'
finish
