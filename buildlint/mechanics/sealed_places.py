"""Which of the sealed places of an engine a joint has to answer for, and how places and products are named."""

from ..tables.sealants import FUEL_WORDS, JOINT_OF_PLACE, PRODUCT_NAMES, USUAL_MEDIUM


def first_joint(joints_listed):
    """The known name that answers for what belongs to no joint: the first of the alphabet."""
    return min((row["joint_name"] for row in joints_listed), default=None)


def places_of(joint_name, leads, sealed_places, joints_listed):
    """The entries of sealed places that a joint closes; none for a joint that does not lead those of its name.

    A place whose joint is not written is answered for by the first joint by name, so that none is lost.
    """
    if not leads:
        return []
    names = [row.get("joint_name") for row in joints_listed]
    first = first_joint(joints_listed)
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


def product_name(product, first=False):
    """A product as it is said, with a capital at the beginning of a sentence."""
    name = PRODUCT_NAMES.get(product, str(product).replace("_", " "))
    return name[0].upper() + name[1:] if first else name
