"""The crank's journals: shape, finish, straightness, overlap and fillets."""

from buildlint.rulebook import *

RACING = ("road_race", "oval_race", "drag_race")

SHAPE = """
build: {duty: %s}
bearings:
  %s: {journal_out_of_round: %s, journal_taper: %s}  %s
"""
SHAPE_SAYS = "The journal is {value} {trouble}; keep {limit} in {duty} duty."
SHAPE_FIX = "Regrind to the next undersize; polishing does not bring a shape back."
SHAPE_SOURCE = "common practice, no source; 0.0006 in taper and 0.0004 in out of round seen as factory limits"


@rule(
    scope="main_bearing",
    level="error",
    due="machining",
    says=SHAPE_SAYS,
    fix=SHAPE_FIX,
    source=SHAPE_SOURCE,
    points_at=("journal_out_of_round", "journal_taper"),
    conforming=(SHAPE % ("street", "main", "0.0004 in", "0.0003 in", ""), SHAPE % ("drag_race", "main", "0.0002 in", "0.0002 in", "")),
    nonconforming=(SHAPE % ("drag_race", "main", "0.0001 in", "0.0003 in", "# <-"), SHAPE % ("street", "main", "0.0005 in", "0.0003 in", "# <-"),
                   SHAPE % ("street", "main", "0.0008 in", "0.0003 in", "# <-")),
)
def journal_shape_is_true(
    journal_out_of_round: Length = None, journal_taper: Length = None, duty: Choice = None, *,
    race_warning: Length = q("0.0002 in"), warning_beyond: Length = q("0.0004 in"), error_beyond: Length = q("0.0006 in"),
):
    """A journal that is not round runs at its least clearance twice each turn, and a tapered one on one edge of the shell.

    Factory limits of 0.0004 in out of round and 0.0006 in taper have been seen; race shops ask for half of it.
    """
    return _shape(journal_out_of_round, journal_taper, duty, race_warning, warning_beyond, error_beyond)


@rule(
    scope="rod_bearing",
    level="error",
    due="machining",
    says=SHAPE_SAYS,
    fix=SHAPE_FIX,
    source=SHAPE_SOURCE,
    when={"journal_out_of_round": given},
    points_at=("journal_out_of_round", "journal_taper"),
    conforming=SHAPE % ("street", "rod", "0.0003 in", "0.0002 in", ""),
    nonconforming=(SHAPE % ("road_race", "rod", "0.0003 in", "0.0001 in", "# <-"), SHAPE % ("street", "rod", "0.0002 in", "0.0007 in", "# <-")),
)
def rod_journal_shape_is_true(
    journal_out_of_round: Length = None, journal_taper: Length = None, duty: Choice = None, *,
    race_warning: Length = q("0.0002 in"), warning_beyond: Length = q("0.0004 in"), error_beyond: Length = q("0.0006 in"),
):
    """Pins wear out of round first: the load always comes to the same side.

    The limits are those of the mains.
    """
    return _shape(journal_out_of_round, journal_taper, duty, race_warning, warning_beyond, error_beyond)


def _shape(out_of_round, taper, duty, race_warning, warning_beyond, error_beyond):
    if out_of_round is None and taper is None:
        return lacking("journal_out_of_round", "journal_taper")
    candidates = [(out_of_round, "out of round", "journal_out_of_round"), (taper, "tapered", "journal_taper")]
    value, trouble, word = max((row for row in candidates if row[0] is not None), key=lambda row: row[0])
    verdict = at_most(Length(value), warning=race_warning if duty in RACING else warning_beyond, error=error_beyond)
    return verdict.telling(trouble=trouble).at(word)


FINISH = """
bearings:
  %s: {journal_finish: %s}  %s
"""
FINISH_SAYS = "The journal's finish is Ra {value}; keep {limit}."
FINISH_FIX = "Polish with a fine belt in the direction of rotation, then wash the oil holes; do not try to change a size with it."
FINISH_SOURCE = "common practice, no source"


@rule(
    scope="main_bearing",
    level="warning",
    due="machining",
    says=FINISH_SAYS,
    fix=FINISH_FIX,
    source=FINISH_SOURCE,
    when={"journal_finish": given},
    points_at=("journal_finish",),
    conforming=(FINISH % ("main", "8 uin", ""), FINISH % ("main", "10 uin", ""), FINISH % ("main", "0.25 um", "")),
    nonconforming=FINISH % ("main", "14 uin", "# <-"),
)
def journal_finish_is_smooth(journal_finish: Length, *, roughest: Length = q("10 uin")):
    """The oil film of a loaded bearing is a micrometer or two; a rough journal reaches through it and cuts the lining.

    Ten microinches is the usual demand, six and less with coated shells and thin oil.
    """
    return at_most(journal_finish, roughest)


@rule(
    scope="rod_bearing",
    level="warning",
    due="machining",
    says=FINISH_SAYS,
    fix=FINISH_FIX,
    source=FINISH_SOURCE,
    when={"journal_finish": given},
    points_at=("journal_finish",),
    conforming=FINISH % ("rod", "6 uin", ""),
    nonconforming=FINISH % ("rod", "16 uin", "# <-"),
)
def rod_journal_finish_is_smooth(journal_finish: Length, *, roughest: Length = q("10 uin")):
    """The pins have the thinnest film of the engine, so their finish counts most.

    The limit is that of the mains.
    """
    return at_most(journal_finish, roughest)


POLISH = """
crank: {material: %s, polish_direction: %s}  %s
"""


@rule(
    scope="build",
    level="reminder",
    due="machining",
    says="The journals of the iron crank were last polished in the direction in which they run.",
    fix="Finish-polish so that the belt runs over the journal as the bearing will; then wash every oil hole.",
    source="common practice, no source",
    when={"crank_material": ("nodular_iron", "cast_iron")},
    points_at=("crank_polish_direction", "crank_material"),
    conforming="crank: {material: nodular_iron}",
    nonconforming=POLISH % ("nodular_iron", "against_rotation", "# <-"),
)
def journal_polish_follows_rotation(crank_material: Choice, crank_polish_direction: Choice = None):
    """Graphite of an iron crank tears up little flags when it is ground; polished the wrong way they stand like a rasp.

    A crank that is written as polished with its rotation needs no signature.
    """
    if crank_polish_direction == "with_rotation":
        return passes()
    if crank_polish_direction == "against_rotation":
        return require(False).saying("The iron crank is polished against its rotation: its graphite burrs will cut the bearings.")
    return review()


RUNOUT = """
crank: {runout: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="machining",
    says="The center main runs out by {value}, full reading; keep {limit}.",
    fix="Turn it in blocks under the end journals and measure again; have the crank straightened by a crank shop, then crack-tested, "
        "or ground.",
    source="common practice, no source",
    points_at=("crank_runout",),
    conforming=(RUNOUT % ("0.0005 in", ""), RUNOUT % ("0.0010 in", "")),
    nonconforming=(RUNOUT % ("0.0015 in", "# <-"), RUNOUT % ("0.0025 in", "# <-")),
)
def crank_runs_straight(crank_runout: Length, *, warning_beyond: Length = q("0.001 in"), error_beyond: Length = q("0.002 in")):
    """A bent crank loads the bearings at its bend with every turn, in a line that was honed straight.

    A thousandth is the usual acceptance; cranks lie bent on their side after some years on the shelf.
    """
    return at_most(crank_runout, warning=warning_beyond, error=error_beyond)


OVERLAP = """
crank: {material: %s, stroke: %s}  %s
bearings:
  main: {journal_diameter: 2.448 in}
  rod: {journal_diameter: 2.100 in}
"""


@rule(
    scope="build",
    level="warning",
    due="planning",
    says="Main journal and pin overlap by {value}; a {material} crank wants {limit}.",
    fix="Take a stronger crank, a shorter stroke or larger journals, and the largest fillets the bearings allow.",
    source="geometry; limits common practice, no source",
    when={"crank_journal_overlap": given},
    points_at=("crank_stroke", "crank_material"),
    conforming=(OVERLAP % ("nodular_iron", "3.48 in", ""), OVERLAP % ("forged_4340", "4.000 in", "")),
    nonconforming=(OVERLAP % ("nodular_iron", "4.200 in", "# <-"), OVERLAP % ("nodular_iron", "3.900 in", "# <-"),
                   OVERLAP % ("forged_5140", "4.400 in", "# <-")),
)
def crank_journals_overlap(
    crank_journal_overlap: Length, crank_material: Choice, crank_stroke: Length = None, crank_original_stroke: Length = None, *,
    cast_note: Length = q("10.2 mm"), cast_warning: Length = q("6.4 mm"), forged_note: Length = q("5.1 mm"),
    forged_warning: Length = q("2.5 mm"),
):
    """Where main and pin overlap, metal runs straight from one to the other; without overlap all goes through the web.

    A longer stroke on small journals takes it away. Cast cranks need more of it than forged ones; a billet crank with
    large fillets is run without. A crank of the engine's original stroke is as its maker drew it and is not asked about.
    """
    if crank_original_stroke is not None and crank_stroke is not None and crank_stroke <= crank_original_stroke * 1.001:
        return not_applicable("the stroke is the engine's own")
    cast = crank_material in ("cast_iron", "nodular_iron")
    verdict = at_least(Length(crank_journal_overlap), warning=cast_warning if cast else forged_warning,
                       note=cast_note if cast else forged_note)
    return verdict.telling(material=crank_material.replace("_", " "))


CHAMFER = """
crank: {fillet_radius: %s}
rods: {cheek_setback: %s}
bearings:
  rod: {chamfer: %s}  %s
"""


@rule(
    scope="rod_bearing",
    level="error",
    due="ordering",
    says="The bearing's chamfer of {chamfer} does not clear the crank's fillet of {crank_fillet_radius}; it needs {limit}.",
    fix="Order chamfered bearings, at least {limit} at the fillet, with the rod's chamfered side to the cheek.",
    source="geometry of fillet and chamfer; common practice",
    when={"crank_fillet_radius": given},
    points_at=("chamfer", "crank_fillet_radius"),
    conforming=(CHAMFER % ("0.100 in", "0.010 in", "0.095 in", ""), CHAMFER % ("0.060 in", "0 in", "0.060 in", "")),
    nonconforming=CHAMFER % ("0.125 in", "0.010 in", "0.080 in", "# <-"),
)
def bearing_chamfer_clears_fillet(chamfer: Length, crank_fillet_radius: Length, rod_cheek_setback: Length = None):
    """A shell that rides up on the fillet runs on its edge: it wipes in the first minutes and takes the pin along.

    Cranks with large fillets come with the stroke and strength they are bought for; the bearings have to follow.
    """
    return at_least(chamfer, Length(crank_fillet_radius - (rod_cheek_setback or 0.0)))
