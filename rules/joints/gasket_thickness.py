"""The one thickness of the head gasket that everything is counted with."""

from buildlint.rulebook import *

THICKNESS = """
head_gasket: {%s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="ordering",
    says="The gasket's thickness differs from one use to the next.",
    fix="Write compressed_thickness, and use it everywhere.",
    source="common practice, no source",
    points_at=("head_gasket_free_thickness", "head_gasket_compressed_thickness"),
    conforming=(THICKNESS % ("compressed_thickness: 0.041 in, free_thickness: 0.045 in", ""),
                THICKNESS % ("compressed_thickness: 0.041 in, mock_up_thickness: 0.051 in", "")),
    nonconforming=(THICKNESS % ("free_thickness: 0.045 in", "# <-"),
                   THICKNESS % ("compressed_thickness: 0.047 in, free_thickness: 0.039 in", "# <-")),
)
def compressed_thickness_is_used(head_gasket_compressed_thickness: Length = None, head_gasket_free_thickness: Length = None):
    """One thickness feeds ratio, quench, pushrods, piston gap and manifold fit: that of the gasket as the bolts press it.

    Multilayer steel gives up to a tenth of a millimeter, composite up to a third. What a mock-up with another gasket does to
    the gaps read there is told by the rule on the mock-up.
    """
    if head_gasket_compressed_thickness is None:
        if head_gasket_free_thickness is None:
            return not_applicable("no thickness is written")
        return require(False, "warning").saying(
            "Only the gasket's free thickness is written.",
            "Write compressed_thickness from the maker's sheet, or measure a used one.")
    if head_gasket_free_thickness is None:
        return passes()
    return require(head_gasket_compressed_thickness <= head_gasket_free_thickness * 1.001).at("head_gasket_compressed_thickness").saying(
        "The gasket is written as thicker when pressed than when free.",
        "The two figures have changed places; write them the right way round.")
