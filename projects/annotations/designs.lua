---@meta
-- SPDX-License-Identifier: MIT
-- Written by `make annotations` from the catalogue; changes here are lost.

---@class design.outline

---one full width
---@param points string|table
---@return design.outline
function circle(points) end

---two full widths
---@param points string|table
---@return design.outline
function ellipse(points) end

---two full widths
---@param points string|table
---@return design.outline
function rectangle(points) end

---three or more points
---@param points string|table
---@return design.outline
function polygon(points) end

---the job as a whole
---@class (exact) design.project
---@field name string name of the job
---@field units "us"|"si" how results print
---@field fixed_point? string what the heights start from
---@field closing_error? string difference after carrying the levels round and back
---@field nights_open? string|number nights the pit stays open
---@field pit_watch? string barrier and inspection while the pit is open
---@field dig_days? string|number days planned for the digging
---@field leak_test? "planned"|"passed"|"none" leak test
---@field hand_over? "planned"|"none" hand-over sheet for the owner
---@field permit? "asked"|"not asked" whether the authority was asked about permits
---@field order_stated? "stated"|"none" order of the work
---@field measured? table<string, string|number>
---@param givens design.project
function project(givens) end

---the ground, the gate and what is under it
---@class (exact) design.site
---@field soil? "stable rock"|"type A"|"type B"|"type C" soil class; without it type C
---@field ground? string finished ground; without it 0 in
---@field gate_width? string narrowest way in, across
---@field gate_height? string narrowest way in, height
---@field utilities? "located"|"not located" public lines under the ground
---@field private_lines? "located"|"none"|"unknown" the owner's own lines under the ground
---@field barrier_depth? string water depth from which the local code asks a barrier
---@field test_hole? string depth of the test hole
---@field debris? "none"|"found"|"dealt with" what the test hole found
---@field storm? design.storm|design.storm[] the storm the design must stand
---@field runoff_area? string area that drains into the basin; without it 0 ft2
---@field swell? string|number how much the soil grows when dug; without it 25 %
---@field shrink? string|number how much the soil shrinks from the ground to compacted fill
---@field truck_volume? string what one truck holds, loose
---@field truck_limit? string what one truck may carry
---@field haul_cycle? string time of one truck there and back
---@field gravel_size? string size of the clean gravel
---@field ground_water? string depth of ground water under the ground
---@field permeability? string how fast water moves in the soil
---@field frost_depth? string depth to which it freezes
---@field frost? "none"|"drained"|"running" what is done in frost
---@field undisturbed? "yes"|"no" soil undisturbed, not fissured, no traffic that shakes it
---@field survey? string file of surveyed points beside the design: point, northing, easting, elevation, description
---@field ground_slope? string slope of the ground, where it is a plane: it falls along +y of the outlines, from the height `ground` at their origin
---@field line_voltage? string voltage of the overhead line
---@field line_distance? string level distance from the work to the overhead line
---@field footing_distance? string edge of the nearest footing to the edge of the pit's bottom
---@field footing_depth? string depth of that footing under the ground
---@field haul_over? "lawn"|"paving"|"septic"|"slab"|"mats" what the haul route lies over
---@field pan_evaporation? string evaporation from a pan in the dry month
---@field altitude? string height of the place over the sea
---@field ice? string thickest ice that still water there has carried, by local record
---@field measured? table<string, string|number>
---@param givens design.site
function site(givens) end

---anything that holds water: a pool, a bowl, a hollowed stone
---@class (exact) design.basin
---@field purpose "plunge"|"fish"|"display"|"bowl"|"hollow" what it is for
---@field outline design.outline outline at the rim, inner face, from above
---@field depth string greatest depth from still water to the membrane
---@field water_level? string still water level
---@field rim? string lowest point of the rim
---@field rim_profile? design.rim_level|design.rim_level[] levels taken along the rim
---@field side_slope? string slope of the sides, inward; without it upright
---@field shelves? design.shelf|design.shelf[] steps in the sides
---@field gravel_bed? string gravel on the bottom; without it 0 in
---@field voids? string|number share of the gravel that is water; without it 40 %
---@field reach? "fenced"|"adults"|"children"|"public" who can get to the edge
---@field entered? "yes"|"no" whether people get in
---@field barrier? "stated"|"none" barrier around the water
---@field treatment? "stated"|"none" treatment of the water
---@field in_stone? string the stone it is hollowed from
---@field ring? design.ring_stretch|design.ring_stretch[] gravel ring along the rim
---@field fill_flow? string flow of the fill line
---@field fill_gap? string air between the fill outlet and the rim
---@field fill_bore? string bore of the fill outlet
---@field fill_device? "fitted"|"none" device against backflow
---@field overflow_to? "drain"|"lined ring"|"open ground"|"building" where the overflow goes
---@field overflow_bore? string bore of the overflow's entrance
---@field overflow_at? string height at which the overflow begins
---@field leak? string level lost in the leak test beyond the pan
---@field disinfectant? "none"|"chlorine"|"chloramine" what the fill water carries
---@field disinfectant_level? string how much of it
---@field warmest? string warmest water of the year
---@field oxygen_share? string|number share of the oxygen it could hold that is left at dawn; without it 70 %
---@field neutraliser? "stated"|"none" what takes the chlorine out when it is filled
---@field ammonia_binder? "stated"|"none" what binds the ammonia that chloramine sets free
---@field drain_at? string height down to which it drains for the winter
---@field wet_wanted? string|number share of the rim that shall run wet
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.basin)
function basin(name) end

---a lip over which water falls
---@class (exact) design.spill
---@field from string the basin it leaves
---@field into string where it falls
---@field crest string lowest point of the lip
---@field lip "thin edge"|"broad stone"|"rounded"|"notch"|"V" shape of the lip
---@field lip_width string width of the lip across the flow
---@field lip_depth? string depth of the notch
---@field breadth? string length of the lip along the flow
---@field effect? "sheet"|"single stream"|"cascade"|"trickle" how the water should look
---@field drip_edge? "none"|"edge"|"undercut" what makes the water let go of the stone; without it none
---@field fill_under? string fill under the lip's lower end
---@field fill_other? string fill under the lip's higher end
---@field liner_behind? string liner over the crest, behind the lip
---@field blocked? string|number share of the lip that is blocked; without it 0 %
---@field setback? string lip back from the catching rim; minus: out over it
---@field out_of_level? string one end of the lip over the other, at most
---@field target? string flow wanted
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.spill)
function spill(name) end

---a reach of stream between two basins
---@class (exact) design.channel
---@field from? string where it begins; left out where a spill falls into its head
---@field into string where it ends
---@field start string bed at the upper end
---@field length string length along the bed
---@field width string width of the bed
---@field fall string fall from end to end
---@field roughness? string|number Manning's n; without it 0.05
---@field edge? string liner edge over the bed
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.channel)
function channel(name) end

---where the pumps take water out of a basin
---@class (exact) design.intake
---@field basin string the basin it takes from
---@field type "skimming"|"submerged"|"sump" how it takes water
---@field openings? string|number suction openings
---@field cover? "guarded"|"unblockable"|"plain" what covers the opening
---@field second_safeguard? "fitted"|"none" a second outlet at least 3 ft off, a vent, gravity tank or vacuum release
---@field load_rating? string load that its cover carries
---@field load_over? string stone and gravel that lie on its cover
---@field reach_in? string reach from dry footing to it
---@field basket? string what its basket holds
---@field cover_depth? string still water over its opening
---@field bore? string bore of its opening
---@field open_area? string open area of the face
---@field least_flow? string least flow it works at
---@field greatest_flow? string greatest flow it is rated for
---@field lowest_level? string water level down to which it works
---@field from_landing? string distance to where falling water lands
---@field clear_of_landing? string distance that the firm keeps from there; 0: it has no figure; without it 0 in
---@field hidden_by? string|string[] stones that hide it
---@field gap_width? string width of the gap between the hiding stones
---@field gap_depth? string water depth in that gap
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.intake)
function intake(name) end

---a pump with its curve
---@class (exact) design.pump
---@field from string where it takes water
---@field type "submersible"|"dry" where it stands
---@field curve design.curve_point|design.curve_point[] points of its curve
---@field speed? string|number speed, of full speed; without it 100 %
---@field suction_length? string length of the suction line of a dry pump
---@field suction_size? string nominal size of the suction line of a dry pump
---@field suction_fittings? design.fitting|design.fitting[] fittings in the suction line
---@field best_flow? string flow of its best efficiency
---@field power? string power it draws
---@field starting_current? string current when it starts
---@field on_share? string|number share of the year that it runs; without it 100 %
---@field runs_dry? "yes"|"no" made to run without water
---@field running_current? string current when it runs
---@field low_water_cutoff? "fitted"|"none" switch that stops it at low water
---@field cord? string cord in the water
---@field metal? "yes"|"no" metal parts in the water
---@field reach_in? string reach from dry footing to it
---@field model? string model in the firm's list
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.pump)
function pump(name) end

---where pipes meet
---@class (exact) design.junction
---@field at string height of the joint
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.junction)
function junction(name) end

---one run of pipe with its fittings and valve
---@class (exact) design.pipe
---@field from string where it begins
---@field to string where it ends
---@field size string nominal size
---@field material? "PVC schedule 40"|"smooth hose"|"corrugated hose"|"HDPE" what it is made of; without it PVC schedule 40
---@field length string length of the run
---@field fittings? design.fitting|design.fitting[] fittings in the run
---@field valve? "none"|"ball"|"gate"|"globe" valve in the run; without it none
---@field valve_open? string|number how far the valve is open; without it 100 %
---@field check_valve? "fitted"|"none" valve that stops return flow; without it none
---@field filter? string filter in the run
---@field cover_depth? string soil over it
---@field water_test? "planned"|"none" water test before it is covered
---@field vent_hole? "fitted"|"none" hole that breaks a siphon; without it none
---@field outlet? "above water"|"drowned" whether the end is under water
---@field outlet_at? string height of the end
---@field target? string flow wanted through it
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.pipe)
function pipe(name) end

---one jet, or a set of like jets
---@class (exact) design.jet
---@field basin string the basin it plays in
---@field at string height of the nozzle
---@field orifice string bore of the nozzle
---@field count? string|number how many like jets; without it 1
---@field to_edge? string distance to the nearest edge
---@field wind? "open"|"sheltered" whether wind gets at it; without it open
---@field orifice_coefficient? string|number share of the ideal flow its nozzle passes; without it 0.97
---@field target? string flow wanted through all of them
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.jet)
function jet(name) end

---one set stone
---@class (exact) design.boulder
---@field length string longest side of its box, lying
---@field width string other side of its box
---@field height string height of its box as set, foot included
---@field stone? "granite"|"basalt"|"limestone"|"sandstone"|"marble"|"unknown" sort of stone; without it unknown
---@field density? string density, when it is known
---@field shape? "sawn"|"squared"|"blocky"|"rounded"|"unknown" how much of its box it fills; without it unknown
---@field pose? "lying"|"upright"|"pillar" how it is set; without it lying
---@field embedment? string how deep its foot is set
---@field seat_width? string width of its seat, in the way it could tip
---@field seat_slope? string slope of its seat
---@field lean? string lean from upright, toward the fall
---@field shelf_edge? string its foot to the edge of the shelf
---@field shelf_drop? string drop at that edge
---@field membrane? "smooth"|"textured"|"rubber" sort of liner under it; without it smooth
---@field bore? string hole drilled through it; without it 0 in
---@field bore_wall? string stone left beside the hole
---@field people_reach? "yes"|"no" people can get at it once the job is done
---@field machine_beside? "yes"|"no" a machine works beside it while it is backfilled
---@field ground? string ground around it
---@field beside? string the basin it stands beside
---@field stands_in? string the basin it stands in, taking water's place
---@field stands_on? "gravel"|"soil"|"underlay on liner"|"stone" what it stands on
---@field underlay? "none"|"one side"|"both sides" cushion where it meets the liner
---@field gravel_behind? string gravel between it and the bank
---@field gravel_height? string height of that gravel
---@field water_beside? string depth of water it stands in; without it 0 in
---@field pad? string compacted gravel under its seat, wider than the seat by half of that all round; without it 0 in
---@field climbable? "yes"|"no" people can stand on its front edge
---@field falls_away? "yes"|"no" the ground before it falls away; without it yes
---@field hands? string|number people who lift it by hand; 0: nobody does; without it 0
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.boulder)
function boulder(name) end

---a machine that digs and lifts
---@class (exact) design.machine
---@field width string width over its tracks
---@field height? string height when travelling
---@field weight? string weight
---@field lifts? design.lift|design.lift[] rows of its lifting chart
---@field chart? "rated"|"tipping" what its chart gives
---@field track_length? string length of track on the ground
---@field track_width? string width of one track
---@field from_edge? string tracks to the edge of the pit
---@field greatest_reach? string reach with the boom out
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.machine)
function machine(name) end

---the excavation for one basin or wall
---@class (exact) design.dig
---@field of string what it is dug for
---@field beyond? string room around it at the bottom; without it 12 in
---@field below? string room under it; without it 6 in
---@field slope? string slope of the sides
---@field protection? "none"|"sloped"|"shored" what keeps the sides from falling
---@field examined? "yes"|"no" a competent person saw no sign of cave-in
---@field way_out? string longest walk to a ladder, ramp or stair
---@field spoil_setback? string edge to the toe of the pile
---@field benches? design.bench|design.bench[] steps cut into its sides
---@field staged_from_edge? string staged stone to the edge
---@field sump_flow? string flow of the sump pump
---@field engineer? "stated"|"none" an engineer designed its protection
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.dig)
function dig(name) end

---the membrane under one basin
---@class (exact) design.liner
---@field of string the basin it lines
---@field edge? string lowest point of its top edge
---@field underlay? "none"|"one side"|"both sides" cushion under and over it
---@field length? string length of the piece
---@field width? string width of the piece
---@field over_edge? string liner past the rim on each side; without it 12 in
---@field lap? string lap over the next piece
---@field weight? string weight of the sheet; without it 0.29 lb/ft2
---@field underdrain? "fitted"|"none" drain under it
---@field pieces? string|number pieces that it is laid in; without it 1
---@field on_fill? "yes"|"no" whether its edge lies on filled ground; without it yes
---@field lap_top? string top of its lap over the next piece
---@field lap_with_flow? "yes"|"no" whether the upper piece laps over the lower one, as water flows
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.liner)
function liner(name) end

---a low block wall
---@class (exact) design.wall
---@field beside? string the basin it stands beside
---@field length string length
---@field footing_to_top string bottom of the footing to the top
---@field thickness string thickness
---@field embedment? string lowest course below ground
---@field base_pad? string compacted base under it
---@field drain? "fitted"|"none" drain or weeps behind it
---@field above? "level"|"slope"|"paving"|"boulder" what is above and behind it
---@field density? string density of wall and fill in it; without it 125 lb/ft3
---@field surcharge? string load on the ground behind; without it 0 psf
---@field toe_slope? string slope of the ground in front
---@field drop_below? string top of the wall to the bed in front
---@field top_thickness? string thickness at the top, where its front slopes back
---@field fill_density? string density of the ground behind, moist; without it 120 lb/ft3
---@field fill_friction? string friction angle of the ground behind, when it is known
---@field base_friction? string|number friction under its base, when it is known
---@field back_slope? string slope of the ground behind, rising away
---@field holds? string the stone that stands on the ground behind
---@field liner_under? "yes"|"no" liner under its base or between its courses
---@field guard? "fitted"|"none" guard at its top
---@field temporary_barrier? "stated"|"none" barrier along it while the basin is empty
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.wall)
function wall(name) end

---cap stones on a wall or a rim
---@class (exact) design.coping
---@field on string what it lies on
---@field length string length of one piece
---@field depth string front to back
---@field thickness string thickness
---@field overhang string how far it stands out over its support
---@field stone? "granite"|"basalt"|"limestone"|"sandstone"|"marble"|"unknown" sort of stone; without it unknown
---@field anchored? "yes"|"no" anchored to its support
---@field pull_test? "stated"|"none" design and pull test of the anchors
---@field strength? string bending strength of the stone, as tested
---@field set_by? "machine"|"hand" how it is lifted
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.coping)
function coping(name) end

---one electrical circuit
---@class (exact) design.circuit
---@field volts string voltage
---@field breaker? string breaker
---@field wire? string wire
---@field run? string length one way
---@field feeds string|string[] what it feeds
---@field gfci? "fitted"|"none" ground-fault protection
---@field bonding? "stated"|"none" bonding of metal parts
---@field disconnect_distance? string water's edge to the disconnect
---@field disconnect_seen? "yes"|"no" the disconnect is in sight of the pump
---@field cover_depth? string soil over the cable
---@field cable? "direct cable"|"PVC conduit"|"metal conduit"|"GFCI branch"|"low voltage" what the buried cable is
---@field overhead_clear? string height of a wire over the water
---@field barrier? "stated"|"none" permanent barrier before a near disconnect
---@field pump_off_to_enter? "stated"|"none" pumps are switched off before anyone gets in
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.circuit)
function circuit(name) end

---a point whose height is known
---@class (exact) design.benchmark
---@field level string its height
---@field error? string how far it may be off
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.benchmark)
function benchmark(name) end

---a filter in a pipe run
---@class (exact) design.filter
---@field rated_flow? string flow it is rated for
---@field clean_loss? string head lost at the rated flow when clean
---@field dirty_loss? string head lost at the rated flow when dirty
---@field reach_in? string reach from dry footing to it
---@field lid? string weight of its lid
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.filter)
function filter(name) end

---a sling with its tag
---@class (exact) design.sling
---@field rated string what its tag gives, straight up
---@field tag? "yes"|"no" its tag is there and can be read
---@field edge_guard? "fitted"|"none" guards on sharp edges
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.sling)
function sling(name) end

---one lift of one thing
---@class (exact) design.pick
---@field of string what is lifted
---@field machine string the machine that lifts
---@field sling string the sling
---@field legs string|number legs of the sling
---@field hitch "vertical"|"choker"|"basket" how it is slung
---@field leg_angle? string leg from level
---@field choke_angle? string angle between the two parts at the choke; 180 deg hangs straight; without it 0 deg
---@field reach string centre of the machine to the hook, the farthest on the way
---@field rigging? string weight of sling, shackles and hook; without it 60 lb
---@field carried? "yes"|"no" the machine travels with it
---@field people_clear? "stated"|"none" nobody in the path or where it could fall
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.pick)
function pick(name) end

---paving beside the water
---@class (exact) design.paving
---@field beside? string what it borders
---@field area? string its area
---@field base? string compacted base
---@field thickness? string thickness of the stone
---@field clear_width? string narrowest clear width
---@field drop? string walking edge to the bed below
---@field edge_distance? string walking surface to that edge; without it 0 in
---@field step? string greatest step between pieces
---@field guard? "fitted"|"none" guard at the edge
---@field temporary_barrier? "stated"|"none" barrier while the basin is empty
---@field surface? "natural"|"sawn"|"polished"|"sealed" its surface
---@field wet_friction? string|number wet friction, as tested
---@field wet_zone? "yes"|"no" water reaches it
---@field falls_to? "basin"|"away"|"house" where it drains
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.paving)
function paving(name) end

---a planted pocket
---@class (exact) design.planting
---@field basin string the basin it grows in or beside
---@field area string planted area
---@field soil_depth? string depth of soil
---@field soil_over_rim? string soil over the pocket's rim; minus: under it
---@field root_barrier? "fitted"|"none" root barrier
---@field plants? string|number plants
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.planting)
function planting(name) end

---a tree whose roots reach the work
---@class (exact) design.tree
---@field trunk string trunk across, at breast height
---@field distance string trunk to the edge of the pit
---@field cut_width? string length of pit edge that cuts its root circle, when known
---@field specialist? "stated"|"none" a tree specialist was asked
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.tree)
function tree(name) end

---a light in or beside the water
---@class (exact) design.light
---@field basin? string the basin it lights
---@field volts string voltage
---@field power string power of one
---@field count? string|number how many like lights; without it 1
---@field run? string length of cable one way
---@field on_share? string|number share of the year that it is on; without it 100 %
---@field wire? string wire
---@field reach_in? string reach from dry footing to it
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.light)
function light(name) end

---the fish of one basin
---@class (exact) design.fish
---@field basin string the basin they live in
---@field sort "goldfish"|"koi" sort of fish
---@field count string|number how many
---@field length string length of each, grown
---@field measured? table<string, string|number>
---@param name string
---@return fun(givens: design.fish)
function fish(name) end

---the people, their places and their rates
---@class (exact) design.crew
---@field people? string|number people on the job
---@field days? string|number days planned
---@field stones_per_day? string|number stones set in a day
---@field soil_per_day? string soil dug in a day
---@field wall_per_day? string feet of wall laid in a day
---@field paving_per_day? string paving laid in a day
---@field cutting? "wet"|"dry"|"none" how stone is cut
---@field silica_row? string row of Table 1 that the cutting follows
---@field fall_zone_kept? "stated"|"none" nobody stands where a stone could fall
---@field measured? table<string, string|number>
---@param givens design.crew
function crew(givens) end

---what the firm pays
---@class (exact) design.prices
---@field gravel? string a ton of gravel
---@field haul? string one truckload hauled
---@field stone? string a ton of stone
---@field liner? string a square foot of liner
---@field crew_day? string a day of the crew
---@field energy? string a kilowatt-hour
---@field underlay? string a square foot of underlay
---@field wall? string a square foot of wall face in block
---@field coping? string one cap stone
---@field paving? string a square foot of paving stone
---@field base? string a ton of base stone
---@field plant? string one plant
---@field measured? table<string, string|number>
---@param givens design.prices
function prices(givens) end

---a finding that stands by decision
---@class (exact) design.accept
---@field rule string the rule whose finding stands
---@field on? string what it was found on; left out where there is one alone, like the site
---@field because string who decided, and why
---@field at? string the value that was accepted; anything worse comes back
---@field up_to? "layout"|"dig"|"liner"|"stone"|"plumbing"|"power"|"finish"|"water-up" the last stage for which it is accepted
---@field measured? table<string, string|number>
---@param givens design.accept
function accept(givens) end

---a point of an outline
---@class (exact) design.point
---@field x string across
---@field y string along
---@field [integer] string|number

---a step in a basin's side
---@class (exact) design.shelf
---@field depth string below still water
---@field width string how far it steps inward
---@field [integer] string|number

---a level taken along a rim
---@class (exact) design.rim_level
---@field at string distance along the rim
---@field level string height of the rim there
---@field [integer] string|number

---a stretch of gravel ring along a rim
---@class (exact) design.ring_stretch
---@field starts string where it begins along the rim
---@field ends string where it ends along the rim
---@field width string width
---@field depth string depth of its gravel
---@field lined "yes"|"no" whether liner runs under it
---@field fall? string fall of its bed to where it drains; without it 0 in
---@field path? string longest way of water in it to where it drains
---@field returns_to string the basin it drains to
---@field [integer] string|number

---a point of a pump's curve
---@class (exact) design.curve_point
---@field flow string flow
---@field head string head at that flow
---@field [integer] string|number

---a fitting in a pipe
---@class (exact) design.fitting
---@field type "elbow 90"|"elbow 45"|"sweep 90"|"tee run"|"tee branch"|"union" sort of fitting
---@field count? string|number how many; without it 1
---@field [integer] string|number

---a row of a machine's lifting chart
---@class (exact) design.lift
---@field reach string reach
---@field rated string rated at that reach
---@field deducted string still to take off the chart
---@field [integer] string|number

---the storm that a design must stand
---@class (exact) design.storm
---@field depth string rain that falls
---@field lasts string how long it lasts
---@field returns? string how often it comes back
---@field [integer] string|number

---a step cut into the side of a pit
---@class (exact) design.bench
---@field up string height over the bottom, or over the bench below
---@field width string width
---@field [integer] string|number

---a load that stands on the ground near an edge
---@class (exact) design.section_load
---@field distance string distance from the edge
---@field load string what it weighs
---@field [integer] string|number
