"""Which of the sealed places of an engine a joint has to answer for."""

from ..tables.sealants import FUEL_WORDS, JOINT_OF_PLACE, USUAL_MEDIUM


def places_of(joint_name, sealed_places, joints_listed):
    """The entries of sealed places that a joint closes.

    A place whose joint is not written is answered for by the first joint of the spec, so that none is lost.
    """
    names = [row.get("joint_name") for row in joints_listed]
    first = names[0] if names else None
    found = []
    for row in sealed_places:
        owner = JOINT_OF_PLACE.get(row.get("place"))
        if owner == joint_name or owner not in names and joint_name == first:
            found.append(row)
    return found


def medium_of(row):
    """What an entry holds back: oil, coolant, fuel or gas, as written or as usual at its place."""
    text = (row.get("medium") or "").lower()
    if any(word in text for word in FUEL_WORDS):
        return "fuel"
    for medium in ("coolant", "oil", "gas"):
        if medium in text or medium == "coolant" and "water" in text:
            return medium
    return USUAL_MEDIUM.get(row.get("place"), "oil")
