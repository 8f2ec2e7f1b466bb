"""Gallery and core plugs: all there, held, clear of the feeds, and seen before they are hidden."""

from buildlint.mechanics.sealed_places import product_name
from buildlint.rulebook import *
from buildlint.tables.sealants import THREAD_SUITS

COUNTED = """
sealing: {gallery_plugs_needed: 12, gallery_plugs_fitted: %s, core_plugs_needed: 8, core_plugs_fitted: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="assembly",
    says="{fitted} {what} plugs are fitted; the block has places for {needed}.",
    fix="Find the place without a plug before anything hides it: behind the timing gear, under the rear cap, behind the cam.",
    source="counting; common practice, no source",
    points_at=("gallery_plugs_fitted", "core_plugs_fitted"),
    conforming=COUNTED % ("12", "8", ""),
    nonconforming=(COUNTED % ("11", "8", "# <-"), COUNTED % ("12", "7", "# <-")),
)
def gallery_plugs_are_all_fitted(
    gallery_plugs_needed: Count = None, gallery_plugs_fitted: Count = None, core_plugs_needed: Count = None,
    core_plugs_fitted: Count = None,
):
    """One plug left out behind the timing gear is an engine without oil pressure that has to come apart again."""
    verdict = None
    for needed, fitted, what, word in ((gallery_plugs_needed, gallery_plugs_fitted, "gallery", "gallery_plugs_fitted"),
                                       (core_plugs_needed, core_plugs_fitted, "core", "core_plugs_fitted")):
        if needed is None or fitted is None:
            continue
        verdict = matches(fitted, needed).at(word).telling(needed=str(needed), fitted=str(fitted), what=what)
        if verdict.kind == "fail":
            return verdict
    return verdict or not_applicable("plugs are not counted")


FEEDS = """
sealing:
  gallery_plugs:
    - {place: front left, kind: %s, recess: 0.050 in, length: %s, feed_edge: 0.380 in, fixed_by: %s}  %s
"""


@rule(
    scope="build",
    level="error",
    due="assembly",
    says="The plug {place} ends {end} deep, and the feed begins at {feed}: it {trouble}.",
    fix="Take a plug at most {length_to_stay_under:down} long, or drive it less deep.",
    source="geometry; common practice, no source",
    when={"gallery_plugs": given},
    points_at=("gallery_plugs",),
    conforming=FEEDS % ("cup", "0.3125 in", "staked", ""),
    nonconforming=FEEDS % ("threaded", "0.350 in", "threaded", "# <-"),
)
def gallery_plugs_clear_the_feeds(gallery_plugs: Entries):
    """A plug driven or screwed too deep closes the hole that feeds a bearing or a lifter gallery, and looks right from outside."""
    asked = False
    for row in gallery_plugs:
        if row.get("length") is None or row.get("feed_edge") is None:
            continue
        asked = True
        recess = row.get("recess") or 0.0
        verdict = at_most(Length(recess + row["length"]), Length(row["feed_edge"]))
        if verdict.kind == "fail":
            return verdict.at(f"gallery_plugs_{row['number']}").telling(
                place=row.get("place") or row["number"], end=Length(recess + row["length"]), feed=row["feed_edge"],
                trouble="covers the feed",
                length_to_stay_under=Length(row["feed_edge"] - recess))
    return passes() if asked else not_applicable("lengths and feeds are not written")


@rule(
    scope="build",
    level="warning",
    due="assembly",
    says="The cup plug {place} is held by nothing but its press.",
    fix="Tap the hole and fit a threaded plug, or stake the edge at three places; write fixed_by.",
    source="common practice, no source",
    when={"gallery_plugs": given},
    points_at=("gallery_plugs",),
    conforming=(FEEDS % ("cup", "0.25 in", "staked", ""), FEEDS % ("threaded", "0.25 in", "thread", "")),
    nonconforming=FEEDS % ("cup", "0.25 in", "press", "# <-"),
)
def gallery_plugs_are_held(gallery_plugs: Entries, duty: Choice = None):
    """Cold oil at full pressure pushes front gallery plugs out against the timing cover, and the pressure goes with them.

    A stock engine runs them as pressed.
    """
    if duty == "stock":
        return not_applicable("a stock engine")
    cups = [row for row in gallery_plugs if "cup" in (row.get("kind") or "") and "front" in (row.get("place") or "")]
    for row in cups:
        held = (row.get("fixed_by") or "").lower()
        if not any(word in held for word in ("stake", "thread", "screw", "weld", "strap", "plate")):
            return require(False).at(f"gallery_plugs_{row['number']}").telling(place=row["place"])
    return passes() if cups else not_applicable("no cup plug at the front is written")


@rule(
    scope="step",
    level="reminder",
    due="assembly",
    says="Before the {hides}, look at {what}.",
    fix="Count the plugs against the drawing, pass a wire through each feed, and sign.",
    source="common practice, no source",
    when={"step": ("front_cover", "main_and_crank", "cam_bearings_and_cam", "valley_tray_and_intake")},
    conforming="assembly:\n  steps:\n    - {step: gallery_plugs}\n    - {step: front_cover}",
)
def hidden_plugs_are_checked_first(step: Choice):
    """The plug under the rear cap and those behind cam and timing gear are seen once, and missed for the engine's whole life."""
    hides, what = {
        "front_cover": ("front cover goes on", "the gallery plugs, thrust plate bolts and drip hole behind it"),
        "main_and_crank": ("rear main cap goes on", "the plug under it"),
        "cam_bearings_and_cam": ("cam goes in", "the plugs and restrictors of its galleries"),
        "valley_tray_and_intake": ("valley tray or manifold goes on", "the plugs of the lifter galleries and the drain holes"),
    }[step]
    return review().telling(hides=hides, what=what)


CORE = """
sealing: {core_plug_interference: %s, core_plug_depth: %s, core_plug_product: %s}  %s
"""


@rule(
    scope="build",
    level="warning",
    due="assembly",
    says="{trouble}",
    fix="{remedy}",
    source="common practice, no source; numbers from memory",
    points_at=("core_plug_interference", "core_plug_depth"),
    conforming=CORE % ("0.005 in", "0.04 in", "anaerobic_sealant", ""),
    nonconforming=(CORE % ("0.001 in", "0.04 in", "anaerobic_sealant", "# <-"),
                   CORE % ("0.005 in", "0 in", "anaerobic_sealant", "# <-")),
)
def core_plugs_fit_their_bores(
    core_plug_interference: Length = None, core_plug_depth: Length = None, *,
    least: Length = q("0.002 in"), most: Length = q("0.008 in"), shallowest: Length = q("0.5 mm"), deepest: Length = q("1.5 mm"),
):
    """A loose core plug weeps and then leaves; a tight one cracks the boss. Its edge belongs just below the chamfer."""
    verdict = None
    if core_plug_interference is not None:
        verdict = within(core_plug_interference, least, most).at("core_plug_interference").saying(
            "The core plugs press with {value}; {least:up} to {most:down} is usual.",
            "Measure bores and plugs; take the next plug or have the bores reamed.")
    if core_plug_depth is not None and (verdict is None or verdict.kind == "pass"):
        depth = within(core_plug_depth, shallowest, deepest).at("core_plug_depth").saying(
            "The core plugs are driven {value} below the chamfer; {shallowest:up} to {deepest:down} is usual.",
            "Drive them square with a driver that fits the cup, to just below the chamfer.")
        verdict = depth if depth.kind == "fail" or verdict is None else verdict
    return verdict or not_applicable("fit and depth are not written")


@rule(
    scope="build",
    level="warning",
    due="assembly",
    says="{product} on the core plugs does not hold coolant.",
    fix="Use anaerobic sealant or a water plug sealer, a thin film on the bore.",
    source="product data sheets' usual ranges, from memory",
    when={"core_plug_product": given},
    points_at=("core_plug_product",),
    conforming=(CORE % ("0.005 in", "0.04 in", "anaerobic_sealant", ""), CORE % ("0.005 in", "0.04 in", "water_plug_sealer", "")),
    nonconforming=(CORE % ("0.005 in", "0.04 in", "threadlocker_medium", "# <-"), CORE % ("0.005 in", "0.04 in", "none", "# <-")),
)
def core_plug_sealer_suits_water(core_plug_product: Choice):
    """The press holds the plug, the sealer holds the water in the scratches."""
    verdict = require("coolant" in THREAD_SUITS.get(core_plug_product, ())).telling(product=product_name(core_plug_product, True))
    return verdict.saying("The core plugs are to be driven in without sealer.") if core_plug_product == "none" else verdict
