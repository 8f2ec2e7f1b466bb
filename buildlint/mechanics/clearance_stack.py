"""The terms of the clearance volume and the single mistake that would explain why their sum is not what it should be.

Signs: dish, gasket, chamber and a piston below the deck add; a dome and a piston above the deck take away.
"""


def slips(crown=None, deck=None, gasket=None, crevice=None, free_gasket=None):
    """[(the mistake in words, what mending it would change in m3)] for the terms that are known, each in m3.

    ``free_gasket`` is the gasket's volume at its thickness before it is clamped.
    """
    found = []
    if crown:
        found.append(("dish or dome entered with the wrong sign", -2 * crown))
        found.append(("dish, dome or pockets left out on one side", -crown))
    if deck:
        found.append(("piston written on the wrong side of the deck", -2 * deck))
    if gasket:
        found.append(("gasket left out on one side", -gasket))
        if free_gasket and abs(free_gasket - gasket) > 0.02 * gasket:
            found.append(("gasket counted at its free thickness, not clamped", free_gasket - gasket))
    if crevice:
        found.append(("crevice above the top ring counted on one side only", crevice))
    return found


def likely_slip(difference, mistakes, within):
    """The mistake whose mending comes nearest to ``difference`` (m3 to be added to the sum), or None.

    A mistake explains the difference where it leaves less than ``within`` and less than a third of it.
    """
    best = min(mistakes, key=lambda mistake: abs(mistake[1] - difference), default=None)
    if best is None or abs(best[1] - difference) > min(within, abs(difference) / 3):
        return None
    return best[0]
