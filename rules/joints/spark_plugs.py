"""Spark plugs as fasteners: thread, seat, reach, torque, and nothing on plated threads."""

from buildlint.mechanics.threads import same_thread, thread_name
from buildlint.rulebook import *
from buildlint.tables.fasteners import PLUG_TORQUE

FITS = """
heads: {plug_thread: M14x1.25, plug_seat: gasket}
ignition: {spark_plug: {thread: %s, seat: %s}}  %s
"""


@rule(
    scope="cylinder",
    level="error",
    due="ordering",
    says="The plug is {plug}, the head's hole {hole}.",
    fix="Order plugs of {hole}.",
    source="ISO 28741 and the plug makers' tables: threads and seats are not interchangeable, from memory",
    points_at=("spark_plug_thread", "spark_plug_seat"),
    conforming=FITS % ("M14x1.25", "gasket", ""),
    nonconforming=(FITS % ("M14x1.25", "taper", "# <-"), FITS % ("M12x1.25", "gasket", "# <-")),
)
def spark_plug_thread_fits_head(
    spark_plug_thread: Thread = None, head_plug_thread: Thread = None, spark_plug_seat: Choice = None,
    head_plug_seat: Choice = None,
):
    """A taper plug in a flat seat, or the reverse, neither seals nor cools; it lets go or melts."""
    if spark_plug_thread is not None and head_plug_thread is not None and not same_thread(spark_plug_thread, head_plug_thread):
        return require(False).telling(plug=thread_name(spark_plug_thread), hole=thread_name(head_plug_thread))
    if spark_plug_seat is not None and head_plug_seat is not None:
        return matches(spark_plug_seat, head_plug_seat).at("spark_plug_seat").telling(
            plug=f"made for a {spark_plug_seat} seat", hole=f"has a {head_plug_seat} seat").saying(
            "The plug is {plug}, the head {hole}.", f"Order plugs for a {head_plug_seat} seat.")
    known = spark_plug_thread is not None and head_plug_thread is not None
    return passes() if known else not_applicable("plug or head is not described")


REACH = """
heads: {plug_thread_length: 0.750 in}
ignition: {spark_plug: {reach: %s, washer_thickness: %s, stock_washer_thickness: 0.06 in}}  %s
"""


@rule(
    scope="cylinder",
    level="error",
    due="ordering",
    says="The plug's thread ends {off} before the chamber, inside the head's.",
    fix="Order a plug of {reach_to_have} reach, or a washer that brings it there.",
    source="plug makers: thread contact must match; tolerances common practice, no source",
    when={"spark_plug_reach": given, "head_plug_thread_length": given},
    points_at=("spark_plug_reach", "spark_plug_washer_thickness"),
    conforming=(REACH % ("0.750 in", "0.06 in", ""), REACH % ("19 mm", "0.06 in", "")),
    nonconforming=(REACH % ("0.708 in", "0.06 in", "# <-"), REACH % ("0.800 in", "0.06 in", "# <-"),
                   REACH % ("0.750 in", "0.11 in", "# <-")),
)
def spark_plug_reach_fits_head(
    spark_plug_reach: Length, head_plug_thread_length: Length, spark_plug_washer_thickness: Length = None,
    spark_plug_stock_washer_thickness: Length = None, *, note_beyond: Length = q("0.5 mm"), warning_beyond: Length = q("1.0 mm"),
    error_beyond: Length = q("4 mm"),
):
    """Threads that hang into the chamber glow; a plug that is too short leaves threads to fill with carbon.

    An indexing washer of another thickness moves the plug by the difference. Four millimeters is the plug of another head,
    and the next piston may find it. Whether the tip meets the piston is another rule's matter.
    """
    extra = 0.0
    if spark_plug_washer_thickness is not None and spark_plug_stock_washer_thickness is not None:
        extra = spark_plug_washer_thickness - spark_plug_stock_washer_thickness
    over = spark_plug_reach - extra - head_plug_thread_length
    verdict = at_most(Length(abs(over)), error=error_beyond if over > 0 else None, warning=warning_beyond, note=note_beyond)
    verdict.telling(off=Length(abs(over)), reach_to_have=Length(head_plug_thread_length + extra))
    return verdict.saying("The plug's thread stands {off} out into the chamber.") if over > 0 else verdict


TORQUE = """
heads: {material: %s, plug_thread: M14x1.25, plug_seat: gasket}
ignition: {spark_plug: {torque: %s, product: %s}}  %s
"""


@rule(
    scope="cylinder",
    level="error",
    due="assembly",
    says="Plugs of {plug} are to be tightened with {spark_plug_torque}{dry}; in {metal} {least:up} to {most:down} is usual.",
    fix="Tighten them in a cold head to {least:up} to {most:down}{dry}; without a wrench a new gasket plug takes half to three quarters of a turn past finger "
        "tight, a taper plug a sixteenth.",
    source="published tables of plug makers, which agree; a cut of 30 percent for anti-seize: several of them",
    when={"spark_plug_torque": given},
    points_at=("spark_plug_torque",),
    conforming=(TORQUE % ("aluminum_356_t6", "20 lbf-ft", "dry", ""), TORQUE % ("cast_iron", "34 N*m", "dry", "")),
    nonconforming=(TORQUE % ("aluminum_356_t6", "45 N*m", "dry", "# <-"), TORQUE % ("aluminum_356_t6", "35 N*m", "dry", "# <-"),
                   TORQUE % ("aluminum_356_t6", "32 N*m", "anti_seize", "# <-"), TORQUE % ("cast_iron", "15 N*m", "dry", "# <-")),
)
def spark_plug_torque_suits_seat(
    spark_plug_torque: Torque, spark_plug_thread: Thread = None, head_plug_thread: Thread = None, spark_plug_seat: Choice = None,
    head_plug_seat: Choice = None, head_material: Choice = None, spark_plug_product: Choice = None, *,
    error_above: Ratio = q("1.5", "ratio"), lubricated_share: Fraction = q("0.70", "fraction"),
    slack: Fraction = q("0.02", "fraction"),
):
    """Too loose and the plug does not cool; too tight and its shell cracks, or the thread comes out with it.

    The tables are for dry threads; anti-seize makes the same torque tighter by two fifths. Half as much again as the
    table's top is an error. Figures rounded from one unit to the other pass.
    """
    thread, seat = spark_plug_thread or head_plug_thread, spark_plug_seat or head_plug_seat
    row = PLUG_TORQUE.get((round(thread.diameter * 1000), seat)) if thread is not None else None
    if row is None or head_material is None:
        return not_applicable("thread, seat or head is not written")
    aluminum = head_material.startswith("aluminum")
    least, most = row[1 if aluminum else 0]
    share = lubricated_share if spark_plug_product in ("anti_seize", "engine_oil", "moly_paste") else 1.0
    unit = getattr(spark_plug_torque, "unit", "")
    least, most = Torque(least * share, unit), Torque(most * share, unit)
    low, high = least * (1 - slack), most * (1 + slack)
    verdict = within(spark_plug_torque, error=(None, Torque(most * error_above)), warning=(Torque(low), Torque(high)))
    return verdict.telling(plug=f"{thread_name(thread)} with a {seat} seat", metal=head_material.replace("_", " "), least=least,
                           most=most,
                           dry="" if share == 1 else f" with {spark_plug_product.replace('_', ' ')} on their threads")


PLATED = """
ignition: {spark_plug: {plating: %s, product: %s}}  %s
"""


@rule(
    scope="cylinder",
    level="warning",
    due="assembly",
    says="{spark_plug_product} is to go on plug threads plated with {plating}.",
    fix="Fit them dry: write product: dry.",
    source="plug makers' instructions for plated shells; some builders use it with 30 percent less torque",
    when={"spark_plug_product": given},
    points_at=("spark_plug_product",),
    conforming=(PLATED % ("nickel", "dry", ""), PLATED % ("none", "anti_seize", "")),
    nonconforming=PLATED % ("nickel", "anti_seize", "# <-"),
    edit=("decision", "spark_plug_product", "dry"),
)
def plated_plugs_stay_dry(spark_plug_product: Choice, spark_plug_plating: Choice = None):
    """The plating lets the plug go by itself; paste on top makes the wrench lie and the heat path longer."""
    if spark_plug_plating in (None, "none", "black_oxide"):
        return not_applicable("not plated, as far as is written")
    return require(spark_plug_product == "dry").telling(plating=spark_plug_plating.removesuffix("_electroplated").replace("_", " "))
