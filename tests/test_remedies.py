"""The builder who follows a remedy to the letter: the number that is told, written as it is printed, settles the matter.

What a sentence says of a value and its limit never reads as one number either.
"""

import re
import textwrap

import pytest

from buildlint import fix, road
from buildlint.load import load
from buildlint.model import DECISION, FAIL, Edit, Finding, Mapping, Scalar
from buildlint.quantities import Amount, QuantityError, in_unit, q, read, show
from buildlint.unit_factors import FACTORS

RULES = {rule.id: rule for rule in road.rules()}
NUMBER = r"(-?[0-9][0-9.]*(?:/[0-9]+)?(?: ?(?:[a-zA-Z%][^ ,;:)]*|:1))?)"

# Rule | the words of its remedy round the number told | what it says to do: write it (=), add it (+), take it off (-),
# add half of it (/), and to what. Several ways are parted by semicolons, what the sentence is about is one of them; what has to be
# done together stands between & signs.
TOLD = """
rev-limit-respects-weakest-part | Set the limiter to {}, | = build.rev_limit
redline-matches-limiter | Mark the red at {}, | = build.redline
redline-matches-limiter | or set the limiter to {}. | = build.rev_limit
overspeed-stays-within-limits | Set the limiter to {} or below | = build.rev_limit
piston-alloy-suits-induction | stay at or below {}. | = boost.pressure; = nitrous.power
residual-unbalance-is-small | Balance again to {} or less | = balance.residual_per_plane
main-clearance-suits-journal | Aim for {}: | = bearings.main.clearance
rod-clearance-suits-journal | Aim for {}: | = bearings.rod.clearance
bearing-stays-free-when-cold | Set it {} wider | + bearings.main.clearance
bearing-stays-free-when-cold | do not start below {} without | = build.ambient_coldest
hot-bearing-clearance-stays-bounded | Set it {} tighter | - bearings.main.clearance
crank-class-suits-power | plan for {}. | = build.peak_power; = build.rev_limit
rod-class-suits-power | plan for {}. | = build.peak_power; = build.rev_limit
piston-class-suits-power | plan for {}. | = build.peak_power
cylinder-wall-keeps-thickness | Bore less by {}, | - block.bore
bore-web-keeps-width | Keep the bore at {} or less | = block.bore
piston-stays-near-the-deck | a compression height of {} would | = pistons.compression_height
oil-ring-stays-in-bore | sit higher, by {}. | - rings.oil.crown_to_groove_bottom
piston-clears-the-head | a gasket thicker by {}, | + head_gasket.compressed_thickness
quench-gap-is-close | thinner by {}, | - head_gasket.compressed_thickness
piston-speed-suits-parts | Lower the rev limit to {}, | = build.rev_limit
piston-acceleration-suits-parts | Lower the rev limit to {} or | = build.rev_limit
bearing-chamfer-clears-fillet | at least {} at the fillet | = bearings.rod.chamfer
oil-pumps-at-coldest-start | do not start colder than {}. | = build.ambient_coldest
piston-jets-have-oil-supply | open at {} or more | = oiling.jets.opening_pressure
oil-pickup-clears-the-pan | Set the pickup {} higher | + oiling.pickup.to_floor
oil-pickup-clears-the-pan | Set the pickup {} lower | - oiling.pickup.to_floor
oil-pan-clears-the-stroke | made for a stroke of {}, | = oiling.pan.made_for_stroke
windage-tray-clears-the-crank | dent it {} away | + crank.pan_gap; + rods.pan_gap
oil-relief-allows-needed-pressure | relief spring for {}; | = oiling.relief_pressure
scavenge-outpumps-pressure-stage | wider gears: {} of scavenge | = oiling.pump.scavenge_flow
oil-ring-tension-suits-vacuum | Order a ring of {} or more | = rings.oil.tension
crankcase-vacuum-keeps-pins-oiled | Limit the vacuum to {} with | = accessories.crankcase_vacuum
floating-pin-fits-its-bores | pin bores {} larger | + pistons.pin.clearance_in_piston
floating-pin-fits-its-bores | Hone the bush {} larger | + pistons.pin.clearance_in_rod
pin-wall-suits-power | with a wall of {}; | = pistons.pin.wall
piston-clearance-suits-alloy | Hone the bore {} larger | + pistons.wall_clearance
piston-clearance-suits-alloy | Order pistons for {}, | = pistons.nominal_bore
piston-stays-free-when-hot | else hone {} larger | + pistons.wall_clearance
top-ring-gap-suits-duty | File it to {}: | = rings.top.end_gap
top-ring-gap-suits-duty | : {} more, square | + rings.top.end_gap
second-ring-gap-suits-duty | File it to {}, | = rings.second.end_gap
second-ring-gap-suits-duty | , {} more, unless | + rings.second.end_gap
second-ring-gap-exceeds-top | second ring to {}, | = rings.second.end_gap
oil-rail-gap-is-wide-enough | File the rails to {}, | = rings.oil.end_gap
ring-gap-stays-open-hot | Open the gap by {}, | + rings.top.end_gap
top-ring-sits-low-enough | at least {} down | = rings.top.crown_to_groove
rod-side-clearance-is-set | amount, {} in all | + rods.side_clearance
small-end-fits-pin-bosses | or rods of {} at | = rods.small_end_width
rod-joint-stays-closed | stay below {}. | = build.rev_limit
shell-undersize-matches-journal-grind | shells of {} undersize | = bearings.main.undersize
rod-shell-undersize-matches-grind | shells of {} undersize | = bearings.rod.undersize
rods-clear-the-cam | or grind {} off | + rods.cam_gap & + rods.bolt_cam_gap
rods-clear-the-block | pan rail {} away | + rods.block_gap
counterweights-clear-skirts-and-block | counterweights {} smaller | + crank.skirt_gap; - crank.counterweight_radius
counterweights-clear-skirts-and-block | grind the block {}; | + crank.block_gap
thrust-bearing-carries-release-force | releases at {} or less | = driveline.clutch.release_load
thrust-is-free-after-fitting | thickness, {} or a little | - driveline.converter.pull_forward
crevice-volume-is-small | A land {} in diameter | = pistons.top_land_diameter
trapped-ratio-suits-fuel | larger by {}, | + heads.chamber_volume; + pistons.dish_volume
stated-ratio-matches-parts | a chamber of {} or | = heads.chamber_volume
stated-ratio-matches-parts | a chamber of {} would | = heads.chamber_volume
stated-ratio-matches-parts | gasket of {} compressed | = head_gasket.compressed_thickness
clearance-volume-is-positive | a chamber of {} to | = heads.chamber_volume
clearance-volume-is-positive | to {} would fit | = heads.chamber_volume
break-in-oil-protects-flat-tappets | oil of {} zinc or more | = oiling.break_in.zinc; = oiling.break_in.zinc
break-in-spring-load-is-light | , under {} open | = camshaft.break_in_open_load
cam-bearing-clearance-is-set | ream to {}, | = bearings.cam.clearance
cam-end-play-is-set | , to {} to | = camshaft.end_play; = camshaft.button_clearance
cam-end-play-is-set | in to {}. | = camshaft.end_play; = camshaft.button_clearance
rear-cam-plug-clears-the-cam | the plug {} deeper | + camshaft.rear_plug_gap
lobe-ramp-suits-the-lifter | to at least {}, | = SIDE.spring.seat_load
bronze-gear-has-inspection-plan | Look at it after {} at the latest | = ignition.distributor.gear_inspection_after
cam-lobes-pass-the-bearings | at most {}, | = camshaft.base_circle_diameter
lobe-contact-stress-is-bounded | Stay under {} open | = SIDE.spring.open_load
installed-centerline-matches-card | Advance the cam by {} of | - timing_set.installed_centerline
timing-cover-clears-the-drive | block by {}, | + timing_set.cover_gap
valve-follows-lobe-to-limiter | Set the limiter to {}, | = build.rev_limit
valve-follows-lobe-to-limiter | set the limiter to {}. | = build.rev_limit
valve-follows-lobe-to-limiter | or take {} off at the valve | - SIDE.valve.mass
lash-agrees-with-card | Close it by {}, | - SIDE.lash_hot
cold-lash-follows-from-hot | Set {} cold | = SIDE.lash_cold
lifter-type-suits-limiter | Set the limiter to {}, | = build.rev_limit
hot-oil-suits-hydraulic-lifters | Cool the oil to {} or below | = oiling.temperature_highest
flat-lifter-foot-spans-lobe | foot of at least {}, | = lifters.foot_diameter
roller-follows-concave-flank | wheel of at most {}, | = lifters.foot_diameter
cam-core-carries-open-load | stay under {} open | = SIDE.spring.open_load
piston-clears-the-valve | deeper by {}, | + SIDE.piston_gap; + SIDE.pocket.depth; + head_gasket.compressed_thickness
piston-clears-mistimed-valve | deeper by {}, | + SIDE.piston_gap
piston-clears-pumped-lifter | preload to {} or less | = lifters.preload
piston-clears-pumped-lifter | pocket deeper by {}. | + SIDE.piston_gap
preload-survives-warm-up | longer by {} or more | + lifters.preload
preload-survives-warm-up | Take {} out of | - lifters.preload
distributor-clears-the-pump-drive | up by {}, | + ignition.distributor.pump_drive_gap
distributor-shaft-has-end-play | about {}, | = ignition.distributor.end_play
pushrod-clears-the-head | guideplate by {}, | + pushrods.head_gap
pushrod-length-matches-measurement | Order {}, | = pushrods.length
pushrod-length-follows-machining | about {}. | = pushrods.length
pushrod-wall-suits-load | to the {} wall | = pushrods.wall
pushrod-carries-static-load | load under {}. | = SIDE.spring.open_load
retainer-clears-the-seal | seal by {}, | + SIDE.retainer.seal_gap_shut
rocker-clears-the-retainer | ; {} more | + rockers.retainer_gap_open; + rockers.retainer_gap_shut
rocker-slot-clears-the-stud | slot by {} at | + rockers.slot_gap
rocker-cover-clears-rockers | , {} more | + heads.rocker_cover_gap
rocker-carries-open-load | stay under {} open | = SIDE.spring.open_load
rocker-stud-carries-open-load | stay under {} open | = SIDE.spring.open_load
rocker-bolt-holds-fulcrum-load | Tighten it to {} as | = joints.rocker.torque
rocker-runs-free-on-shaft | aim at {}, | = rockers.shaft_clearance
link-bar-clears-the-block | block by {}, | + lifters.bar_gap
installed-height-matches-stack | it is {} short | - SIDE.spring.shim_thickness
installed-height-matches-stack | add {} of shim | + SIDE.spring.shim_thickness
seat-load-suits-lifter | brings it to {}. | = SIDE.spring.seat_load
open-load-suits-lifter | spring under {} open | = SIDE.spring.open_load
springs-suit-after-settling | Order {} or more on the seat | = SIDE.spring.seat_load
inner-spring-clears-seal | smaller by {}, | + SIDE.spring.seal_gap
spring-surge-order-is-high | quiet up to {}: | = build.rev_limit
spring-stays-clear-of-coil-bind | height by {} | + SIDE.spring.installed_height
spring-stays-clear-of-coil-bind | height by {}, | - SIDE.spring.solid_height
spring-lift-stays-within-rating | rated for {} and more | = SIDE.spring.rated_lift
seat-load-holds-pressure | load until {} is | = SIDE.spring.seat_load
chain-suits-center-distance | shorter by {}. | = timing_set.center_distance_change
chain-carries-spring-load | stay under {} open | = intake.spring.open_load
valves-clear-each-other | smaller by {} between | - intake.valve.head_diameter
valves-clear-each-other | wider by {} | + heads.valve_spacing
valve-clears-cylinder-wall | smaller by {} or | - intake.valve.head_diameter; / intake.wall_gap
valve-clears-gasket-edge | larger by {}, | + head_gasket.bore
stem-clearance-suits-guide | guide to {} for | = SIDE.guide.bore
stem-clearance-suits-guide | finished to {} for | = SIDE.guide.bore
groove-type-suits-load | above {} open | = SIDE.spring.open_load
valve-pocket-has-side-room | wider by {} in | + SIDE.pocket.diameter
guide-top-fits-seal | Order seals for {}, | = SIDE.seal.guide_diameter
lash-cap-fits-the-tip | lower by {}. | + SIDE.valve.lash_cap_to_lock_gap
angle-tightening-suits-the-bolt | at most {}. | = joints.JOINT.angle
bolt-length-suits-grip-and-engagement | bolt of {} where | = joints.JOINT.length
damper-grips-the-snout | honed {} larger | + damper.hub_bore
head-dowels-leave-a-gap | dowels by {} or | - block.dowel_protrusion
gasket-clears-the-bore | opening of {} or | = head_gasket.bore
gasket-opening-is-close | , {} or so | = head_gasket.bore
gasket-bead-clears-bore-chamfer | opening of {}, | = head_gasket.bore
chamber-lies-inside-gasket | opening of {} or more | = head_gasket.bore
proud-piston-clears-the-gasket | opening of {} or more | = head_gasket.bore
gasket-land-between-bores-is-wide | opening of {} or less | = head_gasket.bore
gasket-wire-stands-proud-right | groove {} deep | = head_gasket.ring.groove_depth
wire-groove-grips-the-wire | groove {} to | = head_gasket.ring.groove_width
wire-groove-grips-the-wire | in to {} wide | = head_gasket.ring.groove_width
receiver-groove-fits-the-wire | about {} wide and {} deep | = head_gasket.ring.receiver_width & = head_gasket.ring.receiver_depth
wire-ring-suits-the-gasket | ring at {} or more | = head_gasket.ring.diameter
bolt-clamps-before-bottoming | bolt {} shorter | - joints.JOINT.length
stud-is-set-finger-tight | key, {} or so | = joints.JOINT.stud_install_torque
intake-face-matches-the-cuts | Cut {} off each | + induction.manifold.face_removed; = induction.manifold.face_removed
rod-bolt-stretch-fits-calculation | again; {} is | = joints.rod.stretch
flywheel-bolts-clear-the-block | shorter by {}; | + joints.JOINT.tip_to_obstacle
spark-plug-reach-fits-head | plug of {} reach | = ignition.spark_plug.reach
spark-plug-torque-suits-seat | head to {} to | = ignition.spark_plug.torque
stud-reaches-through-its-nut | stud {} longer or | + joints.JOINT.length; + joints.JOINT.nut.protrusion
nut-clears-the-stud-shank | with {} of thread | = joints.JOINT.nut.thread_length
stud-end-clears-moving-parts | end by {}, | + joints.JOINT.tip_to_obstacle
thread-engagement-is-long-enough | Engage {} of | = joints.JOINT.engagement_length
tapped-thread-outlasts-preload | Engage {} of | = joints.JOINT.engagement_length
bolt-breaks-before-thread | {} of full thread | = joints.JOINT.engagement_length
bolt-stays-below-yield | at most {} with | = joints.JOINT.torque
bolt-preload-is-high-enough | towards {} if | = joints.JOINT.torque
torque-unit-fits-the-fastener | there: {}. | = joints.JOINT.torque
rocker-bolt-torque-suits-thread | at most {} here | = joints.JOINT.torque
bearing-face-takes-the-pressure | washer {} outside and {} thick | = joints.JOINT.washer.outside_diameter & = joints.JOINT.washer.thickness
bearing-face-takes-the-pressure | washer, {} outside | = joints.JOINT.washer.outside_diameter
washer-chamfer-clears-the-fillet | at least {} at | = joints.JOINT.washer.chamfer
washer-chamfer-leaves-the-nut-its-face | at most {}. | = joints.JOINT.washer.chamfer
washer-fits-the-pad | pad to {}, | = joints.JOINT.clamped.pad_diameter
washer-fits-the-pad | at most {}. | = joints.JOINT.washer.outside_diameter
washer-covers-hole-and-nut | at least {} outside | = joints.JOINT.washer.outside_diameter
washer-covers-hole-and-nut | at most {} inside | = joints.JOINT.washer.inside_diameter
washer-hardness-suits-fastener | at least {}. | = joints.JOINT.washer.hardness
torque-wrench-covers-the-torque | wrench of {} to | = joints.JOINT.wrench.range
torque-wrench-covers-the-torque | lbf-ft to {} full | = joints.JOINT.wrench.range
wrench-setting-allows-for-adapter | Set the wrench to {}: | = joints.JOINT.wrench.set_to
split-seal-ends-are-offset | halves {} to | = sealing.rear_main_seal.split_offset
seal-suits-crankcase-vacuum | vacuum to {}. | = accessories.crankcase_vacuum
end-rail-bead-exceeds-gap | bead of {}. | = sealing.end_rail_bead
end-rail-gap-is-usable | Cut {} | + sealing.end_rail_gap
rocker-bolt-stays-out-of-port | Shorten it by {} and | + joints.JOINT.tip_to_obstacle
seal-shaft-is-smooth-and-hard | between {} and | = sealing.rear_main_seal.shaft_finish
seal-shaft-is-smooth-and-hard | and {}, | = sealing.rear_main_seal.shaft_finish
seal-fits-sleeve-diameter | runs on: {}, | = sealing.rear_main_seal.made_for_diameter
claimed-power-has-air | about {}, | = build.peak_power
inlet-valve-breathes-freely | valve of {}, | = intake.valve.head_diameter
inlet-valve-breathes-freely | peak at {}, | = build.peak_power_speed
claimed-power-suits-head-flow | about {}, | = build.peak_power
claimed-power-suits-head-flow | find {} of | = intake.port.flow
port-speed-suits-peak-power | area of {} suits | = intake.port.smallest_area
claimed-torque-is-possible | Plan with {}, | = build.peak_torque
fuel-pressure-suits-delivery | Set it to {} to | = fuel_system.pressure
fuel-pressure-suits-delivery | psi to {} | = fuel_system.pressure
injector-duty-leaves-reserve | injectors of {} at | = fuel_system.injector_flow
injector-opens-at-pressure | near {} and | = fuel_system.pressure
injector-idle-pulse-is-long | at most {} idle | = fuel_system.injector_flow
intake-gasket-clears-the-ports | at least {} by {}, | = induction.manifold.gasket_width & = induction.manifold.gasket_height
runner-length-suits-power-range | runner {} long | = induction.manifold.runner_length
plenum-suits-displacement | plenum of {} to | = induction.manifold.plenum_volume
plenum-suits-displacement | to {} suits | = induction.manifold.plenum_volume
mixture-suits-class | Aim at {}; | = fuel_system.full_load_lambda
fuel-consumption-is-realistic | with {}, | = build.brake_specific_fuel
throttle-suits-air-demand | bore of {} each | = induction.throttle.bore
air-filter-suits-air-demand | filter of {} or | = induction.air_filter.area
air-filter-suits-air-demand | duct of {} would | = induction.air_filter.duct_area
air-filter-suits-air-demand | lid by {}, | + induction.air_filter.lid_gap
carburetor-suits-air-demand | to {} each | = induction.carburetor.flow
valve-heads-fit-the-bore | at most {} with | = exhaust.valve.head_diameter
valve-sizes-are-proportioned | bore an intake valve of {} to | = intake.valve.head_diameter
valve-throat-suits-seat | throat of {} to | = SIDE.port.throat_diameter
valve-throat-suits-seat | to {} suits | = SIDE.port.throat_diameter
total-advance-suits-chamber | Start from {} and | = ignition.total_advance
advance-falls-with-charge | about {} without | = ignition.boost_retard
advance-falls-with-charge | about {} for | = nitrous.retard
coil-has-time-to-charge | coil of {} dwell | = ignition.coil.dwell
plug-gap-suits-pressure | plugs to {} to | = ignition.spark_plug.gap
plug-gap-suits-pressure | in to {}; | = ignition.spark_plug.gap
coil-voltage-suits-gap | plugs to {}, | = ignition.spark_plug.gap
coil-voltage-suits-gap | coil of {}: | = ignition.coil.voltage
plug-tip-clears-piston | dome: {} more | + ignition.spark_plug.piston_gap; - pistons.dome_height_at_plug
timing-tape-fits-damper | tape for {}; | = damper.tape_diameter
trigger-signal-is-strong-enough | at least {}, | = ignition.trigger.diameter
trigger-gap-suits-sensor | gap to {} to | = ignition.trigger.air_gap
trigger-gap-suits-sensor | in to {}, | = ignition.trigger.air_gap
coolant-stays-below-boiling | cap of {} or more | = cooling.pressure_cap.pressure
coolant-stays-below-boiling | down to {} or below | = cooling.coolant.temperature_highest
coolant-stays-below-boiling | coolant at {} or below | = cooling.coolant.temperature_highest
pressure-cap-suits-radiator | cap of {} or less | = cooling.pressure_cap.pressure
coolant-stands-the-cold | up to {} of | = cooling.coolant.glycol_fraction
coolant-flow-carries-the-heat | Move {} at | = cooling.water_pump.flow
radiator-rejects-the-heat | good for {} at | = cooling.radiator.heat_rejection
thermostat-suits-use | one of {} ( | = cooling.thermostat.temperature
blower-drive-gives-stated-pressure | about {} for | = boost.blower_pulley
blower-rotor-stays-below-limit | at least {}, | = boost.blower_pulley
blower-rotor-stays-below-limit | limiter to {}. | = build.rev_limit
blower-belt-is-wrapped-enough | at least {} round | = boost.blower_belt_wrap
charged-ratio-suits-fuel | or to {} at this ratio | = boost.pressure
charge-temperature-is-bounded | or {} of boost | = boost.pressure
charge-temperature-is-bounded | effectiveness {}, | = boost.cooler.effectiveness
manifold-sensor-reads-full-pressure | at least {}, | = boost.manifold_sensor_range
nitrous-shot-suits-engine | or below {}, | = nitrous.power
nitrous-has-safety-switches | switch to {} or more | = nitrous.speed_low
nitrous-has-safety-switches | off at {} or below | = nitrous.speed_high
nitrous-fuel-has-octane | at {} or below | = nitrous.power
nitrous-bottle-pressure-is-usual | to {} | = nitrous.bottle_pressure
nitrous-window-suits-stall | stall to {} or | = driveline.converter.stall
header-primary-suits-torque-speed | about {} outside | = exhaust_system.primary.outside_diameter
primary-length-suits-tuning | nearer {}, | = exhaust_system.primary.length
collector-suits-primaries | about {}. | = exhaust_system.collector.diameter
pipes-carry-the-gas | of {} inside | = exhaust_system.exhaust_pipe.inside_diameter
turbine-back-pressure-is-moderate | at this boost {} before | = boost.exhaust_pressure
alternator-speed-suits-engine | pulley of {} or | = accessories.alternator.pulley_diameter
alternator-feeds-the-pumps | rated {} or more | = accessories.alternator.rated_current
water-pump-speed-is-bounded | pulley of {} or | = cooling.water_pump.pulley_diameter
belt-speed-is-bounded | pulley of {} or | = damper.pulley_diameter
pulleys-lie-in-one-plane | ; {} may be left | = accessories.belt.pulley_offset
converter-stall-suits-the-cam | stalls at {} to | = driveline.converter.stall
converter-stall-suits-the-cam | rpm to {} behind | = driveline.converter.stall
clutch-carries-the-torque | good for {} or more | = driveline.clutch.capacity
starter-pinion-clears-ring-gear | away from the ring gear by about {}, | + flywheel.pinion_tooth_clearance
starter-pinion-clears-ring-gear | nearer by about {}: | - flywheel.pinion_tooth_clearance
engine-fits-the-bay | stack by {}: | + induction.hood_gap
stand-carries-the-engine | rated for {} or more | = assembly.stand_rating; = assembly.hoist_rating
"""
# A warning's remedy here only comes down to the note that careful builders begin to think at: a drag engine's limiter, a spring
# made to run near bind, a pan without a baffle, and a tight-lash lobe whose other side is set wider still.
A_NOTE_STAYS = {"valve-follows-lobe-to-limiter", "spring-stays-clear-of-coil-bind", "oil-pan-clears-the-stroke", "lash-agrees-with-card",
                "alternator-speed-suits-engine"}


def told():
    for line in TOLD.strip().splitlines():
        rule, words, ways = (part.strip() for part in line.split("|"))
        yield pytest.param(RULES[rule], words, [[step.split() for step in way.split("&")] for way in ways.split(";")], id=f"{rule} {words}")


def found_by(rule, text, scope=None):
    """What a rule finds wrong in a spec, in one scope if asked; what is only right at its limit is not wrong."""
    report = road.check("example.yaml", text=text.encode(), chosen=[rule])
    return [finding for finding in report.findings if finding.kind == FAIL and finding.rule == rule.id
            and scope in (None, finding.scope) and "right at the limit" not in finding.message]


def node_at(text, path):
    node = load(text, "example.yaml")[0]
    for key in path.split("."):
        entry = node.entries.get(key) if isinstance(node, Mapping) else None
        if entry is None:
            return None
        node = entry.node
    return node


def with_value(text, path, value):
    """The text with a value written at a dotted path; None where its heading is not there."""
    node = node_at(text, path)
    edit = Edit(DECISION, "/" + path.replace(".", "/"), value, node.place if node is not None else None)
    changed, made, _ = fix.edited(text, [Finding("trial", "spec", "fail", "error", (), "", edit=edit)], "example.yaml")
    return changed if made else None


def done(text, way, numbers):
    """The text with told numbers done to it, a step after the other; None where one is about something else."""
    for step, number in zip(way, numbers if len(numbers) == len(way) else numbers * len(way)):
        text = text and one_done(text, step, number.rstrip("."))
    return text


def one_done(text, step, number):
    """The text with a told number written, added or taken off."""
    what, path = step
    if what == "=":
        return with_value(text, path, number)
    node = node_at(text, path)
    if not isinstance(node, Scalar):
        return None
    dimension, amount = next((dimension, read(number, dimension)) for dimension in FACTORS if _reads(number, dimension))
    if not _reads(node.text, dimension):
        return None
    sum_ = read(node.text, dimension) + {"+": 1, "-": -1, "/": 0.5}[what] * amount
    return with_value(text, path, f"{in_unit(sum_, dimension, amount.unit):.10g} {amount.unit}")


def _reads(text, dimension):
    try:
        return bool(read(text, dimension).unit)
    except QuantityError:
        return False


def nearby(text, way):
    """The example, and others near it, so that what is told does not come out round by chance."""
    yield text
    path = way[0][1]
    node = node_at(text, path)
    number = re.fullmatch(r"(-?[0-9.]+)( .*)", node.text) if isinstance(node, Scalar) else None
    for share in (0.9972, 0.9991, 1.0007, 1.0029) if number else ():
        yield with_value(text, path, f"{float(number[1]) * share:.6g}{number[2]}")


def at_home(way, scope):
    side = next((name for name in scope if name in ("intake", "exhaust")), "intake")
    joint = next((name.removesuffix(" joint") for name in scope if name.endswith(" joint")), "head")
    return [(what, path.replace("SIDE", side).replace("JOINT", joint)) for what, path in way]


@pytest.mark.parametrize("rule, words, ways", [*told()])
def test_what_is_told_settles_the_matter(rule, words, ways):
    sentence = re.compile(NUMBER.join(map(re.escape, words.split("{}"))))
    tried = 0
    for example in rule.nonconforming:
        plain = textwrap.dedent(example).strip("\n") + "\n"
        for scope in {finding.scope for finding in found_by(rule, plain)}:
            homes = [at_home(way, scope) for way in ways]
            for text in {near for way in homes for near in nearby(plain, way)}:
                before = found_by(rule, text, scope)
                match = sentence.search(before[0].fix) if before else None
                if match is None or re.search(r"/\d+$", before[0].pointer):  # one of a list
                    continue
                outcomes = [found_by(rule, after, scope) for after in (done(text, way, match.groups()) for way in homes) if after]
                if not outcomes:
                    continue
                tried += 1
                left = min(outcomes, key=len)
                if rule.id in A_NOTE_STAYS:
                    left = [finding for finding in left if finding.level != "note" or before[0].level == "note"]
                assert not left, (text, before[0].fix, [finding.message for finding in left])
    assert tried, "no example tells a number in these words"


# -- how numbers are rounded and set beside each other --------------------------------------------------------------


@pytest.mark.parametrize("value, toward, shown", [
    ("0.0048425 in", "up", "0.0049 in"), ("0.0048425 in", "down", "0.0048 in"), ("0.0048 in", "up", "0.0048 in"),
    ("0.0048 in", "down", "0.0048 in"), ("4.14437 in", "up", "4.145 in"), ("-0.0126 in", "up", "-0.0126 in"),
    ("-0.012654 in", "up", "-0.0126 in"), ("-0.012654 in", "down", "-0.0127 in"), ("174.388 lbf", "up", "175 lbf"),
    ("626.9 lbf", "down", "626 lbf"), ("0.123 mm", "up", "0.123 mm"), ("7.977 psi", "down", "7.9 psi"),
    ("99.96 psi", "up", "100 psi"), ("41.886 kV", "up", "41.89 kV"), ("0 in", "up", "0.000 in"),
])
def test_a_number_is_rounded_to_the_side_asked_for(value, toward, shown):
    amount = q(value)
    assert show(float(amount), amount.dimension, amount.unit, toward=toward) == shown


@pytest.mark.parametrize("value, limit, unit, kept, shown", [
    ("0.03996 in", "0.040 in", "in", "up", ("0.03996 in", "0.0400 in")),
    ("0.09996 in", "0.1 in", "in", "up", ("0.09996 in", "0.100 in")),  # fewer decimals from a tenth on
    ("1.0158 mm", "0.040 in", "mm", "up", ("1.0158 mm", "1.0160 mm")),
    ("460.3 lbf", "460 lbf", "lbf", "down", ("460.3 lbf", "460.0 lbf")),
])
def test_a_value_and_its_limit_never_read_as_one_number(value, limit, unit, kept, shown):
    value, limit = q(value), q(limit)
    dimension = str(value.dimension)
    assert show(float(value), dimension, unit, float(limit), apart_toward=kept) == shown[0]
    assert show(float(limit), dimension, unit, float(value), toward=kept) == shown[1]


# What the sentence says twice is one thing there: a cut that nothing made up for, a range that begins at the limit.
SAID_TWICE = {"chain-suits-center-distance", "intake-face-matches-the-cuts", "mock-up-gasket-equals-final", "parts-arrive-before-their-step",
              "main-clearance-suits-journal", "rod-clearance-suits-journal"}


def _scaled(limit, share):
    if isinstance(limit, dict):
        return {name: _scaled(part, share) for name, part in limit.items()}
    if isinstance(limit, tuple):
        return tuple(_scaled(part, share) for part in limit)
    if isinstance(limit, Amount):
        return Amount(float(limit) * share, limit.dimension, limit.unit)
    return limit * share if isinstance(limit, float) else limit


def _metric(text):
    def millimeters(inches):
        return f"{float(inches[1]) * 25.4:.5f}".rstrip("0").rstrip(".") + " mm"

    return re.sub(r"(?<![\w/.-])(\d+\.?\d*) in(?![\w^])", millimeters, text)


@pytest.mark.parametrize("rule", [pytest.param(rule, id=rule.id) for rule in RULES.values() if rule.limits and rule.id not in SAID_TWICE])
def test_a_limit_that_is_just_missed_does_not_read_as_kept(rule, monkeypatch):
    """With the limit moved to just beyond the value the sentence still shows two numbers, in inches and in millimeters."""
    usual = dict(rule.limits)
    for example in rule.nonconforming:
        plain = textwrap.dedent(example).strip("\n") + "\n"
        for text in dict.fromkeys((plain, _metric(plain))):
            for finding in found_by(rule, text):
                if not (isinstance(finding.value, float) and isinstance(finding.limit, float) and finding.value * finding.limit > 0):
                    continue
                for off in (1e-4, -1e-4, 2e-3, -2e-3):
                    monkeypatch.setattr(rule, "limits", {name: _scaled(limit, finding.value / finding.limit * (1 + off)) for name, limit in usual.items()})
                    for moved in found_by(rule, text, finding.scope):
                        if moved.value == finding.value and isinstance(moved.limit, float) and abs(moved.limit / moved.value - 1) < 3e-3:
                            numbers = [(float(number), unit) for number, unit in re.findall(
                                r"(?<![\w.-])(-?\d+(?:\.\d+)?)(?![\w./-]*\d)(?:\s?([a-zA-Z%][\w^/*-]*|:1))?", moved.message)]
                            assert len(set(numbers)) == len(numbers) or moved.message.count(str(moved.value)) > 1, moved.message
                    monkeypatch.setattr(rule, "limits", usual)


# -- remedies on a whole build: none undoes another, none asks for what cannot be -------------------------------------


def remedy(rule, text):
    """The one remedy of a rule for a spec."""
    found, = found_by(RULES[rule], textwrap.dedent(text).strip("\n") + "\n")
    return found.fix


@pytest.mark.parametrize("rule, text, words, never", [
    # More boost would mend the ratio of the pressures and break the charge.
    ("turbine-back-pressure-is-moderate", "build: {induction: turbocharged}\nboost: {pressure: 12 psi, exhaust_pressure: 30 psi}",
     "at this boost 18.0 psi before the turbine", "plan on"),
    # A bore so wide that no opening clears it and leaves the land.
    ("gasket-land-between-bores-is-wide", """
        block: {bore: 4.220 in, bore_spacing: 4.400 in}
        head_gasket: {kind: composite, bore: 4.230 in}
        """, "No opening that clears this bore leaves such a land", "or less"),
    # The weakest part sets the limiter, also one that is passed at it already.
    ("overspeed-stays-within-limits", """
        build: {transmission: manual, rev_limit: 6300 rpm, induction: supercharged}
        engine: {stated_valvetrain_speed: 6500 rpm}
        boost: {crank_pulley: 7.0 in, blower_pulley: 2.6 in, blower_speed_limit: 16000 rpm}
        """, "Set the limiter to 5400 rpm", None),
    # There is not so much shim to take out.
    ("installed-height-matches-stack", """
        intake:
          valve: {stem_height: 2.560 in}
          retainer: {tip_to_face: 0.760 in}
          locks: {height_gain: 0 in}
          spring: {shim_thickness: 0.010 in, installed_height: 1.820 in}
        """, "fit offset locks or a longer valve", "take out shim"),
    # A foot that wide does not pass the bore.
    ("flat-lifter-foot-spans-lobe", """
        lifters: {kind: solid_flat, foot: crowned, body_diameter: 0.842 in, bore: 0.8435 in}
        intake:
          lobe: {lift: 0.353 in, advertised_duration: 281 deg, advertised_check_height: 0.006 in, duration_at_050: 231 deg}
        """, "a mushroom foot of at least 0.906 in", "Take a lifter with a foot"),
    # What is bored cannot be bored less, nor further back than it was measured at.
    ("cylinder-wall-keeps-thickness", "block: {bore: 4.030 in, wall_thickness: 0.110 in}", "Sleeve this cylinder", "Bore less"),
    ("cylinder-wall-keeps-thickness", "block: {bore: 4.030 in, wall_measured_at_bore: 4.000 in, wall_thickness: 0.100 in}", "Offset the bore", "Bore less"),
    # A gasket of nine hundredths is not made.
    ("stated-ratio-matches-parts", """
        engine: {stated_compression_ratio: 9.3:1}
        block: {bore: 4.030 in}
        crank: {stroke: 3.750 in}
        pistons: {below_deck: 0.005 in, dish_volume: 5.0 cc}
        heads: {chamber_volume: 70.0 cc}
        head_gasket: {compressed_thickness: 0.039 in, bore: 4.100 in}
        """, "no gasket would", "compressed"),
    # A guide that is worn wide is not honed small.
    ("stem-clearance-suits-guide", """
        exhaust:
          valve: {stem_diameter: 0.3114 in, material: austenitic_21_4n}
          guide: {material: bronze, bore: 0.3150 in}
        """, "replaced or lined", "Hone or ream"),
    # Heads that came down want metal off the manifold, so a thinner gasket and no thicker one; what is cut already counts.
    ("intake-face-matches-the-cuts", """
        engine: {layout: v, bank_angle: 90 deg}
        block: {deck_removed: 0.010 in}
        heads: {face_removed: 0.020 in}
        induction: {manifold: {face_angle: 55 deg, valley_tray: open, face_removed: 0.020 in}}
        """, "Cut 0.0170 in off each", "thicker"),
    # Contact too near the valve's edge: the top cut takes the seat's outer edge away.
    ("seat-contact-is-well-placed", "intake:\n  seat: {contact_from_edge: 0.005 in}", "top cut", "throat"),
    ("seat-contact-is-well-placed", "intake:\n  seat: {contact_from_edge: 0.050 in}", "throat cut", "top cut"),
    # Jets that open late enough take no other jets.
    ("piston-jets-have-oil-supply", """
        engine: {cylinders: 8}
        oiling: {jets: {kind: added, opening_pressure: 35 psi}, pump: {volume: standard}}
        """, "Take the larger pump", "30 psi"),
    # The step is moved until the week of reserve is kept.
    ("parts-arrive-before-their-step", """
        assembly: {steps: [{step: head_torque, needed_on: 2025-04-14}]}
        order:
          items:
            - {item: head_stud, quantity: 34, ordered_on: 2025-03-03, lead_time: 28 days, shipping_time: 5 days, check_in_time: 3 days, needed_for: head_torque}
        """, "2025-04-15 or later", None),
])
def test_a_remedy_is_one_that_can_be_taken(rule, text, words, never):
    told_there = remedy(rule, text)
    assert words in told_there
    assert never is None or never not in told_there, told_there


def test_a_gap_of_nothing_that_is_asked_for_passes_whatever_the_subtraction_leaves():
    text = "block: {bore: 4.155 in, bore_chamfer: 0.020 in}\nhead_gasket: {bore: %s}\n"
    rule = RULES["gasket-bead-clears-bore-chamfer"]
    opening = re.search(r"opening of ([0-9.]+ in)", found_by(rule, text % "4.185 in")[0].fix)[1]
    assert found_by(rule, text % opening) == []
