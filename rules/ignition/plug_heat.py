"""The heat range of the spark plugs: counted from stock, and colder for added heat."""

from buildlint.rulebook import *
from buildlint.tables.duties import STREET_DUTIES

HEAT = """
build: {duty: street, peak_power: %s}
ignition: {spark_plug: {steps_colder: %s, stock_power: 300 hp}}  %s
boost: {pressure: %s}
"""


@rule(
    scope="cylinder",
    level="warning",
    due="ordering",
    says="Steps colder than stock: {spark_plug_steps_colder}; added power, charge and ratio ask for about {wanted}.",
    fix="Take a plug {wanted} steps colder than stock, and read it after the first hard pull.",
    source="one step for each 75 to 100 hp, common practice, no source",
    when={"spark_plug_steps_colder": given, "spark_plug_stock_power": given},
    points_at=("spark_plug_steps_colder",),
    conforming=(HEAT % ("550 hp", "3", "", "10 psi"), HEAT % ("320 hp", "0", "", "0 psi")),
    nonconforming=(HEAT % ("550 hp", "1", "# <-", "10 psi"), HEAT % ("320 hp", "4", "# <-", "0 psi")),
)
def plug_heat_suits_power(
    spark_plug_steps_colder: Count, plug_steps_wanted: Ratio, duty: Choice = None, *, short_by: Ratio = q("1", "ratio"),
    long_by: Ratio = q("2", "ratio"),
):
    """A plug that is too hot glows and lights the charge before the spark; one that is too cold soots up in town.

    The tip should live between 500 and 850 degrees C. One step short is the makers' own spread; more is a warning. Too
    cold is only noted, and only where the engine idles on the road.
    """
    wanted = int(plug_steps_wanted + 0.5)
    short = wanted - spark_plug_steps_colder
    if short > 0:
        verdict = at_most(Ratio(short), warning=short_by)
    else:
        verdict = at_most(Ratio(-short), note=long_by) if duty in STREET_DUTIES else passes()
        verdict.saying(fix=f"It may soot up on the road: {wanted} to {wanted + 1} steps colder would do.")
    return verdict.telling(wanted=f"{wanted}")


COUNTED = """
build: {stage: ordering}
ignition: {spark_plug: {part: hc-plug-14s%s}}  %s
"""


@rule(
    scope="cylinder",
    level="warning",
    due="ordering",
    says="The plug {spark_plug_part} is named without its heat range in steps from stock; makers count heat in opposite directions.",
    fix="Write ignition.spark_plug.steps_colder: 0 for the stock heat range, 2 for two steps colder, -1 for one hotter.",
    source="common practice, no source",
    when={"spark_plug_part": given},
    points_at=("spark_plug_part",),
    conforming=COUNTED % (", steps_colder: 1", ""),
    nonconforming=COUNTED % ("", "# <-"),
)
def plug_heat_counts_from_stock(spark_plug_part: PartNumber, spark_plug_steps_colder: Count = None):
    """A higher number is colder with one maker and hotter with the next; steps from stock cannot be misread."""
    if spark_plug_steps_colder is None:
        return wanting("spark_plug_steps_colder").at("spark_plug_part")
    return passes()
