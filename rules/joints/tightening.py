"""In which order a pattern of fasteners is tightened."""

from buildlint.mechanics.rank_order import rank_correlation
from buildlint.rulebook import *

PLACES = """
joints:
  head:
    positions:
      - {name: U1, x: -223.5 mm, y: 40 mm}
      - {name: U2, x: -111.8 mm, y: 40 mm}
      - {name: U3, x: 0 mm, y: 40 mm}
      - {name: U4, x: 111.8 mm, y: 40 mm}
      - {name: U5, x: 223.5 mm, y: 40 mm}
      - {name: L1, x: -223.5 mm, y: -40 mm}
      - {name: L2, x: -111.8 mm, y: -40 mm}
      - {name: L3, x: 0 mm, y: -40 mm}
      - {name: L4, x: 111.8 mm, y: -40 mm}
      - {name: L5, x: 223.5 mm, y: -40 mm}
    tightening_order: [%s]  %s
"""
SPIRAL = "U3, L3, U4, L2, U2, L4, U5, L1, U1, L5"


def _places(positions):
    return {row["name"]: (row["x"], row["y"]) for row in positions or () if row.get("name") and row.get("x") is not None
            and row.get("y") is not None}


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="The tightening order {trouble}.",
    fix="Begin with {first} and work outward in turns, one side and the other: {order}.",
    source="factory manuals and trade press: from the inside to the outside; Spearman's rank correlation",
    when={"tightening_order": given, "positions": given},
    points_at=("tightening_order",),
    conforming=PLACES % (SPIRAL, ""),
    nonconforming=(PLACES % ("U1, L1, U2, L2, U3, L3, U4, L4, U5, L5", "# <-"),
                   PLACES % (", ".join(reversed(SPIRAL.split(", "))), "# <-"),
                   PLACES % ("U3, U4, L3, L4, U5, L5, U2, L2, U1, L1", "# <-")),
)
def tightening_starts_at_the_middle(
    tightening_order: List, positions: Entries, *, error_below: Ratio = q("0.3", "ratio"), warning_below: Ratio = q("0.8", "ratio"),
):
    """Tightened from the end, a head is bent over its gasket like a plank, and the wave ends where it cannot go on.

    Judged is how well the order agrees with the distance from the middle of the pattern. A cover is loosened in the
    reverse order; that is not what is written here.
    """
    places = _places(positions)
    named = [name for name in tightening_order if name in places]
    if len(named) < 4:
        return not_applicable("places of the fasteners are not written")
    middle = [sum(place[axis] for place in places.values()) / len(places) for axis in (0, 1)]
    away = {name: ((place[0] - middle[0]) ** 2 + (place[1] - middle[1]) ** 2) ** 0.5 for name, place in places.items()}
    correlation = rank_correlation(list(range(len(named))), [away[name] for name in named])
    if correlation is None:
        return passes()
    best = sorted(away, key=lambda name: (round(away[name], 6), name))
    verdict = at_least(Ratio(correlation), error=error_below, warning=warning_below)
    # Begins with one that does not stand in the middle: another fastener nearer the middle by more than one rank.
    nearer = sum(away[name] < away[named[0]] - 1e-9 for name in away)
    if verdict.kind == "pass" and nearer > 2:
        verdict = require(False, "warning")
    if correlation < -warning_below:
        trouble = "runs from the outside to the middle, which is how a head is loosened"
    elif verdict.level == "error":
        trouble = f"starts with {named[0]} and runs along the joint instead of outward from its middle"
    else:
        trouble = f"starts with {named[0]} but does not spiral out evenly from the middle"
    return verdict.telling(trouble=trouble, first=best[0], order=", ".join(best))


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="The tightening order {trouble}.",
    fix="Write each fastener of the pattern once.",
    source="counting; common practice, no source",
    when={"tightening_order": given},
    points_at=("tightening_order",),
    conforming=PLACES % (SPIRAL, ""),
    nonconforming=(PLACES % ("U3, L3, U4, L2, U2, L4, U5, L1, U1", "# <-"), PLACES % (SPIRAL + ", U3", "# <-"),
                   PLACES % (SPIRAL.replace("L5", "L6"), "# <-")),
)
def every_fastener_is_in_sequence(tightening_order: List, positions: Entries = None):
    """A fastener left out of the list is left loose by the one who reads it off."""
    names = [row["name"] for row in positions or () if row.get("name")]
    twice = sorted({name for name in tightening_order if tightening_order.count(name) > 1})
    left_out = [name for name in names if name not in tightening_order]
    unknown = [name for name in tightening_order if names and name not in names]
    trouble = [text for found, text in ((left_out, "leaves out"), (twice, "names twice"),
                                        (unknown, "names what is no hole of the pattern:")) if found]
    found = next((part for part in (left_out, twice, unknown) if part), [])
    return require(not trouble).telling(trouble=f"{trouble[0] if trouble else ''} {', '.join(found)}")
