"""The pictures of a sheet, each in a module of its own: drawn from the words the rules judged, or left out with what is missing.

A picture is a function of a Build that gives a Drawn, or raises Wanting with the keys that would let it be drawn.
"""

from ...render.text import line
from . import clearances, crank, cylinder, joints, springs, valves
from .drawing import Wanting, settings

PICTURES = (
    ("Spring load against lift", springs.spring_load), ("Pushrod", springs.pushrod_capacity), ("Valve lift", valves.lift_curves),
    ("Piston to valve", valves.piston_to_valve), ("Clearances", clearances.bands), ("Joints", joints.preload_bands),
    ("Head joint", joints.head_diagram), ("Tightening pattern of the head", joints.tightening_pattern),
    ("Cylinder pressure", cylinder.pressure), ("Piston", crank.piston_motion), ("Bearing film", crank.bearing_film),
)


def draw(build):
    """([pictures as dicts with key, title, text and svg], [those left out with their title and what they need])."""
    drawn, left_out = [], []
    with settings():
        for title, picture in PICTURES:
            try:
                drawn.append(picture(build)._asdict())
            except Wanting as wanting:
                left_out.append({"title": title, "needs": [line(need) for need in wanting.needs[:8]], "text": line(wanting.why)})
    return drawn, left_out
