"""Lifters: their fit in the bore, how far the plunger is pushed in, and what heat does to lash and preload."""

from ..dimensions import Choice, Length, Ratio, Thread
from ..mechanics.expansion import growth
from ..mechanics.lobe import positive
from ..numeric import least
from ..tables.camshafts import CASTING_RISE, EXHAUST_VALVE_RISE, INTAKE_VALVE_RISE, LASH_GROWTH, PUSHROD_RISE
from ..tables.materials import CASTING_METAL


def lifter_bore_clearance(lifter_bore: Length, lifter_body_diameter: Length) -> Length:
    """Diametral clearance of a lifter: bore less body.

    Source: geometry.
    """
    return lifter_bore - lifter_body_diameter


def lifter_travel_per_turn(rocker_adjuster_thread: Thread, rocker_adjustment: Choice, rocker_ratio: Ratio) -> Length:
    """How far one turn of the adjuster pushes the plunger in.

    An adjuster in the pushrod end: the pitch. A nut on the stud moves the pivot instead, and the pushrod end goes
    pitch x (1 + 1 / ratio), since the valve end stands still on the valve. m. Source: kinematics of the rocker.
    """
    if rocker_adjustment == "pushrod_end":
        return rocker_adjuster_thread.pitch
    if rocker_adjustment == "stud_nut":
        return rocker_adjuster_thread.pitch * (1 + 1 / positive(rocker_ratio))
    return None


def lifter_preload(lifter_preload_turns: Ratio, lifter_travel_per_turn: Length) -> Length:
    """Preload from the turns past zero lash: turns times the travel of one turn.

    Source: kinematics of the rocker.
    """
    return lifter_preload_turns * lifter_travel_per_turn


def lash_growth(block_material: Choice, head_material: Choice) -> Length:
    """How much lash the engine gains when it gets hot, by the metals of block and head; negative where it loses some.

    Source: a chart of the trade; common practice, no source.
    """
    return LASH_GROWTH.get((_kind(block_material), _kind(head_material)))


def lash_growth_model(block_material: Choice, head_material: Choice, block_cam_to_deck: Length, head_deck_to_pivot: Length,
                      head_deck_to_seat: Length, pushrod_length: Length, lifter_length: Length, valve_length: Length,
                      rocker_ratio: Ratio, side_name: Choice, valve_material: Choice = None) -> Length:
    """How much lash the engine gains when it gets hot, from the growth of every part between cam and valve tip.

    (1 + r) x growth of block and head up to the pivot, less r x growth of pushrod and lifter, less growth of block,
    head and valve up to the tip; usual rises of temperature. m. A check on the chart: rises are assumed.
    Source: kinematics of the rocker; thermal strain; temperatures common practice, no source.
    """
    block, head = CASTING_METAL.get(block_material), CASTING_METAL.get(head_material)
    if block is None or head is None:
        return None
    hot = INTAKE_VALVE_RISE if side_name == "intake" else EXHAUST_VALVE_RISE
    deck = growth(block, block_cam_to_deck, CASTING_RISE)
    pivot = deck + growth(head, head_deck_to_pivot, CASTING_RISE)
    push = growth("steel", pushrod_length, PUSHROD_RISE) + growth("steel", lifter_length, PUSHROD_RISE)
    tip = deck + growth(head, head_deck_to_seat, CASTING_RISE) + growth(_valve_metal(valve_material), valve_length, hot)
    return (1 + rocker_ratio) * pivot - rocker_ratio * push - tip


def lifter_preload_hot(lifter_preload: Length, lash_growth: Length, rocker_ratio: Ratio) -> Length:
    """Preload left when the engine is hot: cold preload less the lash gained, seen at the lifter.

    m. Source: kinematics of the rocker; growth by the chart.
    """
    return lifter_preload - lash_growth / positive(rocker_ratio)


def lifter_fed_margin(camshaft_base_circle_diameter: Length, lifter_oil_band_bottom: Length, lifter_oil_band_top: Length,
                      lifter_feed_height: Length) -> Length:
    """How far the feed hole lies inside the lifter's oil band with the lifter on the base circle; negative outside.

    Heights above the cam's center: base radius plus the band's edges above the contact. m. Source: geometry.
    """
    radius = camshaft_base_circle_diameter / 2
    return least(lifter_feed_height - (radius + lifter_oil_band_bottom), radius + lifter_oil_band_top - lifter_feed_height)


def lifter_band_margin(camshaft_base_circle_diameter: Length, lobe_lift: Length, lifter_oil_band_bottom: Length,
                       lifter_oil_band_top: Length, lifter_bore_bottom: Length, lifter_bore_top: Length) -> Length:
    """How far the oil band stays inside its bore, on the base circle and at full lift; negative where it leaves.

    m. Source: geometry.
    """
    radius = camshaft_base_circle_diameter / 2
    return least(radius + lifter_oil_band_bottom - lifter_bore_bottom, lifter_bore_top - (radius + lobe_lift + lifter_oil_band_top))


def _kind(material):
    if str(material).startswith("aluminum"):
        return "aluminum"
    return "iron" if material in ("cast_iron", "ductile_iron", "compacted_iron") else None


def _valve_metal(material):
    if material == "titanium":
        return "titanium"
    return "austenitic_valve_steel" if str(material).startswith(("austenitic", "nickel")) else "steel"
