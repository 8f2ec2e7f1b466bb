"""The damper: its rating, its age, whether it may be left out, and the speeds at which the crank twists."""

from buildlint.rulebook import *

RATING = """
build: {rev_limit: %s, sanction: %s}
damper: {kind: bonded_rubber, certified: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="{reason} runs an uncertified damper.",
    fix="Fit a damper tested to SFI 18.1, bonded or otherwise; the rule book in force decides.",
    source="SFI 18.1: spun at 12 500 to 13 500 rpm for an hour; the trigger speed common practice, no source",
    caution="A damper that bursts throws its ring through hood and firewall: keep clear of its plane when the engine is revved.",
    points_at=("damper_certified", "damper_kind"),
    conforming=(RATING % ("6800 rpm", "none", "sfi_18_1", ""), RATING % ("6200 rpm", "none", "none", "")),
    nonconforming=(RATING % ("7200 rpm", "none", "none", "# <-"), RATING % ("6000 rpm", "club drag racing rules", "none", "# <-"),
                   RATING % ("6700 rpm", "none", "none", "# <-")),
)
def damper_suits_speed_and_rules(
    rev_limit: Rpm, damper_certified: Choice = None, sanction: Text = None, *, note_above: Rpm = q("6500 rpm"), warning_above: Rpm = q("7000 rpm"),
):
    """The ring of a stock damper is held by rubber; at speed it moves, then it leaves.

    Where the stock damper ends is folklore, so just above 6500 rpm is a note. Under a rule book the certificate is asked for
    at any speed. Below the line and without a rule book nobody asks which paper the damper has.
    """
    ruled = sanction is not None and sanction.strip().lower() not in ("", "none", "no")
    if damper_certified is None:
        return lacking("damper_certified") if ruled or rev_limit > note_above else not_applicable("no certificate is asked for")
    if damper_certified == "sfi_18_1":
        return passes()
    if ruled:
        return require(False).telling(reason="An engine under a rule book")
    verdict = at_most(rev_limit, note=note_above, warning=warning_above)
    return verdict.telling(reason="{value} at the limiter").at("damper_certified").saying(
        "At {value} the engine runs an uncertified damper; above {limit} a certified one is usual.")


AGE = """
damper: {kind: %s, age: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The damper's rubber is {value} old; above {limit} it is no longer trusted.",
    fix="Fit a new damper, or have this one bonded anew and its mark checked against top.",
    source="common practice, no source",
    when={"damper_age": given, "damper_kind": ("bonded_rubber",)},
    points_at=("damper_age",),
    conforming=(AGE % ("bonded_rubber", "3 year", ""), AGE % ("viscous", "25 year", "")),
    nonconforming=AGE % ("bonded_rubber", "25 year", "# <-"),
)
def damper_is_young_enough(damper_age: Time, *, oldest: Time = q("10 year")):
    """Old rubber lets the ring creep: the timing mark wanders first, then the ring walks into the cover."""
    return at_most(Time(damper_age, "years"), oldest)


HUB = """
build: {duty: %s}
damper: {kind: solid_hub, original: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="A solid hub replaces the damper that the engine's maker fitted, in {duty} duty.",
    fix="Keep a damper: for long crank life any kind is better than none.",
    source="common practice, no source",
    when={"damper_original": given, "damper_kind": ("solid_hub",)},
    points_at=("damper_kind",),
    conforming=(HUB % ("street", "solid_hub", ""), HUB % ("drag_race", "bonded_rubber", "")),
    nonconforming=(HUB % ("street", "bonded_rubber", "# <-"), HUB % ("road_race", "bonded_rubber", "# <-")),
)
def street_engine_keeps_its_damper(damper_kind: Choice, damper_original: Choice, duty: Choice):
    """Without a damper the crank twists at its own speeds until it breaks at the first throw, or the timing set does.

    Some fours and sixes never had one; only where the maker fitted a damper is it asked for. A few seconds at a time on
    the strip are lived with.
    """
    if damper_original == "solid_hub":
        return not_applicable("its maker fitted none")
    if duty == "drag_race":
        return not_applicable("seconds at a time")
    return require(False)


TWIST = """
engine: {layout: v, cylinders: 8}
build: {rev_limit: %s}
damper: {kind: %s}
crank:
  torsional_inertias: [0.020 kg*m^2, 0.016 kg*m^2, 0.016 kg*m^2, 0.016 kg*m^2, 0.016 kg*m^2, 0.140 kg*m^2]  %s
  torsional_stiffnesses: [250000 N*m/rad, 575100 N*m/rad, 575100 N*m/rad, 575100 N*m/rad, 600000 N*m/rad]
"""
# strong orders of even-firing engines: half the cylinders and its multiples. Any text on engine vibration, from memory.
ORDERS = {"v8": (4.0, 8.0), "inline6": (3.0, 6.0, 9.0), "inline4": (2.0, 4.0, 6.0), "v6": (3.0, 6.0)}


@rule(
    scope="build",
    level="note",
    due="planning",
    says="By estimate the crank twists at {frequency}; order {order} meets it at {critical}, within {limit} of the rev limit.",
    fix="Ask the damper's maker for one tuned to this crank, or move the rev limit.",
    source="torsional chain, any text on vibration; inertias and stiffnesses as written",
    when={"crank_torsional_frequency": given},
    points_at=("crank_torsional_inertias",),
    conforming=TWIST % ("6500 rpm", "bonded_rubber", ""),
    nonconforming=(TWIST % ("4700 rpm", "bonded_rubber", "# <-"), TWIST % ("4700 rpm", "solid_hub", "# <-")),
)
def crank_avoids_strong_torsional_orders(
    crank_torsional_frequency: Frequency, rev_limit: Rpm, layout: Choice, cylinders: Count, damper_kind: Choice = None, *,
    orders=ORDERS, within_share: Fraction = q("0.05", "fraction"),
):
    """Running at a strong critical breaks cranks, flywheel bolts and timing gears; passing through it quickly does not.

    The chain is a model with guessed stiffnesses; five percent either way is all it can tell. A tuned damper moves the
    peak and takes it down.
    """
    for order in orders.get(f"{layout}{int(cylinders)}", ()):
        critical = 2 * 3.141592653589793 * crank_torsional_frequency / order
        if abs(critical / rev_limit - 1) <= within_share:
            verdict = require(False).telling(frequency=Frequency(crank_torsional_frequency), order=f"{order:g}", critical=Rpm(critical),
                                             limit=Fraction(within_share))
            verdict.limit = Fraction(within_share)
            return verdict.saying(fix="Fit a tuned damper; a solid hub leaves the peak as it is." if damper_kind == "solid_hub" else None)
    return passes()
