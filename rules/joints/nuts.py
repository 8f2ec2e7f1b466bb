"""Nuts: what holds them, and whether it stands the heat of its place."""

from buildlint.rulebook import *

HOT = ("head", "main", "main_side", "rod", "oil_pump", "rocker", "rocker_intake", "rocker_exhaust")
NYLON = """
joints: {%s: {kind: stud, nut: {kind: %s}%s}}  %s
"""


@rule(
    scope="joint",
    level="warning",
    due="ordering",
    says="The nylon in the {joint_name} nuts gives up at about {limit}, and takes part of the torque for itself.",
    fix="Take the plain or twelve-point nuts of the stud's maker, with the washers and lubricant of the set.",
    source="polyamide inserts are rated to 120 degC: ISO 2320, from memory; the rest common practice, no source",
    when={"nut_kind": given},
    points_at=("nut_kind",),
    conforming=(NYLON % ("head", "twelve_point", "", ""), NYLON % ("water_pump", "nylon_insert", "", ""), NYLON % ("head", "nylon_insert", ", service_temperature: 90 degC", "")),
    nonconforming=(NYLON % ("head", "nylon_insert", "", "# <-"), NYLON % ("main", "nylon_insert", "", "# <-"),
                   NYLON % ("water_pump", "nylon_insert", ", service_temperature: 150 degC", "# <-")),
)
def nylon_nut_stays_cool(
    nut_kind: Choice, joint_name: Choice, service_temperature: Temperature = None, *, nylon_to: Temperature = q("120 degC", "temperature"),
):
    """An insert that is softened once holds nothing any more, and its drag goes into the wrench instead of the stud.

    Over the combustion chambers and in hot oil it is past its limit; on brackets and covers it is welcome. The exhaust's nuts have a
    rule of their own.
    """
    if nut_kind != "nylon_insert" or joint_name == "exhaust_manifold":
        return passes()
    if service_temperature is not None:
        return at_most(service_temperature, nylon_to).saying("The {joint_name} nuts run at {value}; their nylon gives up at about {limit}.")
    verdict = require(joint_name not in HOT)
    verdict.limit = nylon_to
    return verdict
