-- SPDX-License-Identifier: MIT
-- In here: fish, plants, oxygen, ice, chlorine in the fill water, leaves, mosquitoes.
-- Changes of your own go into rules/house, not in here: the next version replaces this file.
-- To try it: `forebay rule-test` runs the examples under each rule.
-- Units: every number is text with its unit ("18 in", "5 mg/L", "24 h").

rule "fish-load" {
  title = "The water carries its fish when they are grown",
  for_each = "basin", when = { purpose = "fish", filters = { at_least = "1" } },
  stage = "layout", severity = "advise",
  judges = "fish_load", at_most = "100 %",
  why = [[Fish are bought at four inches and foul the water at twelve. Counted grown, small fish
    ask some 5 gallons an inch and koi five times that. Past it the filter never catches up, and
    the owner changes water all summer or loses fish on a hot night.]],
  source = "common practice, no source",
  fix = { advise = "Plan for fewer fish, or for more water." },
  examples = {
    { "crowded", basin = { purpose = "fish", filters = "1", fish_water = "1,600 gal", net_volume = "1,000 gal" },
      outcome = "flagged" },
    { "a few", basin = { purpose = "fish", filters = "1", fish_load = "40 %" }, outcome = "clear" },
    { "at the limit", basin = { purpose = "fish", filters = "1", fish_load = "100 %" }, outcome = "clear" },
  },
}

rule "fish-load-unfiltered" {
  title = "Water without a filter carries half as many fish",
  for_each = "basin", when = { purpose = "fish", filters = { at_most = "0" } },
  stage = "layout", severity = "advise",
  judges = "fish_load", at_most = "50 %",
  why = [[Without a filter only plants and the gravel take up what fish leave, and both rest in
    the cold and give out in the heat. Half the fish is what such water carries through a bad week.]],
  source = "common practice, no source",
  fix = { advise = "Put a filter in a pipe run, or plan for fewer fish." },
  examples = {
    { "too many", basin = { purpose = "fish", filters = "0", fish_water = "600 gal", net_volume = "1,000 gal" },
      outcome = "flagged" },
    { "a few", basin = { purpose = "fish", filters = "0", fish_load = "20 %" }, outcome = "clear" },
    { "at the limit", basin = { purpose = "fish", filters = "0", fish_load = "50 %" }, outcome = "clear" },
  },
}

rule "plant-share" {
  title = "Plants take a fifth to three fifths of a fish pool",
  for_each = "basin", when = { purpose = "fish" },
  stage = "layout", severity = "advise",
  judges = "planted_share", within = { "20 %", "60 %" },
  why = [[Plants shade the water and eat what feeds algae; a bare pool in sun goes green in May.
    Planted past three fifths there is no open water left, and what rots in autumn takes the
    oxygen that the fish need.]],
  source = "common practice, no source",
  fix = { advise = "Plant a shelf, or leave part of the water open." },
  examples = {
    { "bare", basin = { purpose = "fish", planted_area = "4 ft2", water_area = "80 ft2" }, outcome = "flagged" },
    { "grown over", basin = { purpose = "fish", planted_share = "75 %" }, outcome = "flagged" },
    { "a third", basin = { purpose = "fish", planted_share = "33 %" }, outcome = "clear" },
    { "at the limit", basin = { purpose = "fish", planted_share = "20 %" }, outcome = "clear" },
  },
}

rule "oxygen-warm-water" {
  title = "Fish keep 5 mg/L of oxygen in the warmest water",
  for_each = "basin", when = { purpose = "fish" },
  stage = "plumbing", severity = "advise",
  judges = "oxygen_warm", at_least = "5 mg/L",
  why = [[Warm water holds little oxygen, thin air up high gives it less, and toward dawn plants
    have breathed most of it away. Fish then hang at the surface, the largest die first, and it
    happens in one night. Falling water and shade are what helps.]],
  source = [[5 mg/L for good growth: Texas Parks and Wildlife, fish and fish water lab (seen); share
    left at dawn: common practice, no source]],
  fix = { advise = "Shade the water, deepen it, or run falls or air through warm nights." },
  examples = {
    { "hot and high", site = { altitude = "5,000 ft" },
      basin = { purpose = "fish", warmest = "86 degF", oxygen_share = "70 %" }, outcome = "flagged" },
    { "cool", site = { altitude = "0 ft" }, basin = { purpose = "fish", warmest = "68 degF", oxygen_share = "70 %" },
      outcome = "clear" },
    { "at the limit", basin = { purpose = "fish", oxygen_warm = "5 mg/L" }, outcome = "clear" },
  },
}

rule "ice-depth" {
  title = "Fish have 18 in of water under the thickest ice",
  for_each = "basin", when = { purpose = "fish" },
  stage = "layout", severity = "advise",
  judges = "depth_under_ice", at_least = "18 in",
  why = [[The winter that people talk about takes its ice off the depth on the drawing, and the
    gravel has taken some already. What is left under it is all the water the fish have until
    March. Ask what the local ponds have carried; a formula does not know the place.]],
  source = "common practice, no source",
  caution = "No thickness in this report says that ice carries anybody. Keep off it.",
  fix = { raise = "depth", by = "1 in", to_no_more_than = "60 in" },
  examples = {
    { "a hard place", site = { ice = "16 in" }, basin = { purpose = "fish", depth = "30 in", gravel_bed = "0 in" },
      outcome = "flagged" },
    { "mild", basin = { purpose = "fish", depth_under_ice = "28 in" }, outcome = "clear" },
    { "at the limit", basin = { purpose = "fish", depth_under_ice = "18 in" }, outcome = "clear" },
  },
}

rule "chlorine-at-fill" {
  title = "Chlorine in the fill water is taken out before fish go in",
  for_each = "basin", when = { purpose = "fish", disinfectant = { one_of = { "chlorine", "chloramine" } } },
  stage = "water-up", severity = "advise",
  judges = "neutraliser", is = "stated",
  why = [[Town water is dosed so that nothing lives in it, and that takes in fish and whatever grows
    in the filter. One filling wants a weighed dose; the takeoff gives it for the water that the basin
    holds. A fill valve that runs for a day brings the same chlorine again, a little at a time.]],
  source = [[dose: AWWA, Disinfection of Pipelines and Storage Facilities Field Guide, Table 7-2 (seen); the
    rule itself: common practice, no source]],
  caution = "Read the label of what you dose, and test the water before fish go in.",
  fix = { advise = [[Write into the contract who doses the first filling and with what, then neutraliser =
    "stated".]] },
  examples = {
    { "nobody thought of it", basin = { purpose = "fish", disinfectant = "chlorine", neutraliser = "none" },
      outcome = "flagged" },
    { "in the contract", basin = { purpose = "fish", disinfectant = "chloramine", neutraliser = "stated" },
      outcome = "clear" },
    { "well water", basin = { purpose = "fish", disinfectant = "none" }, outcome = "not applicable" },
  },
}

rule "chlorine-at-fill-ammonia" {
  title = "The ammonia of chloramine is bound",
  for_each = "basin", when = { purpose = "fish", disinfectant = "chloramine" },
  stage = "water-up", severity = "advise",
  judges = "ammonia_binder", is = "stated",
  why = [[Chloramine is chlorine tied to ammonia. The usual dose breaks the tie and takes the chlorine; the
    ammonia stays, and burns gills at a fraction of a milligram in a litre. A new filter does not eat it
    for weeks.]],
  source = "common practice, no source",
  fix = { advise = "Choose a conditioner that binds ammonia too, and keep fish out until a test reads none." },
  examples = {
    { "left over", basin = { purpose = "fish", disinfectant = "chloramine", ammonia_binder = "none" },
      outcome = "flagged" },
    { "bound", basin = { purpose = "fish", disinfectant = "chloramine", ammonia_binder = "stated" },
      outcome = "clear" },
  },
}

rule "mosquito" {
  title = "No water stands for more than a day while the pumps run",
  for_each = "basin", when = { purpose = { one_of = { "plunge", "display", "bowl", "hollow" } } },
  stage = "water-up", severity = "advise",
  judges = "turnover", at_most = "24 h",
  why = [[Mosquitoes want a week of still water. A bowl off the main path, or one so large that the flow
    gets lost in it, gives them that in a corner. Where fish live they clean up; elsewhere the water has
    to move.]],
  source = "common practice, no source",
  fix = { advise = "Lead part of the flow through it, or keep it empty when the pumps rest for the season." },
  examples = {
    { "hardly moves", basin = { purpose = "display", net_volume = "1,500 gal", flow_drawn = "50 gal/h" },
      outcome = "flagged" },
    { "passes in two hours", basin = { purpose = "bowl", turnover = "2 h" }, outcome = "clear" },
    { "at the limit", basin = { purpose = "bowl", turnover = "24 h" }, outcome = "clear" },
  },
}

rule "leaf-basket" {
  title = "The basket holds three days of leaf fall",
  for_each = "intake", when = { type = "skimming" },
  stage = "plumbing", severity = "advise",
  judges = "leaf_days", at_least = "3 day",
  why = [[In the weeks of leaf fall most of a year's leaves come at once, and a skimmer gathers them. A full
    basket starves the pump, and nobody empties it on a Saturday. What the wind brings from next door
    comes on top.]],
  source = [[litter of 0.06 to 0.23 lb/ft2 a year, dry (Ecological Complexity, 2014, second hand); share at leaf
    fall and looseness: common practice, no source]],
  fix = { advise = "Take an intake with a larger basket, or net the water for the weeks of leaf fall." },
  examples = {
    { "a cup", intake = { type = "skimming", basket = "1 gal", leaves_per_day = "0.5 gal" }, outcome = "flagged" },
    { "a bucket", intake = { type = "skimming", leaf_days = "6 day" }, outcome = "clear" },
    { "at the limit", intake = { type = "skimming", leaf_days = "3 day" }, outcome = "clear" },
  },
}

rule "planting-over-liner" {
  title = "A planted pocket keeps its soil under its rim and its roots inside",
  for_each = "planting", stage = "liner", severity = "advise",
  limit = { most = "0 in" },
  check = function(planting, limit)
    return at_most(planting.soil_over_rim, limit.most) or is(planting.root_barrier, "fitted")
  end,
  why = [[Soil heaped over the pocket's rim is a wick: it draws the water out over the liner day and night, and
    it looks like a leak that nobody finds. Roots look for the laps, and bamboo and reeds go through sheet.]],
  source = "common practice, no source",
  fix = { advise = "Bring the soil down under the rim, and line the pocket with a root barrier." },
  examples = {
    { "heaped", planting = { soil_over_rim = "1 in", root_barrier = "fitted" }, outcome = "flagged" },
    { "no barrier", planting = { soil_over_rim = "-2 in", root_barrier = "none" }, outcome = "flagged" },
    { "under it", planting = { soil_over_rim = "-2 in", root_barrier = "fitted" }, outcome = "clear" },
    { "at the limit", planting = { soil_over_rim = "0 in", root_barrier = "fitted" }, outcome = "clear" },
  },
}
