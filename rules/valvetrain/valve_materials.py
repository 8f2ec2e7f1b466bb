"""The valves' alloys and how they are built, against heat, load and what may hit them."""

from buildlint.rulebook import *
from buildlint.tables.spring_loads import LONG_RUNNING

ALLOY = """
build: {duty: %s, peak_power: %s}
engine: {stated_displacement: 454 in^3}
boost: {pressure: %s}
exhaust:
  valve: {material: %s}  %s
"""

CUBIC_INCH = q("1 in^3")


@rule(
    scope="side",
    level="warning",
    due="planning",
    says="An exhaust valve of {valve_material} is not made for {heat}.",
    fix="Order {better}; name the alloy on the order (SAE J775 lists them).",
    source="alloy temperatures and the changeover at 1.2 hp per cubic inch: trade press; the rest common practice, no source",
    points_at=("valve_material",),
    conforming=(ALLOY % ("marine", "450 hp", "0 psi", "austenitic_21_4n", ""), ALLOY % ("street", "700 hp", "20 psi", "nickel_alloy_n07751", ""),
                ALLOY % ("drag_race", "800 hp", "0 psi", "austenitic_21_4n", ""), ALLOY % ("stock", "300 hp", "0 psi", "chrome_silicon_steel", "")),
    nonconforming=(ALLOY % ("street", "600 hp", "20 psi", "austenitic_21_4n", "# <-"),
                   ALLOY % ("marine", "600 hp", "0 psi", "austenitic_21_4n", "# <-"),
                   ALLOY % ("street", "450 hp", "0 psi", "chrome_silicon_steel", "# <-"), """
        exhaust:
          valve: {material: austenitic_21_4n}  # <-
          port: {gas_temperature: 1580 degF}
        """, """
        nitrous: {power: 250 hp}
        exhaust:
          valve: {material: austenitic_21_2n}  # <-
        """),
)
def valve_alloy_suits_heat(
    valve_material: Choice, side_name: Choice, duty: Choice = None, boost_pressure: Pressure = None, nitrous_power: Power = None,
    peak_power: Power = None, displacement: Volume = None, stated_displacement: Volume = None, port_gas_temperature: Temperature = None, *,
    much_boost: Pressure = q("15 psi"), much_nitrous: Power = q("200 hp"), power_per_cubic_inch: Power = q("1.2 hp"),
    gas_up_to={"chrome_silicon": q("750 degC"), "austenitic": q("815 degC"), "nickel": q("900 degC")},
):
    """The exhaust valve glows at full load; an alloy that goes soft there stretches its neck until the head comes off.

    Chrome-silicon steel is for intakes and for stock exhausts. The austenitic 21-4N kind stands some 760 degC of its own
    metal, nickel alloys 815 to 870. Boost above 15 psi, a nitrous shot above 200 hp, or more than 1.2 hp per cubic
    inch for minutes on end are where shops change over; where exactly differs from shop to shop, so it is a warning.
    Written gas temperatures are held against the gas figures of the trade, which are not those of the metal.
    """
    if side_name != "exhaust":
        return not_applicable("the intake runs cool")
    family = next((name for name in gas_up_to if valve_material.startswith(name)), None)
    if family is None:
        return not_applicable("titanium is asked about by how it is built")
    nickel = "a nickel alloy (UNS N07751, or N07080 for more)"
    better = {"chrome_silicon": "an austenitic steel (21-4N kind)", "austenitic": nickel, "nickel": "a hotter alloy, or less heat"}[family]
    if port_gas_temperature is not None:
        verdict = at_most(port_gas_temperature, warning=gas_up_to[family])
        if verdict.kind == "fail":
            return verdict.telling(better=better).saying(
                "An exhaust valve of {valve_material} stands gas up to about {limit}; {port_gas_temperature} is expected.")
    boosted = boost_pressure is not None and boost_pressure > 0
    if family == "chrome_silicon":
        hot = duty not in (None, "stock") or boosted
        return require(not hot).telling(heat="more than a stock engine", better=better)
    if family == "nickel":
        return passes()
    if boost_pressure is not None and boost_pressure > much_boost * (1 + 1e-9):
        return at_most(boost_pressure, warning=much_boost).telling(heat="so much boost", better=better)
    if nitrous_power is not None and nitrous_power > much_nitrous * (1 + 1e-9):
        return at_most(nitrous_power, warning=much_nitrous).telling(heat="so much nitrous", better=better)
    volume = displacement if displacement is not None else stated_displacement
    if duty in LONG_RUNNING and peak_power is not None and volume and valve_material != "austenitic_23_8n":
        dense = Power(peak_power / volume * CUBIC_INCH)
        return at_most(dense, warning=power_per_cubic_inch).telling(better=better).saying(
            "An exhaust valve of {valve_material} runs long at {value} per cubic inch; above {limit} it is changed for a better alloy.")
    return passes()


BUILT = """
nitrous: {power: %s}
build: {induction: natural, duty: street}
exhaust:
  valve: {material: austenitic_21_4n, build: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="planning",
    says="A {valve_build} valve of {valve_material} does not suit this engine.",
    fix="Order solid valves: austenitic steel where they may be hit or float, a nickel alloy where heat is all that matters.",
    source="sodium-filled and hollow stems: trade press; nickel against austenitic, and stem sizes: common practice, no source",
    points_at=("valve_build", "valve_material", "valve_stem_diameter_smallest"),
    conforming=(BUILT % ("0 hp", "sodium_filled", ""), BUILT % ("150 hp", "solid", "")),
    nonconforming=(BUILT % ("150 hp", "sodium_filled", "# <-"), """
        build: {induction: turbocharged}
        exhaust:
          valve: {material: titanium}  # <-
        """, """
        exhaust:
          valve: {build: undercut_stem}  # <-
          spring: {open_load: 450 lbf}
        """, """
        build: {rev_limit: 8000 rpm}
        rockers: {ratio: 1.7, equivalent_mass: 40 g}
        pushrods: {mass: 60 g}
        lifters: {mass: 110 g}
        exhaust:
          lobe: {lift: 0.353 in, advertised_duration: 281 deg, advertised_check_height: 0.006 in, duration_at_050: 231 deg}
          valve: {material: nickel_alloy_n07751, mass: 100 g}  # <-
          retainer: {mass: 16 g}
          locks: {mass: 6 g}
          spring: {count: 1, seat_load: 150 lbf, open_load: 400 lbf, mass: 105 g}
        """),
)
def valve_construction_suits_use(
    valve_build: Choice = None, valve_material: Choice = None, side_name: Choice = None, induction: Choice = None,
    boost_pressure: Pressure = None, nitrous_power: Power = None, duty: Choice = None, fuel: Choice = None, rev_limit: Rpm = None,
    float_speed_smallest: Rpm = None, spring_open_load_largest: Force = None, valve_stem_diameter_smallest: Length = None, valve_stem_coating: Choice = None, *,
    share_of_float: Fraction = q("0.90", "fraction"), slim_stem: Length = q("7 mm"), slim_stem_to: Force = q("400 lbf"),
):
    """Every way to make a valve lighter or cooler takes something away from what it bears when it is hit.

    Sodium-filled and hollow stems are two pieces and lose their heads when they float or strike; nitrous spikes do
    the same. Nickel alloys are hard in the heat but brittle and forgive no float, austenitic steel is tougher. Titanium
    on the exhaust is for short natural engines with a suitable coating, never for boost. Slim stems bend under stiff
    springs, and dry fuels wear stems that are not plated.
    """
    nickel = str(valve_material).startswith("nickel")
    hollow = valve_build in ("sodium_filled", "hollow_stem")
    if valve_build is None and valve_material is None:
        return lacking("valve_material")
    boosted = induction in ("supercharged", "turbocharged") or (boost_pressure is not None and boost_pressure > 0)
    if valve_material == "titanium" and side_name == "exhaust":
        if boosted:
            return require(False).at("valve_material").saying("Titanium exhaust valves do not stand the heat of a boosted engine.")
        if duty not in (None, "drag_race"):
            return require(False, level="note").at("valve_material").saying(
                "Titanium exhaust valves are for short runs and suitable coatings; this engine runs longer.")
    if hollow and nitrous_power is not None and nitrous_power > 0:
        return require(False).at("valve_build").saying("Hollow and filled stems do not stand nitrous: a hot stem of two pieces comes apart.")
    if (hollow or (nickel and side_name == "exhaust")) and float_speed_smallest and rev_limit is not None:
        verdict = at_most(Fraction(rev_limit / float_speed_smallest), warning=share_of_float)
        if verdict.kind == "fail":
            what = "Hollow valves" if hollow else "Nickel-alloy valves"
            return verdict.at("valve_build" if hollow else "valve_material").saying(
                what + " forgive no float, and the limiter lies at {value} of the speed where the lifter leaves the lobe; stay below {limit}.")
    if spring_open_load_largest is not None and spring_open_load_largest > slim_stem_to * (1 + 1e-9):
        slim = valve_stem_diameter_smallest is not None and valve_stem_diameter_smallest < slim_stem * (1 - 0.02)
        if valve_build == "undercut_stem" or slim:
            return at_most(spring_open_load_largest, note=slim_stem_to).at("valve_build", "valve_stem_diameter_smallest").saying(
                "Slim or undercut stems carry {spring_open_load_largest} open; up to {limit} they are trusted.")
    if valve_stem_coating == "none" and fuel in ("methanol", "ethanol", "e85", "lpg"):
        return require(False, level="note").at("valve_stem_coating").saying(
            "Bare stems run dry on this fuel.", "Order chromed or nitrided stems.")
    return passes()


MATES = """
intake:
  valve: {material: titanium, stem_coating: %s}
  guide: {material: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="Titanium valves want other mates: {trouble}.",
    fix="Fit bronze guides, or order stems with a moly or hard-film coating; leave rotators and turning locks away.",
    source="common practice, no source; the pairings are disputed",
    when={"valve_material": ("titanium",)},
    points_at=("guide_material", "valve_stem_coating"),
    conforming=(MATES % ("none", "bronze", ""), MATES % ("moly", "powder_metal", "")),
    nonconforming=(MATES % ("none", "cast_iron", "# <-"), """
        intake:
          valve: {material: titanium, groove: multi_groove}  # <-
          guide: {material: bronze}
        """),
)
def titanium_valve_has_suitable_mates(
    guide_material: Choice, valve_stem_coating: Choice = None, rotator_kind: Choice = None, valve_groove: Choice = None,
):
    """Bare titanium galls on iron: it wants bronze, or a coating between.

    It also wants to stand still in its locks, and it grows half as much as steel, so that the lash of intake and
    exhaust moves differently when only one side has it. Its tip and its seat have rules of their own.
    """
    if guide_material not in ("bronze", "bronze_liner") and valve_stem_coating not in ("moly", "hard_film", "nitride"):
        return require(False).telling(trouble="bare stems run in iron guides")
    if rotator_kind not in (None, "none"):
        return require(False).telling(trouble="rotators turn them and wear their locks").at("rotator_kind")
    return require(valve_groove != "multi_groove", level="note").telling(
        trouble="locks that let them turn wear them").at("valve_groove")


@rule(
    scope="side",
    level="reminder",
    due="machining",
    says="Never lap titanium valves: it takes the coating off their faces.",
    fix="Cut the seat, prove it with ink or by vacuum, and leave the valve's face alone.",
    source="trade press; common practice, no source",
    when={"valve_material": given},
    points_at=("valve_material",),
    conforming="intake: {valve: {material: titanium}}",
)
def titanium_valve_keeps_its_coating(valve_material: Choice):
    """A coating of a few thousandths is all that stands between titanium and its seat; paste is through it at once."""
    return review() if valve_material == "titanium" else not_applicable("no titanium valves")
