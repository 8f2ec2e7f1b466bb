"""What the springs stand on, what centers them, and whether retainer, seal and damper suit them."""

from buildlint.rulebook import *

FOOT = """
heads: {material: aluminum_356_t6}
intake:
  spring: {shim_kind: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The springs stand on aluminum {how}.",
    fix="Order hardened cups, shims or locators, and count their thickness into the installed height.",
    source="common practice, no source",
    when={"head_material": ("aluminum_cast", "aluminum_356_t6", "aluminum_319", "aluminum_die_cast", "aluminum_6082", "aluminum_7075",
                            "magnesium")},
    points_at=("spring_shim_kind", "spring_located_by"),
    conforming=(FOOT % ("hardened_cup", ""), FOOT % ("locator", ""), """
        heads: {material: aluminum_cast}
        intake: {spring: {located_by: cup}}
        """),
    nonconforming=(FOOT % ("none", "# <-"), FOOT % ("soft_shim", "# <-")),
)
def aluminum_head_has_spring_seat(spring_shim_kind: Choice = None, spring_located_by: Choice = None):
    """A spring turns and hammers; on bare aluminum it digs itself in, and the seat load goes with it."""
    if spring_shim_kind in ("hardened_cup", "hardened_shim", "locator") or spring_located_by in ("cup", "inner_locator"):
        return passes()
    if spring_shim_kind is None:
        return lacking("spring_shim_kind")
    if spring_shim_kind == "soft_shim":
        return require(False, level="warning").telling(how="with only soft shims between")
    return require(False).telling(how="with nothing hard between")


CENTERED = """
intake:
  spring: {located_by: cup, locator_clearance: %s}  %s
"""


@rule(
    scope="side",
    level="warning",
    due="mock_up",
    says="The spring sits in its locator with {value} to each side; {least:up} to {most:down} is right.",
    fix="Fit a cup or locator of the spring's size.",
    spared=("stock",),
    source="common practice, no source",
    compares=("spring_locator_clearance",),
    points_at=("spring_locator_clearance", "spring_locator_diameter", "spring_located_by"),
    conforming=(CENTERED % ("0.008 in", ""), CENTERED % ("0.010 in", ""), "intake: {spring: {located_by: pocket}}", """
        intake:
          spring: {count: 1, located_by: cup, locator_diameter: 1.300 in, outside_diameter: 1.290 in}
        """),
    nonconforming=(CENTERED % ("0.015 in", "# <-"), CENTERED % ("-0.006 in", "# <-"), "intake: {spring: {located_by: none}}  # <-", """
        intake:
          spring: {count: 1, outside_diameter: 1.260 in, located_by: cup, locator_diameter: 1.300 in}  # <-
        """),
)
def spring_is_located_radially(
    spring_located_by: Choice = None, spring_locator_clearance: Length = None, *,
    most: Length = q("0.010 in"), least: Length = q("-0.0025 in"),
):
    """A loose spring dances round its seat and wears itself and the head; a tight one strains its bottom coil.

    Two hundredths of an inch across the diameter is as loose as it may be, half a hundredth as tight.
    """
    if spring_located_by == "none":
        return require(False).at("spring_located_by").saying("Nothing centers the springs on the head.")
    if spring_locator_clearance is None:
        if spring_located_by == "pocket":
            return not_applicable("a machined pocket, and no clearance is written")
        return lacking("spring_located_by" if spring_located_by is None else "spring_locator_clearance")
    return within(spring_locator_clearance, warning=(least, most))


SEAL = """
intake:
  seal: {kind: positive}
  spring: {count: 2, seal_gap: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The innermost coil or damper clears the seal by {value}; keep {limit} across the diameter.",
    fix="Choose a seal smaller by {short:up}, or an inner spring with a larger inside.",
    spared=("stock",),
    source="common practice, no source",
    compares=("spring_seal_gap",),
    points_at=("spring_seal_gap", "seal_outside_diameter"),
    conforming=(SEAL % ("0.078 in", ""), SEAL % ("0.040 in", ""), """
        intake:
          spring: {count: 2}
          springs: {inner: {inside_diameter: 0.640 in}}
          seal: {kind: positive, outside_diameter: 0.562 in}
        """, "intake: {spring: {count: 1}, seal: {kind: positive}}"),
    nonconforming=(SEAL % ("0.020 in", "# <-"), SEAL % ("0.005 in", "# <-")),
)
def inner_spring_clears_seal(
    spring_seal_gap: Length = None, seal_kind: Choice = None, spring_count: Count = None, spring_damper: Choice = None, *,
    warning_below: Length = q("0.040 in"), error_below: Length = q("0.010 in"),
):
    """An inner spring that rubs on the seal pulls it off the guide, and the retainer then beats it to crumbs.

    A single coil has room enough round any seal, so that the gap has to be known only for nests and dampers.
    """
    if seal_kind == "none":
        return not_applicable("no seal")
    if spring_seal_gap is not None:
        return at_least(spring_seal_gap, warning=warning_below, error=error_below).telling(
            short=Length(warning_below - spring_seal_gap))
    if (spring_count is not None and spring_count > 1) or spring_damper in ("fitted", "fitted_deburred"):
        return lacking("spring_seal_gap")
    return not_applicable("a single coil")


FITS = """
intake:
  spring: {form: %s, count: %s}
  retainer: {fits_spring: %s}  %s
"""


@rule(
    scope="side",
    level="error",
    due="ordering",
    says="The retainer is cut for a {retainer_fits_spring} spring, and this is a {kind} spring.",
    fix="Order retainer, locator and spring as one set; the top of a beehive fits no other retainer.",
    source="common practice, no source",
    points_at=("retainer_fits_spring", "spring_form"),
    conforming=(FITS % ("beehive", "1", "beehive", ""), FITS % ("cylindrical", "2", "dual", ""), FITS % ("cylindrical", "1", "single", "")),
    nonconforming=(FITS % ("beehive", "1", "dual", "# <-"), FITS % ("cylindrical", "2", "single", "# <-"),
                   FITS % ("cylindrical", "1", "beehive", "# <-"), FITS % ("cylindrical", "1", "dual", "# <-")),
)
def spring_parts_suit_each_other(
    spring_form: Choice = None, spring_count: Count = None, retainer_fits_spring: Choice = None,
):
    """A coil that does not sit on its step wanders under the retainer, and one day cocks it off the locks.

    A single spring under a two-step retainer holds, its inner step idle; that is mentioned as a warning.
    """
    number = {1: "single", 2: "dual", 3: "triple"}.get(spring_count)
    kind = spring_form if spring_form in ("beehive", "conical") else number
    if retainer_fits_spring is None:
        return lacking("retainer_fits_spring") if spring_form in ("beehive", "conical") else \
            not_applicable("what the retainer is cut for is not written")
    if kind is None:
        return lacking("spring_count") if spring_form == "cylindrical" else lacking("spring_form", "spring_count")
    steps = ("single", "dual", "triple")
    mild = kind in steps and retainer_fits_spring in steps and steps.index(kind) < steps.index(retainer_fits_spring)
    return matches(retainer_fits_spring, kind, level="warning" if mild else None).telling(kind=kind)


@rule(
    scope="side",
    level="reminder",
    due="assembly",
    says="Round and polish the ends of the flat damper before it goes in{titanium}.",
    fix="Stone every edge of the damper's ends smooth and write spring_damper: fitted_deburred.",
    source="one published failure: a damper that chewed through its titanium retainer; common practice, no source",
    points_at=("spring_damper",),
    conforming="intake: {spring_damper: fitted}",
)
def spring_damper_edges_are_smooth(spring_damper: Choice = None, retainer_material: Choice = None):
    """The cut end of a flat damper works like a chisel on whatever it turns against.

    Under a titanium retainer it has eaten its way through; look at such a retainer again after the first hours.
    """
    if spring_damper in (None, "none"):
        return not_applicable("no damper")
    if spring_damper == "fitted_deburred":
        return passes()
    soft = retainer_material in ("titanium", "titanium_coated")
    return review().telling(titanium=", and look at the titanium retainers after the first hours" if soft else "")
