"""Dowels that put the head and its gasket where they belong."""

from buildlint.rulebook import *

DOWELS = """
joints:
  head: {kind: stud}
block: {dowel_holes_per_bank: 2, dowels_per_bank: %s}  %s
"""


@rule(
    scope="joint",
    level="error",
    due="assembly",
    says="The block has {block_dowel_holes_per_bank} dowel holes in each deck, but {block_dowels_per_bank} dowels are fitted.",
    fix="Fit a dowel in every hole before the gasket goes on, and check its height against gasket and head.",
    source="common practice, no source",
    when={"joint_name": ("head",)},
    points_at=("block_dowels_per_bank",),
    conforming=(DOWELS % ("2", ""), """
        joints:
          head: {kind: bolt}
        block: {dowel_holes_per_bank: 0, dowels_per_bank: 0}
        """),
    nonconforming=DOWELS % ("1", "# <-"),
)
def head_dowels_are_fitted(block_dowels_per_bank: Count, block_dowel_holes_per_bank: Count):
    """Without its dowels a gasket creeps under the head and its fire ring hangs into the bore.

    Some older inline blocks have no dowel holes; then none is right.
    """
    return matches(block_dowels_per_bank, block_dowel_holes_per_bank)
