"""The order in which a pushrod engine goes together, as a partial order: each step, and what must be finished before.

Any list of work that respects ``requires`` is good; the sequence written here is only one of many. What an engine
leaves out or turns round follows from what is known of it (``steps_for``). Whether a spec obeys is for rules to say.
Source of the whole table: common practice, no source.
"""

from functools import lru_cache
from typing import NamedTuple


class Step(NamedTuple):
    """One step: the steps finished before it, whether every such engine goes through it, and what is done."""

    requires: tuple
    standard: bool
    done: str


STEPS = {
    "receive_and_count": Step((), True, "open every box, count against the order, file the makers' sheets"),
    "inspect_castings": Step(("receive_and_count",), True, "look for cracks, probe the bolt holes, map galleries, plugs and dowels"),
    "choose_fasteners": Step(("receive_and_count",), True, "settle studs or bolts, washers and lubricant before anything is sized with them"),
    "machine_block": Step(("inspect_castings", "choose_fasteners"), True, "line bore, bore, hone and deck with the final fasteners"),
    "machine_heads": Step(("inspect_castings", "choose_fasteners"), True, "guides, seats, faces, spot faces, steam holes"),
    "measure_deck_height": Step(("machine_block",), True, "deck height at each corner"),
    "order_measured_parts": Step(("measure_deck_height",), False, "gasket thickness, shells, rings by what was measured"),
    "coat_and_mask": Step(("machine_block", "machine_heads"), False, "paint or powder, faces and threads masked, before any seal is in"),
    "spring_bench_test": Step(("machine_heads",), True, "loads, coil gap and heights of every spring"),
    "pre_clean": Step(("machine_block", "machine_heads"), True, "wash for the mock-up"),
    "mock_up_bottom": Step(("pre_clean", "order_measured_parts"), True, "crank, a rod and piston or two, bearing clearances"),
    "mock_up_cam": Step(("mock_up_bottom",), True, "cam and timing set, top found by a stop, cam degreed"),
    "mock_up_head": Step(("mock_up_cam",), True, "head on a gasket of the final thickness, light springs"),
    "check_piston_valve": Step(("mock_up_head",), True, "valve to piston and piston to head, on both banks"),
    "check_pushrod_geometry": Step(("mock_up_head",), True, "sweep on the tip, length for each side, room at guide and cover"),
    "order_pushrods": Step(("check_pushrod_geometry",), True, "pushrods by the measured lengths"),
    "trial_fit_intake": Step(("mock_up_head",), True, "ports, bolt holes and end gaps of the manifold"),
    "trial_fit_plug_and_cover": Step(("mock_up_head",), False, "plug against piston, cover against rockers and studs"),
    "strip_mock_up": Step(("check_piston_valve", "check_pushrod_geometry", "trial_fit_intake", "trial_fit_plug_and_cover"), True,
                          "apart again; every temporary part logged out"),
    "final_wash": Step(("strip_mock_up", "coat_and_mask"), True, "hot wash, galleries brushed, dried and oiled"),
    "chase_threads": Step(("final_wash",), True, "threads run through with a chaser, blind holes blown out, faces wiped"),
    "gallery_plugs": Step(("final_wash",), True, "every gallery plug and restrictor, counted and held"),
    "core_plugs": Step(("final_wash",), True, "core plugs with a sealer for water"),
    "cam_bearings_and_cam": Step(("gallery_plugs",), True, "cam bearings, cam turning by hand"),
    "main_and_crank": Step(("chase_threads", "gallery_plugs"), True, "shells, crank, caps in sequence, end play"),
    "rear_seal": Step(("main_and_crank",), True, "rear main seal, lip to the oil"),
    "rings_pistons_rods": Step(("main_and_crank",), True, "ring gaps recorded, pistons in, rod bolts tightened and recorded"),
    "timing_set": Step(("cam_bearings_and_cam", "rings_pistons_rods"), True, "sprockets and chain, cam bolts locked"),
    "final_degree": Step(("timing_set",), True, "cam position measured once more"),
    "oil_pump_pickup": Step(("main_and_crank",), True, "pump, drive shaft, pickup and its gap to the pan"),
    "front_cover": Step(("final_degree",), True, "cover with its corners sealed, seal centered"),
    "oil_pan": Step(("front_cover", "rear_seal", "oil_pump_pickup"), True, "pan with its corners sealed"),
    "damper": Step(("front_cover",), True, "damper drawn on, keyway sealed, bolt tightened"),
    "heads_assembled": Step(("spring_bench_test",), True, "heads washed by themselves, valves, seals and springs in, heights recorded"),
    "wipe_faces": Step(("chase_threads", "rings_pistons_rods"), True, "deck and head faces wiped with solvent, dry"),
    "dowels": Step(("wipe_faces",), True, "head dowels in, height checked"),
    "head_gasket": Step(("dowels",), True, "right side up, on its dowels"),
    "head_studs": Step(("head_gasket",), True, "by hand, sealant where the hole is wet"),
    "head_on": Step(("head_studs", "head_gasket", "heads_assembled"), True, "head lowered onto its dowels"),
    "head_washers_nuts": Step(("head_on",), True, "washers counted in, right side down, turning face lubricated"),
    "head_torque": Step(("head_washers_nuts", "check_piston_valve"), True, "in steps from the middle out, last pass repeated, recorded"),
    "lifters": Step(("cam_bearings_and_cam", "final_degree"), True, "lifters, oiled or pasted"),
    "pushrods": Step(("head_torque", "lifters", "order_pushrods"), True, "each length in its row"),
    "rockers": Step(("pushrods",), True, "rockers, their studs sealed where they are wet"),
    "valve_adjust": Step(("rockers",), True, "each valve on the base circle"),
    "valley_tray_and_intake": Step(("head_torque", "lifters", "trial_fit_intake"), True, "valley tray, manifold, end rails sealed"),
    "flywheel": Step(("rear_seal",), True, "flywheel or flexplate, bolts locked and sealed"),
    "exhaust_and_plugs": Step(("head_torque",), True, "exhaust gaskets and studs, plugs into a cold head"),
    "fill_oil_filter": Step(("oil_pan",), True, "oil and filter"),
    "prime": Step(("fill_oil_filter", "valve_adjust", "valley_tray_and_intake"), True, "pressure seen, oil at every rocker, crank turned"),
    "covers": Step(("prime",), True, "rocker covers"),
    "pressure_test": Step(("valley_tray_and_intake", "core_plugs", "exhaust_and_plugs"), False, "cooling side under pressure, held"),
    "sign_off": Step(("prime", "covers", "damper", "flywheel", "exhaust_and_plugs", "pressure_test", "core_plugs"), True,
                     "records complete, temporary parts out"),
    "store_or_ship": Step(("sign_off",), False, "fogged, capped, tagged, bagged"),
    "first_fire": Step(("sign_off",), True, "two people, extinguisher, oil pressure, timing, leaks"),
    "recheck_after_heat": Step(("first_fire",), True, "retorque where called for, valves once more, fasteners and leaks"),
}

# Orders (step, what must come before it) that a rule of its own judges, so that one slip is told once. Where the second
# stands behind the first, that rule speaks for every other order it breaks too; only the studs' says no more than itself.
JUDGED_ELSEWHERE = {
    ("head_studs", "head_gasket"): "gasket-precedes-the-studs",
    ("head_gasket", "dowels"): "dowels-precede-the-gasket",
    ("front_cover", "final_degree"): "cam-is-degreed-before-cover",
    ("head_torque", "check_piston_valve"): "clearances-precede-final-torque",
    ("head_torque", "check_pushrod_geometry"): "clearances-precede-final-torque",
    ("pushrods", "head_torque"): "heads-precede-the-pushrods",
    ("rockers", "head_torque"): "heads-precede-the-pushrods",
    ("valve_adjust", "head_torque"): "valves-are-set-after-torque",
    ("final_wash", "machine_block"): "final-wash-follows-last-machining",
    ("final_wash", "machine_heads"): "final-wash-follows-last-machining",
}

# Steps that take metal off; what a shop calls by a name of its own is known by the word it begins with.
MACHINING_STEPS = ("machine_block", "machine_heads")
CUTTING_WORDS = frozenset("bore counterbore cut deburr deck drill grind hone machine mill notch overbore resurface skim spotface tap "
                          "weld".split())

# Work of a rebuild by the book that leaves valve lift, gasket and castings as they were, and so needs no mock-up.
MOCK_UP_STEPS = ("pre_clean", "mock_up_bottom", "mock_up_cam", "mock_up_head", "check_piston_valve", "check_pushrod_geometry",
                 "order_pushrods", "trial_fit_intake", "strip_mock_up")

# Measurements that a step shuts in: taken before it, or not at all.
SHUT_IN_BY = {
    "main_and_crank": ("main_bearing_clearance", "main_bearing_journal_diameter", "main_bearing_housing_bore"),
    "rings_pistons_rods": ("rod_bearing_clearance", "rod_bearing_journal_diameter", "rod_bearing_housing_bore", "block_bore",
                           "piston_wall_clearance", "top_ring_end_gap", "second_ring_end_gap", "oil_ring_end_gap"),
    "front_cover": ("timing_set_installed_centerline",),
    "oil_pan": ("oil_pickup_to_floor", "oil_pickup_depth"),
    "heads_assembled": tuple(f"{side}_{word}" for side in ("intake", "exhaust") for word in (
        "spring_seat_load", "spring_open_load", "spring_installed_height", "guide_stem_clearance", "guide_bore")),
    "head_on": ("block_deck_height", "piston_below_deck", "head_chamber_volume", "block_dowel_protrusion"),
}

# Bench checks whose subject a step hides: signed before it, or not seen.
HIDDEN_BY = {
    "blind-hole-is-dry": "head_studs",
    "gasket-lies-the-right-way": "head_on",
    "thrust-shells-are-seated-first": "rings_pistons_rods",
    "rings-face-up-and-are-spread": "head_on",
    "crank-passages-are-plugged-and-clean": "main_and_crank",
    "cam-bearings-feed-oil": "front_cover",
    "hidden-plugs-are-checked-first": "front_cover",
    "threads-are-chased-gently": "head_on",
    "washers-are-counted-in": "covers",
    "drain-backs-are-open": "covers",
    "lock-halves-keep-a-gap": "covers",
}


class Table(dict):
    """{step: Step} of one kind of engine, told apart from others as a thing and not by its content, which is long."""

    __hash__ = object.__hash__
    __eq__ = object.__eq__

    @classmethod
    def of(cls, table):
        return table if isinstance(table, cls) else cls(table)


@lru_cache(maxsize=64)
def steps_for(layout=None, head_fastener=None, heads_cover_lifters=None, dowel_holes=None, duty=None, stored=False, lifter_foot=None):
    """The table as it stands for one engine: {step: Step}, in the order written above but for what must come before.

    Bolts take the studs' place and go in with the washers, which need no line of their own; a head that closes the lifter bores wants the lifters
    first; lifters with a mushroom foot go in from below, before the cam; without dowel holes there are no dowels; an engine that is no V has no valley; a rebuild by the book
    needs no mock-up; a long block that is stored or shipped is fired by somebody else. What is left out passes
    its prerequisites on.
    """
    left_out, optional = set(), set()
    if head_fastener in ("bolt", "cap_screw"):
        left_out.add("head_studs")
        optional.add("head_washers_nuts")
    if dowel_holes == 0:
        left_out.add("dowels")
    if layout in ("inline", "flat"):
        optional |= {"valley_tray_and_intake", "trial_fit_intake"}
    if duty == "stock":
        optional |= set(MOCK_UP_STEPS)
    if stored:
        optional |= {"first_fire", "recheck_after_heat"}
    table = Table()
    for name, step in STEPS.items():
        if name in left_out:
            continue
        requires = step.requires
        if name == "head_on" and heads_cover_lifters:
            requires = (*requires, "lifters")
        if lifter_foot == "mushroom":
            requires = {"lifters": ("gallery_plugs",), "cam_bearings_and_cam": (*requires, "lifters")}.get(name, requires)
        requires = _passed_on(requires, left_out)
        table[name] = Step(requires, step.standard and name not in optional, step.done)
    return Table(_in_order(table))


def _in_order(table):
    """The steps with those a step requires placed before it, each otherwise where it stands."""
    placed = {}

    def place(name):
        if name not in placed:
            for before in table[name].requires:
                place(before)
            placed[name] = table[name]

    for name in table:
        place(name)
    return placed


def _passed_on(requires, left_out):
    """The prerequisites with those that are left out replaced by their own."""
    found = []
    for name in requires:
        found += _passed_on(STEPS[name].requires, left_out) if name in left_out else (name,)
    return tuple(dict.fromkeys(found))


def needed_before(name, table, listed, own=None):
    """The listed steps that must come before a step: the nearest, and through steps that are not listed those behind them.

    ``own`` is {step: steps it must also follow}, as a spec adds them. Orders that another rule judges are left out.
    """
    found, seen = [], set()

    def walk(step):
        for before in _all_before(step, table, own):
            if before in seen or (step, before) in JUDGED_ELSEWHERE:
                continue
            seen.add(before)
            if before in listed:
                found.append(before)
            else:
                walk(before)

    walk(name)
    return tuple(found)


def _all_before(step, table, own):
    return (*(table[step].requires if step in table else ()), *((own or {}).get(step) or ()))


def cuts_metal(step):
    """Whether a step takes metal off, as far as its name tells."""
    words = step.replace("-", "_").replace(" ", "_").lower().split("_")
    return step in MACHINING_STEPS or words[0] in CUTTING_WORDS or words[:2] == ["port", "match"]


def slips(listed, table, own=None, reasons=()):
    """Where a list of work breaks the order: {step: (what it stands before though it needs it, what it stands behind though needed)}.

    One step in the wrong place breaks the order with many others; each slip is told at the step that explains most
    of them, else at the one that comes too early. ``reasons`` are the steps that say why they stand where they do:
    they are excused from the standard order, not from ``own``, what the spec itself asks for.
    """
    own = tuple((step, tuple(before)) for step, before in (own or {}).items() if before)
    return _slips(tuple(listed), Table.of(table), own, frozenset(reasons))


@lru_cache(maxsize=64)
def _slips(listed, table, own, reasons):
    """The answer for a whole list, which every step of it asks for."""
    own, first = dict(own), {}
    for position, step in enumerate(listed):
        first.setdefault(step, position)
    broken = set()
    for step in first:
        for before in needed_before(step, table, first, own):
            if first[before] < first[step] or step in circle_through(before, table, own):
                continue
            asked_for = before in own.get(step, ())
            if not asked_for and (step in reasons or before in reasons):
                continue
            if any(behind == before and first.get(other, len(listed)) < first[before] for other, behind in JUDGED_ELSEWHERE
                   if other != "head_studs" and other not in reasons):
                continue
            broken.add((before, step))
    found = {}
    if len(broken) > 200:  # no list of work, but each is told all the same
        for step in {step for _, step in broken}:
            found[step] = (tuple(sorted((before for before, other in broken if other == step), key=first.get)), ())
        return found
    while broken:
        def weight(step):
            return (sum(step in pair for pair in broken), any(step == pair[1] for pair in broken), -first[step])

        worst = max({step for pair in broken for step in pair}, key=weight)
        early = tuple(before for before, step in sorted(broken, key=lambda pair: first[pair[0]]) if step == worst)
        late = tuple(step for before, step in sorted(broken, key=lambda pair: first[pair[1]]) if before == worst)
        found[worst] = (early, late)
        broken = {pair for pair in broken if worst not in pair}
    return found


def circle_through(name, table, own=None):
    """The steps of a circle that runs through ``name``, beginning and ending with it; () if there is none."""
    own = tuple((step, tuple(before)) for step, before in (own or {}).items() if before)
    if name not in _knotted(Table.of(table), own):
        return ()
    own = dict(own)
    came_from, open_steps = {}, [name]
    while open_steps:
        step = open_steps.pop()
        for before in _all_before(step, table, own):
            if before == name:
                trail = [step]
                while trail[-1] != name:
                    trail.append(came_from[trail[-1]])
                return (*trail[::-1], name)
            if before not in came_from:
                came_from[before] = step
                open_steps.append(before)
    return ()


@lru_cache(maxsize=64)
def _knotted(table, own):
    """The steps that are left when those that wait for nothing open are taken away again and again: circles, and what hangs on them."""
    own = dict(own)
    waits_for = {step: set(_all_before(step, table, own)) for step in {*table, *own}}
    followers = {}
    for step, before in waits_for.items():
        for name in before:
            followers.setdefault(name, []).append(step)
    free = [step for step in {*waits_for, *followers} if not waits_for.get(step)]
    while free:
        done = free.pop()
        for step in followers.get(done, ()):
            waits_for[step].discard(done)
            if not waits_for[step]:
                free.append(step)
    return frozenset(step for step, before in waits_for.items() if before)
