"""Piston cooling jets: their oil, their room, and their holes when they are left out."""

from buildlint.rulebook import *

SUPPLY = """
engine: {cylinders: 8}
oiling:
  pressure_hot: 50 psi
  jets: {kind: %s, diameter: 1.6 mm, opening_pressure: %s}
  pump: {volume: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="ordering",
    says="The piston jets take more oil than the pump has to spare.",
    fix="Take the larger pump, or smaller jets.",
    source="orifice equation; limits common practice, no source",
    when={"oil_jets_kind": fitted},
    points_at=("oil_pump_volume", "oil_jets_kind"),
    conforming=(SUPPLY % ("added", "35 psi", "plus_25", ""), SUPPLY % ("factory", "35 psi", "standard", ""), """
        engine: {cylinders: 8}
        oiling:
          pressure_hot: 50 psi
          jets: {kind: added, diameter: 0.8 mm, opening_pressure: 35 psi}
          pump: {volume: plus_10, pressure_flow: 14 gpm}
        """),
    nonconforming=(SUPPLY % ("added", "35 psi", "standard", "# <-"), """
        engine: {cylinders: 8}
        oiling:
          pressure_hot: 50 psi
          pump: {volume: plus_10, pressure_flow: 14 gpm}  # <-
          jets: {kind: added, diameter: 1.6 mm, opening_pressure: 35 psi}
        """, """
        engine: {cylinders: 8}
        oiling:
          pump: {volume: standard}
          jets: {kind: factory, opening_pressure: 15 psi}  # <-
        """),
)
def piston_jets_have_oil_supply(
    oil_jets_kind: Choice, oil_pump_volume: Choice, oil_jets_opening_pressure: Pressure = None, oil_jet_flow: Flow = None,
    cylinders: Count = None, oil_pump_pressure_flow: Flow = None, *, largest_share: Fraction = q("0.25", "fraction"),
    opens_from: Pressure = q("30 psi"),
):
    """Eight jets take a fifth to a third of a pump's flow, and the bearings get what is left.

    Jets that close at idle spare the bearings; ones that never close empty them just when they need it.
    """
    if oil_jets_kind not in ("factory", "added"):
        return not_applicable("no jets run")
    if oil_jet_flow is not None and oil_pump_pressure_flow and cylinders is not None:
        total = cylinders * oil_jet_flow
        verdict = at_most(Fraction(total / oil_pump_pressure_flow), largest_share).telling(total=Flow(total))
        if verdict.kind == "fail":
            return verdict.saying("The jets take {total}, {value} of the pump's flow; up to {limit} is lived with.")
    elif oil_jets_kind == "added" and oil_pump_volume == "standard":
        return require(False).saying("Jets are added, and the pump stays the standard one.")
    if oil_jets_opening_pressure is not None and oil_pump_volume == "standard":
        verdict = at_least(oil_jets_opening_pressure, opens_from)
        return verdict.at("oil_jets_opening_pressure").saying(
            "The jets open at {value} and take oil at idle from a standard pump.",
            "Take jets that open at {opens_from:up} or more, or the larger pump.")
    return passes()


ROOM = """
oiling:
  jets: {kind: added}
rods: {jet_gap: %s}  %s
"""


@rule(
    scope="cylinder",
    level="warning",
    due="mock_up",
    says="Between jet and rod, skirt or counterweight {value} is left; keep {limit}.",
    fix="Bend or change the jet, or notch the skirt; turn the engine twice round by hand with every jet fitted and look again.",
    source="common practice, no source",
    when={"oil_jets_kind": fitted},
    points_at=("rod_jet_gap",),
    conforming=ROOM % ("0.080 in", ""),
    nonconforming=ROOM % ("0.040 in", "# <-"),
)
def piston_jets_clear_moving_parts(oil_jets_kind: Choice, rod_jet_gap: Length = None, *, least: Length = q("0.060 in")):
    """Jets inherited from a shorter stroke or another piston are in the way of the new one; the first turn bends them into the bore."""
    if oil_jets_kind not in ("factory", "added"):
        return not_applicable("no jets run")
    if rod_jet_gap is None:
        return lacking("rod_jet_gap")
    return at_least(rod_jet_gap, least)


@rule(
    scope="build",
    level="reminder",
    due="assembly",
    says="Every hole of the deleted piston jets is plugged.",
    fix="Plug every jet hole with a fitted plug, pressure-test the gallery, and look at pin clearance again: the pistons run hotter.",
    source="common practice, no source",
    when={"oil_jets_kind": fitted},
    points_at=("oil_jets_kind",),
    conforming="oiling: {jets: {kind: deleted_and_plugged}}",
    nonconforming="oiling: {jets: {kind: deleted_open}}  # <-",
)
def deleted_jets_are_plugged(oil_jets_kind: Choice):
    """An open jet hole is an open gallery: the engine makes no pressure, or makes it and throws it at one piston."""
    if oil_jets_kind not in ("deleted_and_plugged", "deleted_open"):
        return not_applicable("the jets are not deleted")
    if oil_jets_kind == "deleted_open":
        return require(False, "error").saying("The piston jets are left out and their holes are open: the gallery empties through them.")
    return review()
