"""The speeds of an engine in their order, and what the limiter and an over-rev ask of the parts."""

from buildlint.rulebook import *

TEN_RPM = q("10 rpm")  # a speed to set is told rounded down

ORDER = """
build: {idle_speed: %s, window_low: %s, peak_torque_speed: %s, peak_power_speed: %s, shift_speed: %s, rev_limit: %s}  %s
"""
GOOD_ORDER = ORDER % ("850 rpm", "2800 rpm", "4800 rpm", "6200 rpm", "6500 rpm", "6800 rpm", "")

# From slow to fast: (word, name, whether it must be truly above the one before).
SPEEDS = (("idle_speed", "idle", True), ("window_low", "the low end of the window", True), ("peak_torque_speed", "the torque peak", False),
          ("peak_power_speed", "the power peak", True), ("shift_speed", "the shift", False), ("rev_limit", "the limiter", False))


@rule(
    scope="build",
    level="error",
    due="planning",
    says="{Upper} stands at {value}, {lower} at {limit}: {upper} belongs above it.",
    fix="Correct the one that is wrong; the order is idle, low end of the window, torque peak, power peak, shift, limiter.",
    source="definitions of the speeds",
    conforming=(GOOD_ORDER, ORDER % ("850 rpm", "2800 rpm", "2800 rpm", "5000 rpm", "5000 rpm", "5000 rpm", "")),
    nonconforming=(ORDER % ("850 rpm", "2800 rpm", "6200 rpm", "4800 rpm", "6500 rpm", "6800 rpm", "# <-"),
                   ORDER % ("850 rpm", "2800 rpm", "4800 rpm", "6200 rpm", "6500 rpm", "6400 rpm", "# <-"),
                   ORDER % ("2800 rpm", "2800 rpm", "4800 rpm", "6200 rpm", "6500 rpm", "6800 rpm", "# <-"),
                   ORDER % ("850 rpm", "2800 rpm", "4800 rpm", "6200 rpm", "5900 rpm", "6800 rpm", "# <-")),
)
def speeds_stand_in_order(
    idle_speed: Rpm = None, window_low: Rpm = None, peak_torque_speed: Rpm = None, peak_power_speed: Rpm = None, shift_speed: Rpm = None,
    rev_limit: Rpm = None, duty: Choice = None,
):
    """Every limit hangs on one of these speeds; two of them swapped, and fuel, springs and converter are chosen for another engine.

    Each is held against the nearest slower one that is written. Idle lies truly below the window and the torque peak below the
    power peak; the others may be equal, as in a boat that is geared to its power peak. A shift below the power peak gives power
    away but harms nothing: a warning, and in stock and towing duty, where gearboxes are set so, a note.
    """
    values = (idle_speed, window_low, peak_torque_speed, peak_power_speed, shift_speed, rev_limit)
    below, strict = None, False
    for (word, name, above), value in zip(SPEEDS, values):
        strict = strict or above
        if value is None:
            continue
        if below is not None:
            under, under_name = below
            verdict = at_least(value, under)
            if verdict.kind == "pass" and strict and value <= under * (1 + 1e-9):
                verdict = require(False)
                verdict.value, verdict.limit = value, under
            if word == "shift_speed":
                verdict.within_level("note" if duty in ("stock", "towing") else "warning")
            if verdict.kind == "fail":
                return verdict.at(word).telling(upper=name, Upper=name[0].upper() + name[1:], lower=under_name)
        below, strict = (value, name), False
    return passes() if sum(value is not None for value in values) > 1 else not_applicable("fewer than two speeds are written")


REDLINE = "build: {redline: %s, rev_limit: 6800 rpm}  %s"


@rule(
    scope="build",
    level="warning",
    due="handover",
    says="The tachometer's red begins at {redline}, the limiter is set to {rev_limit}; keep them within {tolerance}.",
    fix="Mark the red at {rev_limit}, or set the limiter to {redline}.",
    source="common practice, no source",
    when={"redline": given, "rev_limit": given},
    points_at=("redline",),
    conforming=(REDLINE % ("6700 rpm", ""), REDLINE % ("6900 rpm", "")),
    nonconforming=REDLINE % ("7200 rpm", "# <-"),
)
def redline_matches_limiter(redline: Rpm, rev_limit: Rpm, *, tolerance: Rpm = q("100 rpm")):
    """A driver shifts by the red; if the limiter comes first he hangs in it, if it comes later nothing holds him."""
    return matches(redline, rev_limit, tolerance=tolerance)


SPACED = "build: {peak_torque_speed: %s, peak_power_speed: %s, rev_limit: %s}  %s"


@rule(
    scope="build",
    level="note",
    due="planning",
    says="The power peak lies {value} times as high as the torque peak; {low} to {high} is usual.",
    fix="Look at the claimed peaks again; a sheet of another engine, or a peak read off a truncated curve, looks like this.",
    source="common practice, no source",
    when={"peak_torque_speed": given, "peak_power_speed": given},
    points_at=("peak_power_speed",),
    conforming=(SPACED % ("4800 rpm", "6200 rpm", "6800 rpm", ""), SPACED % ("2600 rpm", "4000 rpm", "4700 rpm", "")),
    nonconforming=(SPACED % ("4800 rpm", "5200 rpm", "5800 rpm", "# <-"), SPACED % ("4800 rpm", "6200 rpm", "6300 rpm", "# <-"),
                   SPACED % ("3000 rpm", "4400 rpm", "6500 rpm", "# <-")),
)
def peak_speeds_are_well_spaced(
    peak_torque_speed: Rpm, peak_power_speed: Rpm, rev_limit: Rpm = None, induction: Choice = None, duty: Choice = None, *,
    low: Ratio = q("1.12", "ratio"), high: Ratio = q("1.60", "ratio"), least: Rpm = q("200 rpm"), most: Rpm = q("1500 rpm"),
):
    """Cam, head and intake of one engine put the peaks some way apart; peaks too close or too far are often of two engines.

    A limiter right at the power peak gives away the shift, one far beyond it wears parts for nothing. A compressor, or the
    small ports of a stock engine, make a flat torque curve whose peak may lie anywhere, so there only peaks too close are told.
    """
    most_apart = high if induction in (None, "natural") and duty not in ("stock", "towing") else None
    verdict = within(Ratio(peak_power_speed / peak_torque_speed), low, most_apart)
    if verdict.kind == "fail" or rev_limit is None:
        return verdict
    verdict = within(Rpm(rev_limit - peak_power_speed), least, most).at("rev_limit")
    return verdict.saying("The limiter stands {value} above the power peak; {least} to {most} is usual.",
                          "Move the limiter to where the engine is still wanted after the shift, within what the parts bear.")


WEAKEST = """
build: {rev_limit: %s}  %s
engine: {stated_valvetrain_speed: 7000 rpm}
"""


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="The limiter is set to {value}; the valve train is said to be good for {stated_valvetrain_speed}, which leaves less than {margin}.",
    fix="Set the limiter to {limit}, or build the valve train for more.",
    source="common practice, no source; the speed is that of whoever supplied the parts",
    when={"rev_limit": given, "stated_valvetrain_speed": given},
    points_at=("rev_limit",),
    conforming=(WEAKEST % ("6700 rpm", ""), WEAKEST % ("6200 rpm", "")),
    nonconforming=(WEAKEST % ("6800 rpm", "# <-"), WEAKEST % ("7200 rpm", "# <-")),
)
def rev_limit_respects_weakest_part(rev_limit: Rpm, stated_valvetrain_speed: Rpm, *, margin: Rpm = q("300 rpm")):
    """A limiter protects nothing when it is set above what the weakest part was sold for.

    The speed a supplier states for his valve train is held against it here with 300 rpm in hand; between that and the speed itself
    is a note. What follows from springs, lobes, rods, rotor, coils and injectors is judged by the rules on those parts.
    """
    verdict = at_most(rev_limit, warning=stated_valvetrain_speed, note=Rpm(stated_valvetrain_speed - margin))
    if verdict.level == "warning":
        verdict.limit = Rpm(stated_valvetrain_speed - margin)
        verdict.saying("The limiter is set to {value}; the valve train is said to be good for {stated_valvetrain_speed} only.")
    return verdict


OVERSPEED = """
build: {transmission: manual, rev_limit: %s%s}
engine: {stated_valvetrain_speed: 7600 rpm}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="A missed shift takes the engine to {value}; {what} {limit}.",
    fix="Set the limiter to {safe:down} or below, or choose parts for {value}.",
    source="common practice, no source; 10 percent over the limiter where nothing is written",
    points_at=("rev_limit",),
    conforming=(OVERSPEED % ("6800 rpm", "", ""), OVERSPEED % ("7400 rpm", ", missed_shift_overspeed: 0.02", "")),
    nonconforming=("""
        build: {transmission: manual, rev_limit: 7200 rpm}  # <-
        engine: {stated_valvetrain_speed: 7600 rpm}
        """, """
        build: {transmission: manual, rev_limit: 6500 rpm, induction: supercharged}  # <-
        boost: {crank_pulley: 7.0 in, blower_pulley: 3.0 in, blower_speed_limit: 16000 rpm}
        """),
)
def overspeed_stays_within_limits(
    overspeed: Rpm, rev_limit: Rpm, transmission: Choice = None, missed_shift_overspeed: Fraction = None, stated_valvetrain_speed: Rpm = None,
    intake_float_speed: Rpm = None, exhaust_float_speed: Rpm = None, blower_drive_ratio: Ratio = None, boost_blower_speed_limit: Rpm = None, *,
    float_share: Fraction = q("0.98", "fraction"),
):
    """A limiter cuts the spark, not the rear wheels: one wrong gear and the car turns the engine.

    Asked where the gears are shifted by hand, or where an overspeed is written. The speed a valve train is sold for, the speed at
    which a rigid one leaves its lobe, and the rotor's limit are hard: nothing is asked in hand there. Rods are judged at this speed
    by their own rule.
    """
    if missed_shift_overspeed is None and transmission != "manual":
        return not_applicable("the gears are not shifted by hand")
    if missed_shift_overspeed is not None and missed_shift_overspeed <= 0:
        return not_applicable("no over-rev is expected")
    limits = []
    if stated_valvetrain_speed is not None:
        limits.append((stated_valvetrain_speed, "the valve train is said to be good for"))
    floats = [speed for speed in (intake_float_speed, exhaust_float_speed) if speed is not None]
    if floats:
        limits.append((float_share * min(floats), "the valves leave their lobes at about"))
    if blower_drive_ratio is not None and boost_blower_speed_limit is not None:
        limits.append((boost_blower_speed_limit / blower_drive_ratio, "the blower's rotor is good for an engine speed of"))
    weakest = min(limits)[0] if limits else None
    limits = [(limit, what) for limit, what in limits if rev_limit <= limit]  # beyond it at the limiter already: told by that part's rule
    if not limits:
        return not_applicable("no part's limit is known, or it is passed at the limiter already")
    limit, what = min(limits)
    return at_most(Rpm(overspeed), Rpm(limit)).telling(what=what, safe=Rpm(weakest * rev_limit / overspeed // TEN_RPM * TEN_RPM))
