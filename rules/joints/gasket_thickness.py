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
    points_at=("head_gasket_mock_up_thickness", "head_gasket_free_thickness", "head_gasket_compressed_thickness"),
    conforming=(THICKNESS % ("compressed_thickness: 0.041 in, free_thickness: 0.045 in", ""),
                THICKNESS % ("compressed_thickness: 0.041 in, mock_up_thickness: 0.0415 in", ""),
                THICKNESS % ("compressed_thickness: 0.041 in, mock_up_thickness: 0 in", "")),
    nonconforming=(THICKNESS % ("compressed_thickness: 0.041 in, mock_up_thickness: 0.051 in", "# <-"),
                   THICKNESS % ("free_thickness: 0.045 in", "# <-"),
                   THICKNESS % ("compressed_thickness: 0.047 in, free_thickness: 0.039 in", "# <-")),
)
def compressed_thickness_is_used(
    head_gasket_compressed_thickness: Length = None, head_gasket_free_thickness: Length = None,
    head_gasket_mock_up_thickness: Length = None, *,
    error_beyond: Length = q("0.05 mm"), warning_beyond: Length = q("0.02 mm"),
):
    """One thickness feeds ratio, quench, pushrods, piston gap and manifold fit: that of the gasket as the bolts press it.

    Multilayer steel gives up to a tenth of a millimeter, composite up to a third. A mock-up with another gasket must be
    counted over; with no gasket at all it is written as 0.
    """
    if head_gasket_compressed_thickness is None:
        if head_gasket_free_thickness is None:
            return not_applicable("no thickness is written")
        return require(False, "warning").saying(
            "Only the gasket's free thickness is written.",
            "Write compressed_thickness from the maker's sheet, or measure a used one.")
    if head_gasket_free_thickness is not None and head_gasket_compressed_thickness > head_gasket_free_thickness * 1.001:
        return require(False).at("head_gasket_compressed_thickness").saying(
            "The gasket is written as thicker when pressed than when free.",
            "The two figures have changed places; write them the right way round.")
    if not head_gasket_mock_up_thickness:
        return passes()
    off = head_gasket_mock_up_thickness - head_gasket_compressed_thickness
    verdict = at_most(Length(abs(off)), error=error_beyond, warning=warning_beyond).telling(off=Length(abs(off)))
    return verdict.saying(
        "The mock-up was made with a gasket of {head_gasket_mock_up_thickness}, the final one is {head_gasket_compressed_thickness}.",
        ("Take {off} off" if off > 0 else "Add {off} to") + " every gap measured at mock-up, pushrods and piston gaps too, or measure again with "
        "the final gasket.")
