"""Rotor, coil, driver and leads."""

from buildlint.rulebook import *

SWEPT = """
ignition:
  spark_source: distributor
  distributor: {advance_low: %s, advance_high: %s}  %s
  trigger: {teeth: 36, missing: 1, mounted_on: %s}
"""


@rule(
    scope="build",
    level="warning",
    due="assembly",
    says="With a fixed crank trigger the rotor passes its post over {value} of distributor; beyond {limit} the spark jumps to the next post.",
    fix="Phase the rotor to stand at its post at {middle} of advance; narrow the range to {range_to_keep:down}, or take coils without a rotor.",
    source="common practice, no source",
    when={"trigger_mounted_on": given, "distributor_advance_low": given, "distributor_advance_high": given},
    points_at=("distributor_advance_low", "distributor_advance_high"),
    conforming=SWEPT % ("10 deg", "36 deg", "", "crank"),
    nonconforming=SWEPT % ("0 deg", "44 deg", "# <-", "crank"),
)
def rotor_points_at_its_post(
    rotor_sweep: Angle, distributor_advance_low: Angle, distributor_advance_high: Angle, trigger_mounted_on: Choice,
    spark_source: Choice = None, *, most: Angle = q("15 deg"),
):
    """A distributor that only hands out the spark turns on while the controller moves the timing, and the rotor leaves its post.

    A distributor that makes its own signal carries the rotor along and is not asked.
    """
    if spark_source not in (None, "distributor", "distributor_capacitive") or trigger_mounted_on == "cam":
        return not_applicable("no rotor, or one that turns with its own signal")
    return at_most(Angle(rotor_sweep), most).telling(middle=Angle((distributor_advance_low + distributor_advance_high) / 2),
                                                     range_to_keep=Angle(2 * most))


CHARGE = """
build: {rev_limit: %s}
engine: {cylinders: 8}
ignition: {spark_source: %s, coil: {dwell: %s, spark_time: 1.0 ms}}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="At the rev limit the coil needs {coil_time_needed} from spark to spark and has {coil_time_there}: {consequence}.",
    fix="A coil of {dwell_to_order:down} dwell, more coils, or a module that shortens its dwell keeps the spark whole to {rev_limit}.",
    source="definition; 80 percent common practice, no source",
    when={"coil_dwell": given, "spark_source": ("distributor", "wasted_spark", "coil_per_cylinder")},
    points_at=("coil_dwell",),
    conforming=(CHARGE % ("7000 rpm", "coil_per_cylinder", "3.2 ms", ""), CHARGE % ("5000 rpm", "distributor", "1.2 ms", "")),
    nonconforming=(CHARGE % ("6000 rpm", "distributor", "3.2 ms", "# <-"),
                   CHARGE % ("5500 rpm", "distributor", "1.5 ms", "# <-")),
)
def coil_has_time_to_charge(
    coil_time_needed: Time, coil_time_there: Time, coil_speed_limit: Rpm, coil_dwell: Time, *,
    warning_above: Fraction = q("1.0", "fraction"),
    note_above: Fraction = q("0.80", "fraction"),
):
    """One coil for eight cylinders has two milliseconds at speed; what it has not charged it cannot spark with.

    Asked only where a fixed dwell is written. Modules that cut their dwell with speed live with less, and capacitive
    systems recharge in a millisecond.
    """
    share = coil_time_needed / coil_time_there
    verdict = at_most(Fraction(share), warning=warning_above, note=note_above)
    kept = note_above * coil_time_there - (coil_time_needed - coil_dwell)
    return verdict.telling(coil_time_needed=Time(coil_time_needed, "ms"),
                           coil_time_there=Time(coil_time_there, "ms"),
                           dwell_to_order=Time(max(kept, 0.0), "ms"),
                           consequence=f"spark energy falls above {coil_speed_limit * 9.549297:.0f} rpm"
                           if share > 1 else "little is left for a missed beat")


DRIVEN = """
ignition: {coil: {primary_current: %s, driver_current: 9 A}}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The coil draws {value} when it is full; its driver may switch {limit}.",
    fix="Take a coil of more primary resistance (running voltage over {limit} is the least), a ballast, or a stronger driver.",
    source="Ohm's law; the makers' figures",
    when={"coil_primary_current": given, "coil_driver_current": given},
    points_at=("coil_primary_current",),
    conforming=DRIVEN % ("7 A", ""),
    nonconforming=DRIVEN % ("14 A", "# <-"),
)
def coil_resistance_suits_driver(coil_primary_current: Current, coil_driver_current: Current):
    """A coil of too little resistance lets through more than the transistor bears: it dies at idle, where it is on the longest.

    The current is written because it is what the driver's sheet names; it is running voltage over primary resistance.
    """
    return at_most(Current(coil_primary_current), coil_driver_current)


LEADS = """
build: {stage: assembly}
engine: {cylinders: 8, firing_order: [1, 8, 4, 3, 6, 5, 7, 2], banks: [[1, 3, 5, 7], [2, 4, 6, 8]]}
ignition: {spark_source: distributor%s}  %s
"""


@rule(
    scope="build",
    level="note",
    due="assembly",
    says="Cylinders {pairs} fire one after the other and stand side by side: a spark may jump over between their leads{state}.",
    fix="Run these leads apart or crossed at a right angle, and write ignition.leads_apart: yes.",
    source="common practice, no source",
    when={"spark_source": ("distributor", "distributor_capacitive", "magneto", "wasted_spark")},
    points_at=("leads_apart", "spark_source"),
    conforming=LEADS % (", leads_apart: yes", ""),
    nonconforming=(LEADS % (", leads_apart: no", "# <-"), LEADS % ("", "# <-")),
)
def neighbour_leads_are_separated(firing_order: List, banks: List = None, layout: Choice = None, leads_apart: YesNo = None):
    """The second lead of such a pair can fire its plug a quarter turn early by induction, which breaks pistons quietly."""
    if len(firing_order) < 6:
        return not_applicable("they fire half a turn apart, when the neighbor is far from its own spark")
    if banks is None and layout != "inline":
        return lacking("banks")
    banks = banks or [sorted(firing_order)]  # an inline engine has one row, numbered along it
    places = {number: (bank, place) for bank, numbers in enumerate(banks) for place, number in enumerate(numbers)}
    pairs = [
        f"{first} and {second}" for first, second in zip(firing_order, [*firing_order[1:], firing_order[0]])
        if first in places and second in places and places[first][0] == places[second][0] and abs(places[first][1] -
                                                                                                  places[second][1]) == 1
    ]
    if not pairs:
        return not_applicable("no neighbors fire one after the other")
    if leads_apart is None:
        return wanting("leads_apart").at("spark_source").telling(pairs=", ".join(pairs),
                                                                 state="; nothing is written of how they run")
    return require(leads_apart).telling(pairs=", ".join(pairs), state="")
