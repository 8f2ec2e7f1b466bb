"""The pictures of a sheet, each in a module of its own: drawn from the words the rules judged, or left out with what is missing.

A picture is a function of a Build that gives a Drawn, or raises Wanting with the keys that would let it be drawn.
"""

PICTURES = ()


def draw(build):
    """([pictures as dicts with title, svg and text], [those left out, with what they need])."""
    return [], []
