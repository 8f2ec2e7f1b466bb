"""Compression against the fuel: by the shop's table, by small penalties that add up, and by what a change is worth."""

from buildlint.mechanics.knock import octane_asked
from buildlint.rulebook import *
from buildlint.tables.duties import SUSTAINED
from buildlint.tables.fuels import ALCOHOLS
from buildlint.tables.octane import ALUMINUM_ROWS, IRON_ROWS, is_aluminum, row_for

ENGINE = """
build: {duty: %s, induction: natural, fuel: %s, altitude_lowest: 400 ft%s}
engine: {cylinders: 8}
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
rods: {length: 5.700 in}
pistons: {below_deck: %s, dish_volume: 5.0 cc}
fuel_system: {octane: %s, octane_scale: aki}
heads: {material: %s, quench_pad: fitted, chamber_volume: %s}  %s
head_gasket: {compressed_thickness: 0.039 in, bore: 4.100 in}
intake:
  lobe: {centerline: 106 deg, advertised_duration: %s, advertised_check_height: 0.006 in}
"""


def _corrections(duty, quench_gap, quench_pad, chamber, altitude, coolant, limits):
    """[(what it is for, how much the row moves)] of one engine."""
    found = []
    if quench_pad == "fitted" and quench_gap is not None and limits["quench_from"] < quench_gap <= limits["quench_to"]:
        found.append(("quench too wide to work", -limits["wide_quench"]))
    elif quench_pad == "none" or chamber in ("open_wedge", "flat_head"):
        found.append(("no quench", -limits["no_quench"]))
    if chamber == "fast_burn":
        found.append(("fast-burn chamber", limits["fast_burn"]))
    if altitude is not None and altitude > 0:
        found.append(("altitude", min(limits["per_altitude"] * altitude / limits["altitude_step"], limits["altitude_most"])))
    if coolant is not None and coolant > limits["hot_coolant"]:
        found.append(("hot coolant", -limits["heat"]))
    if duty in SUSTAINED:
        found.append(("long full load", -limits["sustained"]))
    return [(text, move) for text, move in found if abs(move) >= 0.01]


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="{value} is trapped when the intake closes; {fuel} in {metal} heads bears about {limit} here{corrected}.",
    fix="In this order: a volume at top larger by {volume_to_add:up}, an intake closing about {degrees} later, closer quench, cooler water, "
        "better fuel, and less advance last.",
    source="published windows for pump gasoline 7.5 to 8.5; the rows common practice, no source, sure within 0.3",
    when={"induction": ("natural",)},
    points_at=("head_chamber_volume",),
    conforming=(ENGINE % ("street_strip", "pump_gasoline", "", "0.005 in", "91", "aluminum_356_t6", "64.0 cc", "", "276 deg"),
                ENGINE % ("drag_race", "methanol", "", "-0.005 in", "99", "aluminum_356_t6", "52.0 cc", "", "276 deg")),
    nonconforming=(ENGINE % ("street_strip", "pump_gasoline", "", "0.005 in", "87", "cast_iron", "58.0 cc", "# <-", "266 deg"),
                   ENGINE % ("towing", "pump_gasoline", "", "0.005 in", "91", "aluminum_356_t6", "64.0 cc", "# <-", "262 deg")),
)
def trapped_ratio_suits_fuel(
    trapped_compression_ratio_largest: Ratio, fuel: Choice, head_material: Choice, antiknock_index: Octane = None,
    fuel_ethanol_fraction_lowest: Fraction = None, duty: Choice = None, quench_gap_largest: Length = None,
    head_quench_pad: Choice = None, head_chamber_kind: Choice = None, altitude_lowest: Length = None,
    coolant_temperature: Temperature = None, clearance_volume_smallest: Volume = None, fuel_octane: Octane = None, *,
    iron=IRON_ROWS, aluminum=ALUMINUM_ROWS,
    pass_over: Ratio = q("0.3", "ratio"), note_over: Ratio = q("0.6", "ratio"), ratio_per_degree: Ratio = q("0.063", "ratio"),
    quench_from: Length = q("1.4 mm"), quench_to: Length = q("2.5 mm"), wide_quench: Ratio = q("0.2", "ratio"),
    no_quench: Ratio = q("0.3", "ratio"), fast_burn: Ratio = q("0.2", "ratio"), per_altitude: Ratio = q("0.1", "ratio"),
    altitude_step: Length = q("300 m"), altitude_most: Ratio = q("0.6", "ratio"),
    hot_coolant: Temperature = q("95 degC", "temperature"),
    heat: Ratio = q("0.2", "ratio"), sustained: Ratio = q("0.3", "ratio"),
):
    """Fuel knocks by the pressure and heat it is squeezed to, which begins when the intake valve shuts, not at bottom.

    The rows are for a closing near the seat (0.006 in); other check heights give other numbers. They rise with octane
    and with aluminum, which carries heat away. Practice spreads by 0.3, so that much over the row passes and as much
    again is a note. Altitude counts at the lowest place of use only.
    """
    row = row_for(aluminum if is_aluminum(head_material) else iron, fuel, antiknock_index, fuel_ethanol_fraction_lowest)
    if row is None and (fuel == "nitromethane_blend" or fuel_octane is not None):
        return not_applicable("no row for this fuel, or an octane number whose scale is asked for by its own rule")
    if row is None:
        return lacking("fuel_octane")
    moves = _corrections(
        duty, quench_gap_largest, head_quench_pad, head_chamber_kind, altitude_lowest, coolant_temperature, {
            "quench_from": quench_from, "quench_to": quench_to, "wide_quench": wide_quench, "no_quench": no_quench,
            "fast_burn": fast_burn, "per_altitude": per_altitude, "altitude_step": altitude_step, "altitude_most": altitude_most,
            "hot_coolant": hot_coolant, "heat": heat, "sustained": sustained
        })
    bears = row + sum(move for _, move in moves)
    trapped = trapped_compression_ratio_largest
    verdict = at_most(Ratio(trapped, ":1"), warning=bears + note_over, note=bears + pass_over)
    verdict.limit = Ratio(bears, ":1")
    over = max(trapped - bears, 0.0)
    add = "a little"
    if clearance_volume_smallest is not None and bears > 1:
        add = Volume(clearance_volume_smallest * ((trapped - 1) / (bears - 1) - 1), "cc")
    return verdict.telling(metal="aluminum" if is_aluminum(head_material) else "iron",
                           volume_to_add=add,
                           degrees=f"{over / ratio_per_degree:.0f} degrees",
                           corrected="".join(f", {move:+.2f} for {text}" for text, move in moves))


SMALL = """
build: {duty: street, induction: natural, fuel: pump_gasoline, altitude_lowest: 400 ft, ambient_hottest: %s}
engine: {cylinders: 8}
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
rods: {length: 5.700 in}
pistons: {below_deck: 0.025 in, dish_volume: 5.0 cc}
heads: {material: cast_iron, chamber_volume: %s, quench_pad: fitted, chamber_kind: closed_wedge}  %s
head_gasket: {compressed_thickness: 0.039 in, bore: 4.100 in}
fuel_system: {octane: 87, octane_scale: aki, full_load_lambda: 0.88}
ignition: {total_advance: %s}
cooling: {coolant: {temperature: %s}}
intake:
  lobe: {centerline: 107 deg, advertised_duration: 260 deg, advertised_check_height: 0.006 in}
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="{value} small things together bring this engine nearer to knock: {list}.",
    fix="Mend the cheapest of them: each is worth one to two octane numbers, and together they add up to a grade of fuel.",
    source="common practice, no source",
    when={"induction": ("natural",)},
    points_at=("head_chamber_volume",),
    conforming=SMALL % ("95 degF", "72.0 cc", "", "34 deg", "190 degF"),
    nonconforming=SMALL % ("112 degF", "70.0 cc", "# <-", "38 deg", "208 degF"),
)
def knock_penalties_stay_few(
    trapped_compression_ratio_largest: Ratio, fuel: Choice, head_material: Choice, antiknock_index: Octane = None,
    quench_gap_largest: Length = None, head_quench_pad: Choice = None, coolant_temperature: Temperature = None,
    thermostat_temperature: Temperature = None, ambient_hottest: Temperature = None, total_advance: Angle = None,
    head_chamber_kind: Choice = None, mixture_lambda: Ratio = None, duty: Choice = None,
    air_filter_pressure_loss: Pressure = None, *,
    most: Count = q("2", "count"), near_row: Ratio = q("0.3", "ratio"), quench_from: Length = q("1.4 mm"),
    quench_to: Length = q("2.5 mm"), hot_coolant: Temperature = q("95 degC", "temperature"),
    hot_thermostat: Temperature = q("91 degC", "temperature"), hot_air: Temperature = q("40 degC", "temperature"),
    lean_from: Ratio = q("0.92", "ratio"),
    advance_from={"open_wedge": q("38.5 deg"), "bathtub": q("38.5 deg"), "flat_head": q("38.5 deg"),
                  "closed_wedge": q("36.5 deg"),
                  "fast_burn": q("31.5 deg"), "hemi": q("42.5 deg")},
):
    """Quench a little wide, water a little hot, air a little warm: no single one is a fault, and the engine rattles all the same.

    Counted only where the trapped ratio is within 0.3 of what the fuel bears, since an engine far below has room for
    all of them. Iron heads and octane already stand in that figure.
    """
    row = row_for(ALUMINUM_ROWS if is_aluminum(head_material) else IRON_ROWS, fuel, antiknock_index)
    if row is None or trapped_compression_ratio_largest < row - near_row:
        return not_applicable("far from what the fuel bears")
    kinds = (
        ("trapped ratio above the usual row", trapped_compression_ratio_largest > row),
        ("quench between close and none", head_quench_pad == "fitted" and quench_gap_largest is not None
         and quench_from < quench_gap_largest <= quench_to),
        ("hot coolant", coolant_temperature is not None and coolant_temperature > hot_coolant
         or thermostat_temperature is not None and thermostat_temperature > hot_thermostat),
        ("hot intake air", ambient_hottest is not None and ambient_hottest > hot_air),
        ("advance above the chamber's usual band", total_advance is not None
         and total_advance > advance_from.get(head_chamber_kind, 9)),
        ("mixture leaner than best power", mixture_lambda is not None and mixture_lambda > lean_from),
        ("long full load", duty in SUSTAINED),
    )
    found = [text for text, there in kinds if there]
    verdict = at_most(Count(len(found)), most)
    return verdict.telling(list=", ".join(found) or "none")


KNOCK = """
build: {duty: street, induction: natural, fuel: pump_gasoline, peak_torque_speed: %s}
engine: {cylinders: 8}
block: {bore: 4.030 in}
crank: {stroke: 3.480 in}
rods: {length: 5.700 in}
pistons: {below_deck: 0.005 in, dish_volume: 5.0 cc}
heads: {material: cast_iron, chamber_volume: %s}  %s
head_gasket: {compressed_thickness: 0.039 in, bore: 4.100 in}
fuel_system: {octane: 87, octane_scale: aki}
"""


@rule(
    scope="build",
    level="note",
    due="planning",
    says="By the knock integral at the torque peak the charge asks for more than this fuel. Worth there, in octane numbers: one ratio "
         "less {ratio_worth}, spark later by 2 degrees {spark_worth}, charge cooler by 15 K {charge_worth}, torque peak 500 rpm "
         "higher {speed_worth}.",
    fix="Take the cheapest change that is worth enough; the integral ranks changes well and is off by five numbers and more as such.",
    source="Douaud and Eyzat, SAE 780080; Heywood, Internal Combustion Engine Fundamentals, eq. 9.50 (from memory)",
    when={"peak_torque_speed": given},
    points_at=("head_chamber_volume",),
    conforming=(KNOCK % ("3300 rpm", "72.0 cc", ""), (KNOCK % ("2400 rpm", "58.0 cc", "")).replace("pump_gasoline", "methanol")),
    nonconforming=KNOCK % ("2400 rpm", "58.0 cc", "# <-"),
)
def knock_margin_is_ranked(
    compression_ratio_largest: Ratio, peak_torque_speed: Rpm, combustion_center: Angle, head_material: Choice,
    manifold_pressure_absolute: Pressure, induction: Choice, antiknock_index: Octane = None,
    boost_charge_temperature: Temperature = None, rod_ratio: Ratio = None, fuel: Choice = None, *,
    note_above: Octane = q("5", "octane"), slowest: Rpm = q("2500 rpm"), believable: Ratio = q("17:1", "ratio"),
    warm: Temperature = q("335 K", "temperature"),
    warm_iron: Temperature = q("350 K", "temperature"), atmosphere: Pressure = q("101.325 kPa"),
):
    """An engine knocks at its torque peak, not at the limiter, and there each change has its price in octane numbers.

    A note and never more, and only where the integral asks for five numbers more than there are, which is what it may be
    off by: the rules on trapped and boosted compression decide. Below 2500 rpm it exaggerates, so it is not asked there, nor
    of alcohol: it was fitted to gasolines, and knows nothing of the cold that alcohol makes as it evaporates.
    """
    if fuel in ALCOHOLS:
        return not_applicable("the integral was fitted to gasoline")
    if antiknock_index is None:
        return not_applicable("the octane number is not known")
    if compression_ratio_largest > believable:
        return not_applicable("the volume at top is judged first")
    charge = warm if is_aluminum(head_material) else warm_iron
    if induction != "natural" and boost_charge_temperature is not None:
        charge = boost_charge_temperature

    def asked(ratio=0.0, center=0.0, speed=0.0, cooler=0.0):
        return octane_asked(compression_ratio_largest + ratio, combustion_center + center, turning + speed, charge - cooler,
                            manifold_pressure_absolute / atmosphere, rod_ratio or 1.638)

    turning = max(peak_torque_speed, slowest)
    now = asked()
    verdict = at_most(now - antiknock_index, note=note_above)
    verdict.value = verdict.limit = verdict.utilization = None
    if verdict.kind != "fail":
        return verdict
    worth = {"ratio_worth": asked(ratio=-1.0), "spark_worth": asked(center=0.0349), "charge_worth": asked(cooler=15.0),
             "speed_worth": asked(speed=52.36)}
    return verdict.telling(**{name: f"{now - then:.1f}" for name, then in worth.items()})
