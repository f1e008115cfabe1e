#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# A firm's layers: its stock prices a design, its decisions show, layers that disagree say so.
# shellcheck disable=SC1091,SC2016,SC2154  # the names are from tap.bash; a $ is a price
source "$(dirname "$0")/tap.bash"
export FOREBAY_RULES=$work/trade
mkdir trade house crew

# A pit of 12 x 12 x 9 ft is 48 yd3 in the ground, 60 yd3 loose, 12 loads of 5 yd3 (worked out by hand, as in
# takeoff.sh): 12 loads at $190 are $2,280; 48 yd3 at 16 yd3 a day are 3 days.
cat >pit.lua <<'END'
project { name = "Pit", units = "us" }
site { truck_volume = "5 yd3", truck_limit = "30 ton" }
basin "pit" { purpose = "display", outline = rectangle { "12 ft", "12 ft" }, rim = "1 in", water_level = "0 in", depth = "9 ft",
  measured = { rise_at_power_loss = "3/4 in", with = "tape" } }
dig "hole" { of = "pit", beyond = "0 in", below = "0 in", slope = "upright" }
END
cat >trade/rules.lua <<'END'
rule "deep" {
  title = "A basin is shallow", for_each = "basin", stage = "dig", severity = "hold", life_safety = true,
  judges = "depth", at_most = "5 ft", why = "Deep water drowns.", source = "a test", examples = {},
}
rule "low-rim" {
  title = "The rim stands over the water", for_each = "basin", stage = "layout", severity = "revise",
  judges = "freeboard", at_least = "2 in", why = "It runs over.", source = "a test", examples = {},
}
END
cat >house/ours.lua <<'END'
adjust "deep" {
  at_most = "10 ft", because = "nobody lives here",
}
adjust "low-rim" { at_least = "3 in" }
END
cat >house/stock.lua <<'END'
stock {
  prices = { haul = "$190" },
  rates = { soil_per_day = "16 yd3" },
  pumps = { { model = "mid 1900", type = "dry", curve = { { "0 gal/h", "9 ft" }, { "900 gal/h", "0 ft" } }, price = "$240" } },
}
END
cat >crew/ours.lua <<'END'
adjust "low-rim" { at_least = "4 in" }
stock { prices = { haul = "$200" }, pumps = {} }
END

run takeoff pit.lua
hasnt 'without a layer: no price for the haul' out '2,280'
run takeoff pit.lua --rules house
is 'with one: status 0' "$status" 0
has 'the haul is priced' out 'soil hauled \.+ \$2,280\.00'
has 'the days follow from the rate' out '3(\.0)? days?'
has 'it says whose figures these are' out 'Not in the design, by house: .*\$190\.00'
run takeoff pit.lua --rules house --without-house
hasnt '--without-house: no price' out '2,280'
sed '1a prices { haul = "$100" }' pit.lua >priced.lua
run takeoff priced.lua --rules house
has 'what the design says holds' out 'soil hauled \.+ \$1,200\.00'
run takeoff pit.lua --rules house --rules crew
has 'of two layers the later one holds' out 'soil hauled \.+ \$2,400\.00'
run explain pit.lua prices.haul --rules house
has 'explain says who' out 'by house \(house/stock\.lua:2\)'

run rulebook --rules house --rules crew
is 'rulebook: status 0' "$status" 0
has 'rulebook: what the firm changes' out 'low-rim: at least 2 in -> 4 in'
has 'rulebook: who and where' out 'crew \(crew/ours\.lua:1\)'
has 'rulebook: who disagrees' out 'house says 3 in \(house/ours\.lua:4\), crew says 4 in'
has 'rulebook: what is softened' out 'deep !: at most 5 ft -> 10 ft; lives depend on this rule, and it is SOFTENED'
has 'rulebook: stock' out 'pumps: none to choose from'
run rulebook deep --rules house
has 'rulebook RULE: who changed it' out 'changed +at most 5 ft -> 10 ft, by house \(house/ours\.lua:2\): nobody'
echo "retire \"low-rim\" { because = \"we build no rims\" }" >without.lua
run rulebook low-rim --rules without.lua
has "rulebook RULE: of a retired one too" out "^retired +by without \\(without\\.lua:1\\): we build no rims"
run rulebook --rules house --without-house
hasnt 'rulebook --without-house: the trade alone' out 'FIRM|STOCK|house'

run review pit.lua --rules house
has 'review: softened, under the verdict' out '^SOFTENED BY THE FIRM: lives depend on these rules'
is 'review: right under it' "$(grep -nE '^SOFTENED' out | cut -d: -f1)" "$(($(grep -nE '^NOTHING HELD' out | cut -d: -f1) + 3))"
has 'review: the trade alone' out '^By the trade rules alone: 1 hold, 1 revise; the firm takes away 1\.'
has 'review: on record' out 'deep: at most 5 ft -> 10 ft, by house \(house/ours\.lua:2\); nobody lives here'
run review pit.lua --rules house --short
has 'review --short: softened too' out '^SOFTENED BY THE FIRM'
run review pit.lua --rules house --without-house
hasnt 'review --without-house: nothing of it' out 'SOFTENED|trade rules alone'
has 'review --without-house: the hold stands' out '1 hold'

echo 'stock { pumps = { { model = "a", type = "dry" } } }' >wrong.lua
run takeoff pit.lua --rules wrong.lua
is 'stock that cannot be used: status 2' "$status" 2
has 'its line' err '^wrong\.lua:1: stock\.pumps: the pump has no curve'
filled 'and the rest is written' out

finish
