"""Wrist pins: their fit in piston and rod, what keeps them in, and whether they are strong enough."""

from buildlint.rulebook import *

RACING = ("road_race", "oval_race", "drag_race")

FLOATING = """
build: {duty: %s}
pistons:
  pin: {fit: floating, clearance_in_piston: %s, clearance_in_rod: %s}  %s
"""


@rule(
    scope="cylinder",
    level="warning",
    due="machining",
    says="The floating pin has {value} in the {where}; {least:up} to {most:down} is usual.",
    fix="Hone the bore larger, or fit a new bush or an oversize pin; do not lap the pin.",
    source="common practice, no source; 0.0001 to 0.0005 in in the piston and 0.0003 to 0.0013 in in the rod seen as factory figures",
    when={"piston_pin_fit": ("floating",)},
    compares=("piston_pin_clearance_in_piston", "piston_pin_clearance_in_rod"),
    points_at=("piston_pin_clearance_in_piston", "piston_pin_clearance_in_rod"),
    conforming=(FLOATING % ("street", "0.0006 in", "0.0008 in", ""), FLOATING % ("drag_race", "0.0008 in", "0.0011 in", ""), FLOATING % ("street_strip", "0.0008 in", "0.0009 in", ""),
                FLOATING % ("stock", "0.0002 in", "0.0004 in", "")),
    nonconforming=(FLOATING % ("street", "0.0001 in", "0.0008 in", "# <-"), FLOATING % ("street", "0.0006 in", "0.0001 in", "# <-"),
                   FLOATING % ("street", "0.0014 in", "0.0008 in", "# <-"), """
        rods: {pin_bore: 0.9280 in}
        pistons:
          pin: {fit: floating, outside_diameter: 0.9270 in, clearance_in_rod: 0.0005 in}  # <-
        """),
)
def floating_pin_fits_its_bores(
    piston_pin_clearance_in_piston: Length = None, piston_pin_clearance_in_rod: Length = None, duty: Choice = None,
    piston_pin_clearance_in_piston_written: Length = None, piston_pin_clearance_in_piston_computed: Length = None,
    piston_pin_clearance_in_rod_written: Length = None, piston_pin_clearance_in_rod_computed: Length = None,
    rod_material: Choice = None, *,
    piston_street={"least": q("0.0003 in"), "most": q("0.0007 in")}, piston_race={"least": q("0.0004 in"), "most": q("0.0009 in")},
    piston_stock={"least": q("0.0001 in"), "most": q("0.0007 in")}, piston_warning={"least": q("0.0002 in"), "most": q("0.0012 in")},
    rod_street={"least": q("0.0005 in"), "most": q("0.0010 in")}, rod_race={"least": q("0.0005 in"), "most": q("0.0012 in")},
    rod_stock={"least": q("0.0003 in"), "most": q("0.0013 in")}, rod_warning={"least": q("0.0002 in"), "most": q("0.0015 in")},
    agree_within: Length = q("0.0002 in"),
):
    """The pin must float in both at working heat: too tight and it galls at the first start, too loose and it hammers.

    The piston opens as it warms, since aluminum grows twice as much as the pin; the rod's bush does not. Makers' figures
    differ by tenths, so the usual band is a note and only its far ends a warning. Aluminum rods are run without a bush at
    the wide end of the band.
    """
    for word, written, computed in (
            ("piston_pin_clearance_in_piston", piston_pin_clearance_in_piston_written, piston_pin_clearance_in_piston_computed),
            ("piston_pin_clearance_in_rod", piston_pin_clearance_in_rod_written, piston_pin_clearance_in_rod_computed)):
        if written is not None and computed is not None and abs(written - computed) > agree_within:
            verdict = at_most(Length(abs(written - computed)), warning=agree_within)
            verdict.comparing(Length(written), Length(computed))
            return verdict.saying("The pin's clearance is written as {value}, but bore less pin is {limit}.",
                                  "Measure pin and bore at one temperature and correct the one that is off.").at(f"{word}_written")
    if piston_pin_clearance_in_piston is None and piston_pin_clearance_in_rod is None:
        return lacking("piston_pin_clearance_in_piston", "piston_pin_clearance_in_rod")
    verdicts = []
    if piston_pin_clearance_in_piston is not None:
        row = piston_stock if duty == "stock" else piston_race if duty in RACING or duty == "street_strip" else piston_street
        warning = {**piston_warning, "least": min(row["least"], piston_warning["least"])}
        verdicts.append(_fit(piston_pin_clearance_in_piston, row, warning, "piston", "piston_pin_clearance_in_piston",
                             "Hone the piston's pin bores {short:up} larger, both at once; do not lap the pin."))
    if piston_pin_clearance_in_rod is not None:
        row = rod_stock if duty == "stock" else rod_race if duty in RACING or rod_material == "aluminum" else rod_street
        verdicts.append(_fit(piston_pin_clearance_in_rod, row, rod_warning, "rod", "piston_pin_clearance_in_rod",
                             "Hone the bush {short:up} larger; do not lap the pin."))
    return max(verdicts, key=lambda verdict: {None: 0, "note": 1, "warning": 2}[verdict.level])


def _fit(clearance, row, warning, where, word, hone):
    verdict = within(Length(clearance), warning=(warning["least"], warning["most"]), note=(row["least"], row["most"]))
    verdict.telling(where=where, least=Length(row["least"]), most=Length(row["most"]), short=Length(max(row["least"] - clearance, 0.0))).at(word)
    return verdict.saying(fix=hone if verdict.facts.get("side") == "below" else
                          f"Fit a new bush or an oversize pin in the {where}, or look for a slip of the pen.")


PRESSED = """
pistons:
  pin: {fit: pressed, interference_in_rod: %s}  %s
"""


@rule(
    scope="cylinder",
    level="error",
    due="machining",
    says="The pin is pressed into the rod by {value}; keep {least:up} to {most:down}.",
    fix="Hone the small end, or fit a rod whose small end gives {least:up} to {most:down}.",
    source="0.0009 to 0.0015 in seen as factory figures; limits common practice, no source",
    caution="Rods are heated for pressing: gloves, eye protection, and a stop so that the pin goes home in one push.",
    when={"piston_pin_fit": ("pressed",)},
    compares=("piston_pin_interference_in_rod",),
    points_at=("piston_pin_interference_in_rod",),
    conforming=(PRESSED % ("0.0010 in", ""), PRESSED % ("0.0015 in", "")),
    nonconforming=(PRESSED % ("0.0005 in", "# <-"), PRESSED % ("0.0020 in", "# <-")),
)
def pressed_pin_grips_the_rod(
    piston_pin_interference_in_rod: Length, *, note_row={"least": q("0.0008 in"), "most": q("0.0015 in")}, error_below: Length = q("0.018 mm"),
    error_above: Length = q("0.045 mm"),
):
    """A pressed pin is held by its press alone; when it walks, its end cuts a groove in the bore from top to bottom.

    Eight to fifteen ten-thousandths is what factories print. More splits the small end or cannot be pressed in without
    force that bends the piston.
    """
    verdict = within(Length(piston_pin_interference_in_rod), error=(error_below, error_above), note=(note_row["least"], note_row["most"]))
    below = verdict.facts.get("side") == "below"
    verdict.telling(least=Length(note_row["least"]), most=Length(note_row["most"]))
    return verdict.saying(fix="Fit a rod whose small end is smaller, or bush it for a floating pin with locks." if below else
                          "Hone the small end to give {least:up} to {most:down}; measure the pin where it sits.")


TYPE = """
rods: {material: steel, small_end: %s}
pistons:
  pin: {fit: %s}  %s
"""


@rule(
    scope="cylinder",
    level="error",
    due="ordering",
    says="The pin is {piston_pin_fit}, but the rod's small end is {small_end}.",
    fix="Order rods and pins of one kind: bushed rods for floating pins with locks, plain ones for pressed pins.",
    source="common practice, no source",
    points_at=("piston_pin_fit", "rod_small_end"),
    conforming=(TYPE % ("bushed", "floating", ""), TYPE % ("plain", "pressed", ""), """
        rods: {material: aluminum, small_end: plain}
        pistons:
          pin: {fit: floating}
        """),
    nonconforming=(TYPE % ("plain", "floating", "# <-"), TYPE % ("bushed", "pressed", "# <-")),
)
def pin_type_suits_rod(piston_pin_fit: Choice, rod_small_end: Choice, rod_material: Choice = None):
    """A floating pin in a bare steel eye galls in the rod; a pressed pin in a bush has nothing that holds it.

    Aluminum rods carry floating pins without a bush: the rod itself is the bearing metal.
    """
    if piston_pin_fit == "floating" and rod_small_end == "plain" and rod_material != "aluminum":
        return require(False).telling(small_end="plain steel").saying(
            fix="Order bushed rods, or pistons for pressed pins; a plain eye is not honed out to float.")
    if piston_pin_fit == "pressed" and rod_small_end == "bushed":
        return require(False).telling(small_end="bushed").saying(
            fix="Order floating pins with locks, and pistons with lock grooves, or rods for pressed pins.")
    return passes()


LOCKS = """
pistons:
  pin: {fit: %s, locks: %s}  %s
"""


@rule(
    scope="cylinder",
    level="error",
    due="ordering",
    says="Pins and locks do not go together.",
    fix="Order the locks that the pistons' grooves are cut for: round wire, spiral or plate, a pair for each pin.",
    source="common practice, no source",
    points_at=("piston_pin_locks", "piston_pin_fit"),
    conforming=(LOCKS % ("floating", "round_wire", ""), LOCKS % ("pressed", "none", "")),
    nonconforming=(LOCKS % ("floating", "none", "# <-"), LOCKS % ("pressed", "spiral", "# <-")),
)
def floating_pin_has_locks(piston_pin_fit: Choice, piston_pin_locks: Choice = None):
    """A floating pin without locks finds the cylinder wall within minutes.

    Locks on a pressed pin do no harm; they are only weight and a part to lose.
    """
    if piston_pin_fit == "pressed":
        if piston_pin_locks in (None, "none"):
            return passes()
        return require(False, "note").saying("Pressed pins need no locks; these are listed without use.")
    if piston_pin_locks is None:
        return lacking("piston_pin_locks")
    return require(piston_pin_locks != "none").saying("The pins float and nothing keeps them in: locks are written as none.")


PLAY = """
pistons:
  pin: {fit: floating, locks: spiral, lock_groove_spacing: %s, lock_thickness: 0.073 in, length: 2.780 in}  %s
"""


@rule(
    scope="cylinder",
    level="error",
    due="mock_up",
    says="Between its locks the pin has {value} of play; keep {limit}.",
    fix="Order a pin of another length, or locks of another thickness if the grooves allow them.",
    source="arithmetic; limits common practice, no source",
    when={"piston_pin_fit": ("floating",), "piston_pin_locks": ("round_wire", "spiral", "plate"), "piston_pin_end_play": given},
    compares=("piston_pin_end_play",),
    points_at=("piston_pin_end_play",),
    conforming=(PLAY % ("2.930 in", ""), PLAY % ("2.926 in", "")),
    nonconforming=(PLAY % ("2.920 in", "# <-"), PLAY % ("2.940 in", "# <-"), """
        pistons:
          pin: {fit: floating, locks: round_wire, end_play: -0.002 in}  # <-
        """),
)
def pin_lock_end_play_is_positive(
    piston_pin_end_play: Length, piston_pin_end_play_written: Length = None, piston_pin_end_play_computed: Length = None, *,
    note_above: Length = q("0.005 in"), warning_above: Length = q("0.010 in"), agree_within: Length = q("0.003 in"),
):
    """Locks that are squeezed in by a pin too long are not in their grooves; with much play the pin hammers them out.

    Nothing to five thousandths is usual with spiral and wire locks.
    """
    written, computed = piston_pin_end_play_written, piston_pin_end_play_computed
    if written is not None and computed is not None and abs(written - computed) > agree_within:
        verdict = at_most(Length(abs(written - computed)), warning=agree_within)
        verdict.comparing(Length(written), Length(computed))
        return verdict.saying("The pin's end play is written as {value}, but grooves, locks and pin give {limit}.",
                              "Measure the set of one piston again and correct the one that is off.").at("piston_pin_end_play_written")
    if piston_pin_end_play < 0:
        verdict = at_least(Length(piston_pin_end_play), error=Length(0.0)).telling(over=Length(-piston_pin_end_play))
        return verdict.saying("The pin is {over:up} too long for its locks.",
                              "Order the pin shorter by {over:up} and a few thousandths, or thinner locks if the grooves allow them.")
    verdict = at_most(Length(piston_pin_end_play), warning=warning_above, note=note_above)
    return verdict.saying(fix="Look whether locks and pin are of this piston's set; a longer pin or thicker locks take the play out.")


@rule(
    scope="cylinder",
    level="reminder",
    due="assembly",
    says="Every lock sits all the way round in its groove, gap away from the pick slot, round wire in round grooves, new locks at "
         "every assembly; buttons are polished.",
    fix="Turn each lock once with a pick, look with a light, and count the locks that are left over.",
    source="common practice, no source",
    caution="Locks spring out: wear eye protection.",
    when={"piston_pin_fit": ("floating",), "piston_pin_locks": ("round_wire", "spiral", "plate", "button")},
    points_at=("piston_pin_locks",),
    conforming="pistons: {pin: {fit: floating, locks: round_wire}}",
)
def pin_locks_are_oriented(piston_pin_locks: Choice):
    """One lock that is not home is a scored bore; nobody finds it by turning the engine over."""
    return review()


# least wall by power of one cylinder, for steel pins of 0.85 to 1.06 in. Common practice, no source.
WALLS = {
    "mild": {"power": q("60 hp"), "wall": q("0.120 in")}, "warm": {"power": q("85 hp"), "wall": q("0.150 in")},
    "strong": {"power": q("120 hp"), "wall": q("0.180 in")}, "strongest": {"wall": q("0.200 in")},
}

WALL = """
engine: {cylinders: 8}
build: {peak_power: %s, induction: natural}
pistons:
  pin: {outside_diameter: 0.927 in, wall: %s}  %s
"""


@rule(
    scope="cylinder",
    level="warning",
    due="ordering",
    says="The pin's wall is {value}; {power} from one cylinder{more} asks for {limit}.",
    fix="Order pins with a wall of {limit}; of tool steel above the last row. They are heavier: balance with them.",
    source="common practice, no source",
    points_at=("piston_pin_wall",),
    conforming=(WALL % ("450 hp", "0.150 in", ""), WALL % ("760 hp", "0.180 in", "")),
    nonconforming=(WALL % ("760 hp", "0.120 in", "# <-"), WALL % ("760 hp", "0.150 in", "# <-")),
)
def pin_wall_suits_power(
    piston_pin_wall: Length, piston_pin_outside_diameter: Length, peak_power: Power, cylinders: Count, induction: Choice = None,
    nitrous_power: Power = None, *, rows=WALLS, smallest: Length = q("0.85 in"), largest: Length = q("1.06 in"),
):
    """A thin pin goes oval under load; the piston cracks above the pin and the bush wears at its ends.

    The rows are folklore of moderate worth: one row short is a note, two a warning. Boost and nitrous count one row up.
    """
    if not smallest <= piston_pin_outside_diameter <= largest:
        return not_applicable("the rows are for pins of 0.85 to 1.06 in")
    each = peak_power / cylinders
    forced = induction in ("supercharged", "turbocharged") or nitrous_power is not None and nitrous_power > 0
    walls = [row["wall"] for row in rows.values()]
    place = next(place for place, row in enumerate(rows.values()) if each <= row.get("power", each))
    place = min(place + forced, len(walls) - 1)
    wall, two_down = walls[place], walls[place - 2] if place >= 2 else None
    verdict = at_least(piston_pin_wall, note=wall)
    if two_down is not None and piston_pin_wall <= two_down * (1 + 1e-9):
        verdict = at_least(piston_pin_wall, warning=wall)
    return verdict.telling(power=Power(each), more=" with boost or nitrous" if forced else "")
