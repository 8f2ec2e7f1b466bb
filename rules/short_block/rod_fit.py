"""Rods on their pins and between their pistons' bosses: side clearance, widths, offset and the way they face."""

from buildlint.rulebook import *

SIDE = """
build: {duty: %s}
crank: {rods_per_pin: %s}
rods: {material: %s, side_clearance: %s}  %s
"""


@rule(
    scope="rod_bearing",
    level="error",
    due="mock_up",
    says="The rods have {value} of side clearance on their pin; {material} rods, {rods}, want {least:up} to {most:down}.",
    fix="Surface-grind the rods, each by the same amount; never file them.",
    source="0.005 to 0.019 in seen as a factory figure; other rows common practice, no source",
    points_at=("rod_side_clearance",),
    conforming=(SIDE % ("street_strip", "2", "steel", "0.014 in", ""), SIDE % ("stock", "2", "steel", "0.005 in", ""),
                SIDE % ("stock", "1", "steel", "0.006 in", ""), SIDE % ("drag_race", "2", "aluminum", "0.020 in", "")),
    nonconforming=(SIDE % ("street_strip", "2", "steel", "0.003 in", "# <-"), SIDE % ("street_strip", "2", "steel", "0.007 in", "# <-"),
                   SIDE % ("stock", "2", "steel", "0.0015 in", "# <-"), SIDE % ("drag_race", "2", "aluminum", "0.010 in", "# <-"),
                   SIDE % ("street", "2", "steel", "0.030 in", "# <-"), """
        build: {duty: street}
        crank: {rods_per_pin: 2}
        rods:
          material: steel
          side_clearance: [0.014 in, 0.014 in, 0.003 in, 0.003 in, 0.014 in, 0.014 in, 0.014 in, 0.014 in]  # <-
        """),
)
def rod_side_clearance_is_set(
    rod_side_clearance: Length, rod_material: Choice, crank_rods_per_pin: Count, duty: Choice = None, rod_guided_by: Choice = None, *,
    steel_pair={"error": q("0.10 mm"), "warning": q("0.20 mm"), "usual": q("0.010 in"), "loose": q("0.025 in")},
    steel_pair_stock={"error": q("0.05 mm"), "warning": q("0.10 mm"), "usual": q("0.0043 in"), "loose": q("0.025 in")},
    aluminum_pair={"error": q("0.30 mm"), "warning": q("0.38 mm"), "usual": q("0.015 in"), "loose": q("0.035 in")},
    steel_single={"error": q("0.05 mm"), "warning": q("0.10 mm"), "usual": q("0.004 in"), "loose": q("0.016 in")},
    aluminum_single={"error": q("0.15 mm"), "warning": q("0.20 mm"), "usual": q("0.008 in"), "loose": q("0.022 in")},
):
    """Rods need room to move apart when they warm up and the crank bends; too little scuffs their sides and the cheek.

    It does not set the oil flow, which the bearing clearance does, so a wide gap is only noted. The rows are error,
    warning, usual and note: steel pairs live at 0.010 to 0.020 in, factories allow half of it in stock duty; aluminum
    grows and wants more.
    """
    if rod_guided_by == "piston":
        return not_applicable("the rods are guided by the pistons")
    pair, aluminum = crank_rods_per_pin == 2, rod_material == "aluminum"
    if pair:
        row = aluminum_pair if aluminum else steel_pair_stock if duty in ("stock", "street") else steel_pair
    else:
        row = aluminum_single if aluminum else steel_single
    error, warning, usual, loose = row["error"], row["warning"], row["usual"], row["loose"]
    verdict = at_least(Length(rod_side_clearance), error=error, warning=warning)
    if verdict.kind == "pass":
        verdict = at_most(Length(rod_side_clearance), note=loose)
    remedy = "Surface-grind the rods, each by the same amount, {short:up} in all; never file them." \
        if verdict.limit is not loose else "It will run; look whether rods and crank are of one family."
    return verdict.telling(
        material=rod_material.replace("_", " "), rods="two to a pin" if pair else "one to a pin", least=usual, most=loose,
        short=Length(max(usual - rod_side_clearance, 0.0))).saying(fix=remedy)


WIDTHS = """
crank: {pin_length: 1.8880 in, rods_per_pin: 2}
rods: {big_end_width: %s, side_clearance: %s}  %s
"""


@rule(
    scope="rod_bearing",
    level="error",
    due="ordering",
    says="Rod widths, pin length and side clearance do not add up.",
    fix="Measure pin and rods, and order rods of the crank's family.",
    source="arithmetic; limits common practice, no source",
    when={"crank_pin_length": given},
    compares=("rod_side_clearance",),
    points_at=("rod_big_end_width",),
    conforming=(WIDTHS % ("0.9370 in", "0.014 in", ""), WIDTHS % ("0.9370 in", "0.0145 in", "")),
    nonconforming=(WIDTHS % ("0.9450 in", "0.014 in", "# <-"), WIDTHS % ("0.9405 in", "0.014 in", "# <-")),
)
def rod_widths_fit_the_journal(
    rod_big_end_width: Length, crank_pin_length: Length, crank_rods_per_pin: Count, rod_side_clearance_computed: Length,
    rod_side_clearance_written: Length = None, *, warning_beyond: Length = q("0.003 in"),
):
    """Rods of another family are wider or narrower; they go on the pin or they do not, and the rest of the set-up follows.

    A written side clearance that pin and widths contradict by three thousandths was measured on other parts.
    """
    left, written = rod_side_clearance_computed, rod_side_clearance_written
    if left < 0:
        return require(False).telling(over=Length(-left)).saying(
            "Two rods together are {over:up} wider than their pin is long." if crank_rods_per_pin == 2 else
            "The rod is {over:up} wider than its pin is long.",
            "Order rods of the crank's family: each at most half of the pin's length less half of the side clearance.")
    if written is not None and abs(written - left) > warning_beyond:
        verdict = at_most(Length(abs(written - left)), warning=warning_beyond)
        verdict.comparing(Length(written), Length(left))
        return verdict.saying("The side clearance is written as {value}, but pin length less rod widths is {limit}.",
                              "Measure pin and rods; one of them is of another family or was ground.")
    return passes()


BOSSES = """
rods: {small_end_width: %s}
pistons: {pin_boss_spacing: %s}  %s
"""


@rule(
    scope="cylinder",
    level="error",
    due="ordering",
    says="Between the pin bosses {value} is left beside the rod; keep {limit}.",
    fix="Order pistons with wider pin bosses, or rods of {room:down} at the small end.",
    source="geometry; limits common practice, no source",
    when={"piston_pin_boss_spacing": given},
    points_at=("piston_pin_boss_spacing", "rod_small_end_width"),
    conforming=(BOSSES % ("1.000 in", "1.050 in", ""),),
    nonconforming=(BOSSES % ("1.060 in", "1.050 in", "# <-"), BOSSES % ("1.030 in", "1.050 in", "# <-")),
)
def small_end_fits_pin_bosses(
    rod_small_end_width: Length, piston_pin_boss_spacing: Length, *, warning_below: Length = q("1.0 mm"),
):
    """The small end wanders with the crank's end play and the rod's side clearance; it must not meet a boss.

    One to two millimeters in all is usual.
    """
    left = piston_pin_boss_spacing - rod_small_end_width
    verdict = at_least(Length(left), error=Length(0.0), warning=warning_below)
    return verdict.telling(room=Length(piston_pin_boss_spacing - 1.5 * warning_below))


OFFSET = """
rods: {big_end_offset: %s}  %s
"""


@rule(
    scope="cylinder",
    level="warning",
    due="ordering",
    says="The beam stands {value} beside the middle of the big end; beyond {limit} the bearing carries on one edge.",
    fix="Look whether these rods belong to this crank and block. Where the offset is by design, write why under notes and have it "
        "permitted.",
    source="common practice, no source",
    when={"rod_big_end_offset": given},
    points_at=("rod_big_end_offset",),
    conforming=(OFFSET % ("0 in", ""), OFFSET % ("0.030 in", "")),
    nonconforming=OFFSET % ("0.060 in", "# <-"),
)
def rod_offset_centers_on_bearing(rod_big_end_offset: Length, *, most: Length = q("1.0 mm")):
    """A rod of another family may fit the pin and still stand beside its cylinder; the load then goes to one end of the shell.

    Some V6 rods are offset on purpose; that is a design, and the sheet should say so.
    """
    return at_most(rod_big_end_offset, most)


FACES = """
crank: {rods_per_pin: %s}
rods: {chamfer_faces: %s}  %s
"""


@rule(
    scope="cylinder",
    level="warning",
    due="assembly",
    says="The rods' chamfered side faces {rod_chamfer_faces}; it belongs to the crank's cheek.",
    fix="Turn the rods: chamfer of rod and shell to the fillet, flat side to the mate.",
    source="common practice, no source",
    when={"rod_chamfer_faces": given, "crank_rods_per_pin": (2,)},
    points_at=("rod_chamfer_faces",),
    conforming=FACES % ("2", "crank_cheek", ""),
    nonconforming=FACES % ("2", "mate_rod", "# <-"),
)
def rod_chamfer_faces_the_fillet(rod_chamfer_faces: Choice, crank_rods_per_pin: Count):
    """The narrow chamfer on the fillet's side lets the shell ride up on it, which eats bearing and pin.

    Offset rods have one right way only; where two rods share a pin each is turned outward.
    """
    return one_of(rod_chamfer_faces, ("crank_cheek",))
