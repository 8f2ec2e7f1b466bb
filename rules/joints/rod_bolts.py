"""Rod bolts that are tightened by stretch and measured again: the right stretch, the same length, the same rod."""

from buildlint.rulebook import *
from buildlint.rulebook import Condition

STRETCH = """
joints:
  rod:
    {kind: cap_screw, thread: 7/16-20, strength_class: 220_ksi, shank_length: 1.20 in, thread_in_grip: 0.25 in, tightening: stretch, stretch: %s}  %s
"""


@rule(
    scope="cylinder",
    level="error",
    due="assembly",
    says="{trouble}",
    fix="Look at the maker's sheet and the bolt's lengths again; {stretch_to_have} is 0.75 of yield with half a diameter of the "
        "engaged thread counted.",
    source="Hooke; VDI 2230-1, compliance of a fastener; the aim common practice, no source",
    when={"rod_joint_stretch": given},
    points_at=("rod_joint_stretch",),
    conforming=(STRETCH % ("0.0065 in", ""), STRETCH % ("0.0055 in", "")),
    nonconforming=(STRETCH % ("0.0100 in", "# <-"), STRETCH % ("0.0035 in", "# <-"), STRETCH % ("0.0085 in", "# <-")),
)
def rod_bolt_stretch_fits_calculation(
    rod_joint_stretch: Length, rod_joint_stretch_for_target: Length = None, rod_joint_stretch_at_yield: Length = None,
    rod_joint_shank_length: Length = None, rod_joint_strength_class: Choice = None,
    rod_joint_yield_strength_written: Pressure = None, *,
    least: Fraction = q("0.70", "fraction"), most: Fraction = q("1.15", "fraction"),
):
    """Stretch is tension made visible; a figure from another bolt, or in another unit, is caught by its own stiffness.

    Usual figures lie between 0.005 and 0.008 in. Makers count the engaged thread differently, so the band is wide.
    Where only the grip is known the bolt is taken as threaded all along, and where the strength is assumed from the
    steel's name the finding is a warning.
    """
    if rod_joint_stretch_for_target is None or rod_joint_stretch_at_yield is None:
        return not_applicable("lengths or strength of the rod bolt are not known")
    facts = {"stretch_to_have": Length(rod_joint_stretch_for_target), "at_yield": Length(rod_joint_stretch_at_yield)}
    verdict = at_most(Length(rod_joint_stretch), Length(rod_joint_stretch_at_yield)).telling(**facts)
    if verdict.kind == "fail":
        assumed = rod_joint_strength_class is not None and rod_joint_strength_class.endswith("_ksi") and rod_joint_yield_strength_written is None
        if assumed and rod_joint_stretch < 1.10 * rod_joint_stretch_at_yield or rod_joint_shank_length is None:
            verdict.within_level("warning")
        return verdict.saying("A stretch of {value} is past the {at_yield} at which this bolt yields.")
    share = Fraction(rod_joint_stretch / rod_joint_stretch_for_target)
    return within(share, warning=(least, most)).telling(**facts).saying(
        "A stretch of {rod_joint_stretch} is {value} of what 0.75 of yield makes in this bolt.")


GROWTH = """
joints:
  rod: {free_length_growth: %s}  %s
"""


@rule(
    scope="cylinder",
    level="error",
    due="assembly",
    says="The rod bolts are {value} longer than they were new; {limit} is the end.",
    fix="Replace the whole set, and have the big ends sized with the new bolts at their final stretch.",
    source="common practice, no source",
    when={"rod_joint_free_length_growth": given},
    points_at=("rod_joint_free_length_growth",),
    conforming=(GROWTH % ("0.0004 in", ""), GROWTH % ("0 in", "")),
    nonconforming=(GROWTH % ("0.0012 in", "# <-"), GROWTH % ("0.0007 in", "# <-")),
)
def rod_bolts_keep_their_length(
    rod_joint_free_length_growth: Length, *, error_above: Length = q("0.001 in"), warning_above: Length = q("0.0005 in"),
):
    """A bolt that stays longer has yielded; the next stretch starts from a weaker bolt."""
    return at_most(rod_joint_free_length_growth, error=error_above, warning=warning_above)


@rule(
    scope="cylinder",
    level="reminder",
    due="assembly",
    says="Number each rod bolt to its rod and hole, and measure it on the same dimples every time.",
    fix="Write the free lengths down by rod; a bolt that changes places is measured anew.",
    source="common practice, no source",
    when={"rod_joint_tightening": Condition("is by stretch", lambda method: method == "stretch")},
    conforming="joints: {rod: {tightening: stretch, stretch: 0.006 in}}",
)
def rod_bolts_stay_with_their_rods(rod_joint_tightening: Choice):
    """A micrometer knows only the dimples it was set on; swapped bolts make nonsense of good notes."""
    return review()
