"""Whether the lift on the card is understood, and whether a change of rocker ratio was carried through."""

from buildlint.rulebook import *

LIFT = """
rockers: {ratio: 1.7, standard_ratio: 1.6}
lifters: {kind: solid_roller}
intake:
  lash_hot: 0.020 in
  lobe:
    lift: 0.353 in
    card_valve_lift: %s  %s
    %s
"""

MEANS = {
    "at_lobe": "the lift at the lobe", "gross": "gross lift at ratio {ratio}", "net_of_lash": "lift net of lash",
    "gross_at_standard_ratio": "gross lift at the standard ratio",
}


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The card calls {lobe_card_valve_lift} the lift; {reading} would be {limit}.",
    fix="Ask for the lift at the lobe and write it as lobe.lift; say under card_valve_lift_means what the card's figure stands "
        "for.",
    source="kinematics of the rocker; limits common practice, no source",
    when={"lobe_card_valve_lift": given},
    points_at=("lobe_card_valve_lift",),
    conforming=(LIFT % ("0.600 in", "", ""), LIFT % ("0.580 in", "", "card_valve_lift_means: net_of_lash"),
                LIFT % ("0.353 in", "", "card_valve_lift_means: at_lobe")),
    nonconforming=(LIFT % ("0.640 in", "# <-", ""), LIFT % ("0.620 in", "# <-", "card_valve_lift_means: gross"),
                   LIFT % ("0.353 in", "# <-", ""), LIFT % ("0.565 in", "# <-", "")),
)
def valve_lift_matches_lobe_and_ratio(
    lobe_card_valve_lift: Length, lobe_lift: Length, rocker_ratio: Ratio, lobe_card_valve_lift_means: Choice = None,
    rocker_standard_ratio: Ratio = None, lash_running: Length = None, *,
    same_within: Fraction = q("0.01", "fraction"), note_beyond: Fraction = q("0.005", "fraction"),
    note_beyond_length: Length = q("0.003 in"), warning_beyond: Fraction = q("0.02", "fraction"),
    error_beyond: Fraction = q("0.05", "fraction"),
):
    """Lift on a card may be at the lobe, gross at somebody's ratio, or net of lash; coil bind is reckoned from it.

    Where it is said what the figure means it is checked as that; where not, every reading is tried. One that fits
    within a percent settles it, none means that lobe, ratio or lift is mistyped.
    """
    if not (lobe_lift > 0 and rocker_ratio > 0):
        return lacking("lobe_lift")
    readings = {"gross": rocker_ratio * lobe_lift, "at_lobe": lobe_lift + 0.0}
    if rocker_standard_ratio is not None and rocker_standard_ratio != rocker_ratio:
        readings["gross_at_standard_ratio"] = rocker_standard_ratio * lobe_lift
    if lash_running:
        readings["net_of_lash"] = max(rocker_ratio * lobe_lift - lash_running, 1e-6)
    meant = lobe_card_valve_lift_means
    if meant == "gross_at_standard_ratio" and rocker_standard_ratio == rocker_ratio:
        meant = "gross"
    if meant is not None and meant not in readings:
        return lacking("rocker_standard_ratio" if meant == "gross_at_standard_ratio" else "lash_hot")
    if meant is not None:
        off = abs(lobe_card_valve_lift - readings[meant])
        share = off / readings[meant]
        verdict = at_most(Fraction(share), error=error_beyond, warning=warning_beyond)
        if verdict.kind == "pass" and share > note_beyond and off > note_beyond_length:
            verdict = at_most(Fraction(share), note=note_beyond)
        return _told(verdict, lobe_card_valve_lift, readings[meant], meant, rocker_ratio)
    fitting = [name for name, lift in readings.items() if abs(lobe_card_valve_lift / lift - 1) < same_within]
    nearest = min(readings, key=lambda name: abs(lobe_card_valve_lift - readings[name]))
    if not fitting:
        return _told(require(False), lobe_card_valve_lift, readings[nearest], nearest, rocker_ratio).saying(
            "The card calls {lobe_card_valve_lift} the lift, which fits no reading; the nearest, {reading}, would be {limit}.")
    if fitting == ["gross"]:
        return passes()
    level = "warning" if "at_lobe" in fitting else "note"
    return _told(require(False, level), lobe_card_valve_lift, readings[fitting[0]], fitting[0], rocker_ratio).saying(
        "The card calls {lobe_card_valve_lift} the lift, and it does not say which; it fits {reading}.",
        "Write card_valve_lift_means, so that nobody takes it for another lift.")


def _told(verdict, value, limit, name, ratio):
    verdict.comparing(value, Length(limit))
    return verdict.telling(reading=MEANS[name].format(ratio=f"{ratio:.4g}"))


CHANGED = """
rockers: {ratio: 1.8, ratio_changed_on: 2026-04-02}
intake:
  spring: {chosen_on: %s}  %s
  piston_gap: 0.110 in
  piston_gap_measured_on: %s
"""


@rule(
    scope="side",
    level="warning",
    due="ordering",
    says="The rocker ratio was changed on {rocker_ratio_changed_on}; {older} since.",
    fix="Look again with the new ratio at coil bind, retainer to seal, piston to valve, the load on the rocker and its slot, and "
        "write the new dates.",
    source="common practice, no source",
    when={"rocker_ratio_changed_on": given},
    conforming=CHANGED % ("2026-04-03", "", "2026-05-11"),
    nonconforming=(CHANGED % ("2026-03-01", "# <-", "2026-05-11"), (CHANGED % ("2026-04-03", "", "2026-03-20")).replace(
        "2026-03-20", "2026-03-20  # <-")),
)
def ratio_change_is_carried_through(
    rocker_ratio_changed_on: Date, spring_chosen_on: Date = None, piston_gap_measured_on: Date = None,
):
    """A step in rocker ratio is never alone: it moves lift, coil bind, seal gap, piston to valve and every load.

    What follows from written figures is reckoned anew by itself; what was decided or measured by a person is not,
    so its date must be later than the change.
    """
    stale = [(word, text) for word, date, text in (
        ("spring_chosen_on", spring_chosen_on, "the springs were not chosen again"),
        ("piston_gap_measured_on", piston_gap_measured_on, "piston to valve was not measured again"),
    ) if date is not None and date < rocker_ratio_changed_on]
    if stale:
        return require(False).telling(older=" and ".join(text for _, text in stale)).at(stale[0][0])
    return wanting("spring_chosen_on").telling(older="no date tells whether the springs were chosen again") \
        if spring_chosen_on is None else passes()
