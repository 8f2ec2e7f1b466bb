"""The end rails of a wet valley: the gap between manifold and block, and what fills it."""

from buildlint.rulebook import *
from buildlint.rulebook import Condition
from buildlint.tables.sealants import END_RAILS

VALLEY = Condition("leaves the valley to the manifold", lambda valley: valley in ("open", "tray"))
V = Condition("is a V", lambda layout: layout == "v")

SEALED = """
build: {stage: assembly}
engine: {layout: v}
induction: {manifold: {valley_tray: open}}
sealing: {oxygen_sensor_safe: yes%s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="assembly",
    says="{trouble}",
    fix="Lay a bead of silicone along both end rails, corner to corner, and write end_rail_filled_with and end_rail_bead.",
    source="factory practice and shop accounts; common practice, no source",
    when={"layout": V, "manifold_valley_tray": VALLEY},
    points_at=("end_rail_filled_with", "oxygen_sensor_safe", "end_rail_gap", "manifold_valley_tray"),
    conforming=(SEALED % (", end_rail_filled_with: silicone", ""), """
        engine: {layout: inline}
        induction: {manifold: {valley_tray: open}}
        """),
    nonconforming=(SEALED % (", end_rail_filled_with: none", "# <-"), SEALED % ("", "# <-")),
)
def intake_end_rails_are_sealed(
    layout: Choice, manifold_valley_tray: Choice, end_rail_filled_with: Choice = None, sealed_places: Entries = None,
    oxygen_sensor_safe: YesNo = None, end_rail_gap: Length = None,
):
    """The valley is closed by the manifold; what is not sealed at its ends rains oil on the bellhousing and sucks air.

    Only engines whose manifold closes the valley have end rails.
    """
    places = {row.get("place") for row in sealed_places or () if row.get("product") not in (None, "none", "gasket_only")}
    if end_rail_filled_with not in (None, "none") or places.issuperset(END_RAILS):
        return passes()
    if end_rail_filled_with == "none" or len(places.intersection(END_RAILS)) == 1:
        missing = "both end rails" if end_rail_filled_with == "none" else "one end rail"
        return require(False).telling(trouble=f"Nothing is to fill {missing} of the intake manifold.")
    return wanting("end_rail_filled_with").telling(trouble="Nothing is written of what fills the end rails of the intake manifold.")


BEAD = """
sealing: {end_rail_gap: %s, end_rail_bead: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="assembly",
    says="A bead of {end_rail_bead} is to fill end rails {end_rail_gap} apart; it wants at least {limit}.",
    fix="Lay a bead of {end_rail_bead_wanted}.",
    source="common practice, no source",
    when={"end_rail_bead": given, "end_rail_gap": given},
    points_at=("end_rail_bead",),
    conforming=(BEAD % ("1/8 in", "0.19 in", ""), BEAD % ("3.2 mm", "4.2 mm", "")),
    nonconforming=BEAD % ("3.2 mm", "3 mm", "# <-"),
)
def end_rail_bead_exceeds_gap(end_rail_bead: Length, end_rail_gap: Length, *, least_over: Length = q("1.0 mm")):
    """A bead that only touches is no seal: it must be squeezed by a millimeter or more when the manifold comes down."""
    return at_least(end_rail_bead, Length(end_rail_gap + least_over))


GAP = """
sealing: {end_rail_gap: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="mock_up",
    says="{trouble}",
    fix="{remedy}",
    source="common practice, no source",
    when={"end_rail_gap": given},
    points_at=("end_rail_gap",),
    conforming=(GAP % ("1/8 in", ""), GAP % ("1.5 mm", "")),
    nonconforming=(GAP % ("0 in", "# <-"), GAP % ("0.04 in", "# <-"), GAP % ("1/4 in", "# <-")),
)
def end_rail_gap_is_usable(
    end_rail_gap: Length, *, touching: Length = q("0.5 mm"), least: Length = q("1.5 mm"), most: Length = q("5 mm"),
):
    """Rails that touch hold the manifold off its gaskets; a wide gap wants a bead that does not stay where it is laid.

    Cuts on deck and heads close the gap faster than they lower the heads.
    """
    if end_rail_gap < touching:
        return at_least(end_rail_gap, error=touching).telling(cut=Length(least - end_rail_gap)).saying(
            "The end rails stand only {value} apart: they touch before the manifold is on its gaskets.",
            "Cut {cut:up} or more off the manifold's end rails.")
    verdict = within(end_rail_gap, warning=(least, most)).telling(cut=Length(max(0.0, least - end_rail_gap)))
    if verdict.facts.get("side") == "below":
        return verdict.saying("The end rails stand {value} apart; {limit} leaves room for a bead.",
                              "Cut {cut:up} off the manifold's end rails.")
    return verdict.saying("The end rails stand {value} apart; above {limit} a bead sags and is blown out.",
                          "Use thinner manifold gaskets or cut the manifold's faces, or lay the bead in two passes.")


STRIP = """
build: {duty: %s}
sealing: {end_rail_filled_with: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The end rails are to be filled with a {end_rail_filled_with}; it slips out when the manifold is drawn down.",
    fix="Leave the strips in the box and lay a bead of silicone instead.",
    source="shop practice; common practice, no source",
    when={"end_rail_filled_with": given},
    points_at=("end_rail_filled_with",),
    conforming=(STRIP % ("street", "silicone", ""), STRIP % ("stock", "cork_strip", "")),
    nonconforming=(STRIP % ("street_strip", "cork_strip", "# <-"), STRIP % ("road_race", "rubber_strip", "# <-")),
    edit=("decision", "end_rail_filled_with", "silicone"),
)
def end_rails_use_bead_alone(end_rail_filled_with: Choice, duty: Choice = None):
    """Strips are made for the uncut engine; on one that was cut they are too thick, and on any they creep.

    A stock engine may keep them.
    """
    if duty == "stock":
        return not_applicable("a stock engine")
    return require(end_rail_filled_with not in ("cork_strip", "rubber_strip"))
