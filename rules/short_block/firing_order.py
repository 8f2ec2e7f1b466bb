"""Whether the firing order can be an order of this engine at all."""

from buildlint.rulebook import *

ORDER = """
engine: {cylinders: 8, firing_order: %s}  %s
"""

# Each pin of a flat four stands across from that of the opposed cylinder, so opposed pistons are at top together.
FLAT = """
engine: {layout: flat, cylinders: 4, banks: [[1, 2], [3, 4]], firing_order: %s}  %s
crank: {throw_angles: [0 deg, 180 deg, 180 deg, 0 deg]}
"""


@rule(
    scope="build",
    level="error",
    due="planning",
    says="The firing order {written} does not name each of the {cylinders} cylinders once: {trouble}.",
    fix="Write the order from the cam card, beginning with cylinder 1, as a list such as [1, 8, 4, 3, 6, 5, 7, 2].",
    source="arithmetic",
    points_at=("firing_order",),
    conforming=ORDER % ("[1, 8, 4, 3, 6, 5, 7, 2]", ""),
    nonconforming=(ORDER % ("[1, 8, 4, 3, 6, 5, 7]", "# <-"), ORDER % ("[1, 8, 4, 3, 6, 5, 7, 7]", "# <-")),
)
def firing_order_is_a_permutation(firing_order: List, cylinders: Count):
    """A cylinder left out or named twice is a typing slip that would be ground into a cam or wired into a loom."""
    numbers = [int(number) for number in firing_order]
    twice = sorted({number for number in numbers if numbers.count(number) > 1})
    left_out = [number for number in range(1, int(cylinders) + 1) if number not in numbers]
    strange = sorted({number for number in numbers if not 1 <= number <= cylinders})
    trouble = [f"{_numbers(twice)} twice"] if twice else []
    trouble += [f"{_numbers(left_out)} left out"] if left_out else []
    trouble += [f"there is no cylinder {_numbers(strange)}"] if strange else []
    return require(not trouble).telling(trouble="; ".join(trouble), written="-".join(map(str, numbers)))


def _numbers(numbers):
    return " and ".join(str(number) for number in numbers)


CRANK = """
engine: {layout: v, cylinders: 8, bank_angle: 90 deg, firing_order: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="planning",
    says="The firing order {written} does not suit the crank: {trouble}.",
    fix="Write the order of the cam and crank that will be used; in a changed order the cylinders that stand at top "
        "together change places. Where the engine is numbered another way, write its banks and crank.throw_angles.",
    source="kinematics of an even-firing four-stroke engine",
    when={"cylinders": (4, 6, 8)},
    points_at=("firing_order",),
    conforming=(CRANK % ("[1, 8, 4, 3, 6, 5, 7, 2]", ""), CRANK % ("[1, 8, 7, 3, 6, 5, 4, 2]", ""),
                CRANK % ("[1, 3, 7, 2, 6, 5, 4, 8]", ""), """
        engine: {layout: inline, cylinders: 6, firing_order: [1, 5, 3, 6, 2, 4]}
        """, FLAT % ("[1, 4, 3, 2]", "")),
    nonconforming=(FLAT % ("[1, 3, 4, 2]", "# <-"), CRANK % ("[1, 8, 4, 3, 6, 7, 5, 2]", "# <-"), """
        engine: {layout: v, cylinders: 8, bank_angle: 90 deg, banks: [[1, 3, 5, 7], [2, 4, 6, 8]], firing_order: [1, 3, 7, 2, 6, 5, 4, 8]}  # <-
        """, """
        engine: {layout: inline, cylinders: 6, firing_order: [1, 5, 3, 2, 6, 4]}  # <-
        """, """
        engine:
          layout: v
          cylinders: 8
          bank_angle: 90 deg
          banks: [[1, 3, 5, 7], [2, 4, 6, 8]]
          firing_order: [1, 8, 4, 3, 6, 5, 7, 2]  # <-
        crank:
          throw_angles: [0 deg, 0 deg, 90 deg, 90 deg, 180 deg, 180 deg, 270 deg, 270 deg]
        """),
)
def firing_order_suits_crank(
    firing_order: List, cylinders: Count, layout: Choice, crank_throw_angles: List = None, banks: List = None,
    bank_angle: Angle = None,
):
    """Cylinders half the order apart stand at top together; an order that parts them was not written for this crank.

    Where throw angles and banks are written, the top of every cylinder is worked out and the order must meet them
    evenly, in either direction of rotation. Else the usual cranks are taken: a cross-plane V8, a straight four, a
    straight six; any other engine is not judged without its throw angles. A V8 is numbered in pairs from the front or
    along its banks; where banks are not written, an order passes that suits either.
    """
    numbers = [int(number) for number in firing_order]
    count = len(numbers)
    if sorted(numbers) != list(range(1, int(cylinders) + 1)):
        return not_applicable("the order is not complete")
    if crank_throw_angles is not None and len(crank_throw_angles) == count:
        angles = [angle * DEGREES for angle in crank_throw_angles]
        cranks = [_tops(dict(enumerate(angles, 1)), banks if layout in ("v", "flat") else None,
                        180.0 if layout == "flat" else (bank_angle or 0.0) * DEGREES)]
    elif layout == "inline" and count in USUAL_PINS["inline"]:
        cranks = [_tops(dict(enumerate(USUAL_PINS["inline"][count], 1)), None, 0.0)]
    elif layout == "v" and count == 8:
        numbered = [banks] if banks and [len(bank) for bank in banks] == [4, 4] else USUAL_BANKS
        cranks = [_tops({int(number): pin for bank in sides for number, pin in zip(bank, USUAL_PINS["v"][8])}, sides, 90.0) for sides in numbered]
    else:
        return lacking("crank_throw_angles")
    if any(_meets(numbers, tops) for tops in cranks):
        return passes()
    verdict = require(False).telling(written="-".join(map(str, numbers)), trouble=_trouble(numbers, cranks[0]))
    if layout == "v" and banks and len(banks) == 2:
        turned = [banks[1], banks[0]]
        pins = dict(enumerate((angle * DEGREES for angle in crank_throw_angles), 1)) if crank_throw_angles is not None and len(
            crank_throw_angles) == count else {int(number): pin for bank in turned for number, pin in zip(bank, USUAL_PINS["v"].get(count, ()))}
        if len(pins) == count and _meets(numbers, _tops(pins, turned, (bank_angle or 0.0) * DEGREES if crank_throw_angles is not None else 90.0)):
            return verdict.saying(fix="With the banks the other way round it would: write the left bank first, left as the driver sees it. "
                                      "Else write the order of the cam and crank that will be used.")
    return verdict


DEGREES = 57.29577951308232
# Pins of the usual cranks in degrees from that of the first cylinder: by cylinder of a straight engine, by place in the
# bank of a V8; and the ways in which V8s are numbered, the left bank first.
USUAL_PINS = {"inline": {4: (0.0, 180.0, 180.0, 0.0), 6: (0.0, 240.0, 120.0, 120.0, 240.0, 0.0)}, "v": {8: (0.0, 90.0, 270.0, 180.0)}}
USUAL_BANKS = (((1, 3, 5, 7), (2, 4, 6, 8)), ((5, 6, 7, 8), (1, 2, 3, 4)), ((1, 2, 3, 4), (5, 6, 7, 8)), ((2, 4, 6, 8), (1, 3, 5, 7)))


def _tops(pins, banks, bank_angle):
    """Crank angle in degrees at which each cylinder stands at top, from its pin and the lean of its bank."""
    lean = {int(number): (-0.5 if place else 0.5) * bank_angle for place, bank in enumerate(banks or ()) for number in bank}
    return {number: (lean.get(number, 0.0) - pin) % 360 for number, pin in pins.items()}


def _apart(one, other):
    return abs((one - other + 180) % 360 - 180)


def _meets(numbers, tops):
    """Whether the cylinders come to top evenly in this order, in one direction of rotation or the other."""
    step = 720.0 / len(numbers)
    return any(all(_apart(hand * (tops[number] - tops[numbers[0]]), place * step) < 1.0 for place, number in enumerate(numbers))
               for hand in (1, -1))


def _trouble(numbers, tops):
    """The first pair at top together that the order does not fire half a cycle apart, or that they do not come evenly."""
    half = len(numbers) // 2
    for place, number in enumerate(numbers[:half]):
        together = [other for other in numbers if other != number and _apart(tops[number], tops[other]) < 1.0]
        if together and numbers[place + half] not in together:
            return f"{number} and {together[0]} stand at top together, but the order does not fire them half a cycle apart"
    reached = ", ".join(f"{number} at {(tops[number] - tops[numbers[0]]) % 360:.0f}" for number in numbers)
    return f"the cylinders do not reach top evenly, one after the other, in this order; by pins and banks they do so at these degrees of a turn: {reached}"


SAME = """
engine: {cylinders: 8, firing_order: [1, 8, 4, 3, 6, 5, 7, 2]}
camshaft: {firing_order: %s}
ignition: {spark_order: %s}
fuel_system: {injection: sequential, injector_order: %s}  %s
"""
BASE, SWAP = "[1, 8, 4, 3, 6, 5, 7, 2]", "[1, 8, 7, 3, 6, 5, 4, 2]"


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The firing order is {written}, but {place} says {other}.",
    fix="Decide which crank and cam are used, and write their order everywhere: cam card, leads or coils, injectors, controller.",
    source="arithmetic",
    points_at=("camshaft_firing_order", "spark_order", "fuel_injector_order", "firing_order"),
    conforming=(SAME % (BASE, BASE, BASE, ""), SAME % ("[8, 4, 3, 6, 5, 7, 2, 1]", BASE, BASE, "")),
    nonconforming=(SAME % (BASE, BASE, SWAP, "# <-"), """
        engine: {cylinders: 8, firing_order: [1, 8, 4, 3, 6, 5, 7, 2]}
        camshaft: {firing_order: [1, 8, 7, 3, 6, 5, 4, 2]}  # <-
        """, """
        engine: {cylinders: 8, firing_order: [1, 8, 7, 3, 6, 5, 4, 2]}
        ignition: {spark_order: [1, 8, 4, 3, 6, 5, 7, 2]}  # <-
        """),
)
def firing_order_is_same_everywhere(
    firing_order: List, camshaft_firing_order: List = None, spark_order: List = None, fuel_injector_order: List = None,
):
    """A cam ground for another order than the leads are laid for runs on six cylinders and backfires through two.

    The lists may begin with another cylinder; what counts is who follows whom. Sequential injectors in the old order run
    well enough not to be noticed and wash two bores.
    """
    others = (("the cam's card", "camshaft_firing_order", camshaft_firing_order), ("the ignition", "spark_order", spark_order),
              ("the injectors' sequence", "fuel_injector_order", fuel_injector_order))
    if all(order is None for _, _, order in others):
        return lacking("camshaft_firing_order")
    for place, word, order in others:
        if order is not None and _from_first(order) != _from_first(firing_order):
            return require(False).telling(place=place, other="-".join(str(int(number)) for number in order),
                                          written="-".join(str(int(number)) for number in firing_order)).at(word)
    return passes()


def _from_first(order):
    """The order turned round so that it begins with its lowest cylinder."""
    numbers = [int(number) for number in order]
    start = numbers.index(min(numbers))
    return numbers[start:] + numbers[:start]


WIRING = """
build: {stage: assembly}
engine: {cylinders: 8, firing_order: [1, 8, 7, 3, 6, 5, 4, 2]}
camshaft: {ordered_as: swap, firing_order: [1, 8, 7, 3, 6, 5, 4, 2]}  %s
fuel_system: {injection: %s}
%s
"""


@rule(
    scope="build",
    level="warning",
    due="assembly",
    says="The cam is ground for a swapped order, and {missing} not been written for it.",
    fix="Move leads or coils, injectors, header pairing, and the cylinder used for timing and leak-down together; write spark_order, and "
        "injector_order with sequential injection.",
    source="common practice, no source",
    when={"camshaft_ordered_as": given},
    points_at=("camshaft_ordered_as",),
    conforming=WIRING % ("", "batch", "ignition: {spark_order: [1, 8, 7, 3, 6, 5, 4, 2]}"),
    nonconforming=(WIRING % ("# <-", "batch", ""), WIRING % ("# <-", "sequential", "ignition: {spark_order: [1, 8, 7, 3, 6, 5, 4, 2]}")),
)
def swapped_order_updates_wiring(
    camshaft_ordered_as: Choice, spark_order: List = None, fuel_injection: Choice = None, fuel_injector_order: List = None,
    stage: Choice = None,
):
    """A swapped cam in an engine wired the old way is the classic of the first start.

    Asked once the engine is being assembled; before, the missing lists are only open.
    """
    if camshaft_ordered_as != "swap":
        return not_applicable("ground for the base order")
    missing = ["spark_order"] if spark_order is None else []
    missing += ["fuel_injector_order"] if fuel_injection == "sequential" and fuel_injector_order is None else []
    if not missing:
        return passes()
    if stage not in ("assembly", "handover"):
        return lacking(*missing)
    names = {"spark_order": "the order of the sparks", "fuel_injector_order": "the sequence of the injectors"}
    text = " and ".join(names[word] for word in missing)
    return require(False).telling(missing=f"{text} {'has' if len(missing) == 1 else 'have'}")
