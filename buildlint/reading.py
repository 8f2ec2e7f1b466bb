"""A composed spec read into scopes: every written value becomes a word with its meaning in SI and its place.

What cannot be read is a problem with a place, and the rest is read all the same. Formulas and look-up stand in
``resolve``; which key gives which word is the schema's affair, told by the vocabulary.
"""

import datetime
from itertools import islice

from .decode import shown
from .dimensions import KINDS, Choice, Count, Entries, Length, List, Text, YesNo
from .mechanics.threads import read_thread
from .model import NOTATION, STAGES, Edit, Mapping, Problem, Scalar, Sequence
from .quantities import QuantityError, read
from .resolve import Scope, Value
from .trees import escaped
from .vocabulary import BOOKKEEPING, CONTAINER, INSTANCE, LEAF

# Words that no key gives but the place of a part in the spec: what joint it is, what came before a step.
IMPLIED = {
    ("joint", "joint_name"): Choice,
    ("joint", "joint_leads"): YesNo,
    ("side", "side_name"): Choice,
    ("ring", "ring_name"): Choice,
    ("bearing", "bearing_name"): Choice,
    ("step", "position"): Count,
    ("step", "earlier_steps"): List,
    ("step", "later_steps"): List,
    ("item", "line"): Count,
    ("item", "ordered_altogether"): Count,
    ("build", "ordered_pieces"): Entries,
    ("build", "order_lines"): Entries,
    ("build", "parts_named"): Entries,
    ("build", "steps_listed"): List,
    ("build", "steps_done"): Entries,
    ("build", "steps_wanted_on"): Entries,
    ("build", "step_prerequisites"): Entries,
    ("build", "step_reasons"): Entries,
    ("build", "measurements"): Entries,
    ("build", "joints_listed"): Entries,
}

# What is read in one way only, and kept as it was read.
QUANTITIES = frozenset(str(kind) for kind in KINDS.values() if kind.numeric) - {"length_or_time", "count"}

SIDES = ("intake", "exhaust")
BEARINGS = ("main", "rod", "cam")
RINGS = ("top", "second", "oil")

# Steps of work or lines of an order that one engine can have; each is held against all the others.
MOST_ENTRIES = 1000


class Spec:
    """A spec as the judge sees it: the scopes, and every written value in the order of the document."""

    def __init__(self, tree, ways):
        self.tree = tree
        self.build = Scope("build", "", None, ways, "", tree.place)
        self.sides = [Scope("side", name, self.build, ways, f"/{name}", _place(tree, name)) for name in SIDES]
        self.bearings = [Scope("bearing", name, self.build, ways, f"/bearings/{name}", _place(tree, "bearings", name)) for name in BEARINGS]
        self.rings = [Scope("ring", name, self.build, ways, f"/rings/{name}", _place(tree, "rings", name)) for name in RINGS]
        self.springs, self.joints, self.steps, self.items = [], [], [], []
        self.written, self.problems, self.signed, self.measurements = [], [], {}, []
        self.system = None
        self.ways = ways

    def instances(self, kind):
        """The scopes in which a rule of this kind is asked."""
        if kind in ("build", "cylinder"):
            return [self.build]
        if kind.endswith("_bearing"):
            return [scope for scope in self.bearings if kind == f"{scope.name}_bearing"]
        return getattr(self, f"{kind}s")

    @property
    def scopes(self):
        """Every part that has words of its own, the engine first; not the steps of the work, nor the lines of the order."""
        return (self.build, *self.sides, *self.springs, *self.bearings, *self.rings, *self.joints)

    def judge_at(self, stage):
        """Take the build to be at another stage than it says."""
        written = self.build.words.get("stage")
        self.build.words["stage"] = Value("stage", stage, Choice, text=stage, place=written.place if written else None,
                                          pointer="/build/stage", definition=written.definition if written else None)

    @property
    def stage(self):
        value = self.build.words.get("stage")
        return value.data if value is not None and value.data in STAGES else "planning"


def _place(tree, *keys):
    place = tree.place
    for key in keys:
        entry = tree.entries.get(key) if isinstance(tree, Mapping) else None
        if entry is None:
            return place
        place, tree = entry.key.place, entry.node
    return place


def read_spec(tree, vocabulary, ways, broken=frozenset(), units=None):
    """Read a composed tree into a Spec; ``broken`` are pointers that validation has refused, ``units`` ("us",
    "metric") what a bare number means where the spec does not say.

    Values that cannot be read are left out and reported in ``problems``.
    """
    spec = Spec(tree, ways)
    own = tree.get("units")
    bare = own.text if isinstance(own, Scalar) and own.text in ("us", "metric") else units
    reader = _Reader(spec, vocabulary, bare, broken)
    reader.heading(tree, vocabulary.tree, spec.build, "", None)
    reader.lone_springs()
    _imply(spec)
    spec.system = bare or _habit(spec.written)
    _check_counts(spec)
    _check_joint_names(spec, vocabulary)
    return spec


class _Reader:
    """Walks the tree along the vocabulary and puts values into scopes."""

    def __init__(self, spec, vocabulary, bare, broken):
        self.spec, self.vocabulary, self.bare, self.broken = spec, vocabulary, bare, broken
        self.of_lone_spring = []  # what is written of the set of springs and is true of its one spring
        self.refused = set()  # (pointer, message): one text may be read into two scopes, and is refused once

    def heading(self, mapping, key, scope, pointer, chosen):
        for name, entry in mapping.entries.items():
            known = key.children.get(name) or key.any
            if known is None or known.kind == BOOKKEEPING:
                continue
            here = f"{pointer}/{escaped(name)}"
            node = entry.node
            if here in self.broken:
                continue
            origin = entry.chosen or chosen
            if known.kind == LEAF:
                self.leaf(node, known, scope, here, origin)
            elif known.kind == CONTAINER:
                self.container(node, known, scope, here, origin)
            elif isinstance(node, Mapping):
                inner = scope
                if known.kind == INSTANCE:
                    inner = self.instance(known.scope, name, scope, here, entry.key.place)
                self.heading(node, known, inner, here, origin)

    def instance(self, kind, name, outer, pointer, place):
        spec = self.spec
        for scope in {"side": spec.sides, "bearing": spec.bearings, "ring": spec.rings}.get(kind, ()):
            if scope.name == name:
                scope.place = place
                return scope
        made = Scope(kind, name, outer, spec.ways, pointer, place)
        getattr(spec, f"{kind}s").append(made)
        return made

    def _refuse_flood(self, node, entries, key, pointer):
        if len(entries) > MOST_ENTRIES:
            self.spec.problems.append(Problem(
                "value-has-its-shape", f"{key.title.lower()}: {len(entries)} entries, of which the first {MOST_ENTRIES} are read",
                node.place, "Write one entry for each joint, step of the work or line of the order.", "error", pointer))

    def container(self, node, key, scope, pointer, chosen):
        if isinstance(node, Mapping):
            self._refuse_flood(node, node.entries, key, pointer)
            for name, entry in islice(node.entries.items(), MOST_ENTRIES):
                known = key.children.get(name) or key.any
                here = f"{pointer}/{escaped(name)}"
                if known is None or known.kind == BOOKKEEPING or here in self.broken or not isinstance(entry.node, Mapping):
                    continue
                inner = self.instance(key.scope, name, scope, here, entry.key.place)
                self.heading(entry.node, known, inner, here, entry.chosen or chosen)
        elif isinstance(node, Sequence):
            self._refuse_flood(node, node.items, key, pointer)
            for number, item in enumerate(node.items[:MOST_ENTRIES]):
                here = f"{pointer}/{number}"
                if here in self.broken or not isinstance(item, Mapping):
                    continue
                named = item.get(key.scope)
                name = named.text if isinstance(named, Scalar) else str(number + 1)
                inner = self.instance(key.scope, name, scope, here, item.place)
                self.heading(item, key.any, inner, here, chosen)

    def leaf(self, node, key, scope, pointer, chosen):
        if key.word is not None:
            self.put(node, key.word, scope, pointer, chosen)
        if key.alone is not None:
            self.of_lone_spring.append((node, key.alone, scope, pointer, chosen))

    def lone_springs(self):
        """Give a side that writes of no coil by itself the one spring that its set then is."""
        written = {spring.parent for spring in self.spec.springs}
        lone = {}
        for node, word, side, pointer, chosen in self.of_lone_spring:
            if side in written:
                continue
            if side not in lone:
                lone[side] = Scope("spring", "outer", side, self.spec.ways, f"{side.pointer}/spring", side.place)
                self.spec.springs.append(lone[side])
            self.put(node, word, lone[side], pointer, chosen)

    def put(self, node, word, scope, pointer, chosen):
        value = self.value(node, word, scope, pointer)
        if value is not None:
            value.chosen = chosen
            value.definition = word
            scope.words[word.name] = value
            self.spec.written.append((scope, value))

    # -- one value ------------------------------------------------------------------------------------

    def value(self, node, word, scope, pointer):
        kind = KINDS[word.dimension]
        if word.dimension in QUANTITIES and node.__class__ is Scalar and node.value.__class__ in (str, int, float):
            try:  # what nearly every line of a spec is
                data = read(node.text, word.dimension, self.bare)
            except QuantityError as error:
                return self.refuse(node, pointer, error.message, error.fix, error.instead)
            return Value(word.name, data, kind, data.unit, node.text, node.place, pointer, None, data)
        if word.dimension == "list" or word.dimension == "table":
            return self.many(node, word, kind, pointer)
        if word.dimension == "entries":
            return self.entries(node, word, pointer)
        if isinstance(node, Mapping):
            return self.planned(node, word, kind, scope, pointer)
        if isinstance(node, Sequence):
            if word.per or not kind.numeric:
                return self.each(node, word, kind, scope, pointer)
            return self.refuse(node, pointer, f"{word.name.replace('_', ' ')} is one value, not a list", "Write one value.")
        data = self.scalar(node, word.dimension, pointer)
        if data is None:
            return None
        return Value(word.name, data, kind, getattr(data, "unit", ""), node.text, node.place, pointer,
                     plan=data if kind.numeric else None)

    def planned(self, node, word, kind, scope, pointer):
        """A mapping {plan, measured, by, on}: what was measured wins over what was planned."""
        plan = measured = None
        plan_node, measured_node = node.get("plan"), node.get("measured")
        if isinstance(plan_node, Scalar) and f"{pointer}/plan" not in self.broken:
            plan = self.scalar(plan_node, word.dimension, f"{pointer}/plan")
        value = None
        if isinstance(measured_node, Sequence) and f"{pointer}/measured" not in self.broken:
            value = self.each(measured_node, word, kind, scope, f"{pointer}/measured")
            if value is not None:
                value.measured = value.data
                if plan is not None:
                    value.data, value.text = plan, plan_node.text
        elif isinstance(measured_node, Scalar) and f"{pointer}/measured" not in self.broken:
            measured = self.scalar(measured_node, word.dimension, f"{pointer}/measured")
            if measured is not None:
                value = Value(word.name, measured, kind, getattr(measured, "unit", ""), measured_node.text,
                              measured_node.place, f"{pointer}/measured", measured=measured)
        if value is None and plan is not None:
            value = Value(word.name, plan, kind, getattr(plan, "unit", ""), plan_node.text, plan_node.place, f"{pointer}/plan")
        if value is not None:
            value.plan = plan
            for element in value.known:
                element.plan = plan
            self.spec.measurements.append(self.measurement(node, value, word, scope, pointer))
        return value

    def measurement(self, node, value, word, scope, pointer):
        """Who measured what and when, and what came out; the word is named as from outside its scope."""
        by, on = node.get("by"), node.get("on")
        day = None
        if isinstance(on, Scalar) and f"{pointer}/on" not in self.broken:
            day = self.scalar(on, "date", f"{pointer}/on")
        numbers = [element.data for element in value.known] or ([] if value.measured is None else [value.measured])
        return {"word": outside_name(scope, word.name), "path": pointer[1:].replace("/", "."), "by": by.text if isinstance(by, Scalar) else None, "on": day,
                "plan": value.plan, "measured": numbers}

    def each(self, node, word, kind, scope, pointer):
        """A list by cylinder or journal: the word's own value is the mean, None an element that is not measured yet."""
        along = _along(word, scope)
        elements = []
        for number, item in enumerate(node.items):
            here = f"{pointer}/{number}"
            if here in self.broken or not isinstance(item, Scalar):
                continue
            if item.value is None:
                elements.append(None)
                continue
            data = self.scalar(item, word.dimension, here)
            if data is not None:
                elements.append(Value(word.name, data, kind, getattr(data, "unit", ""), item.text, item.place, here,
                                      measured=data, definition=word))
        known = [element for element in elements if element is not None]
        if not known:
            return None
        if not kind.numeric:
            data = [element.data for element in known]
            return Value(word.name, data, kind, "", ", ".join(element.text for element in known), node.place, pointer)
        mean = sum(element.data for element in known) / len(known)
        value = Value(word.name, kind(mean, known[0].unit), kind, known[0].unit, "", node.place, pointer)
        if len(elements) == len(node.items):
            value.elements, value.along = tuple(elements), along
        return value

    def many(self, node, word, kind, pointer):
        """A list or table that is one value by itself: a firing order, tested loads."""
        if not isinstance(node, Sequence):
            if isinstance(node, Scalar):
                data = self.scalar(node, word.elements[0], pointer)
                return None if data is None else Value(word.name, [data], kind, "", node.text, node.place, pointer)
            return None
        rows = []
        for number, item in enumerate(node.items):
            here = f"{pointer}/{number}"
            if here in self.broken:
                return None
            if word.dimension == "table":
                if not isinstance(item, Sequence) or len(item.items) != len(word.elements):
                    return None
                row = [self.scalar(part, dimension, f"{here}/{column}") if isinstance(part, Scalar) else None
                       for column, (part, dimension) in enumerate(zip(item.items, word.elements))]
                rows.append(None if None in row else tuple(row))
            elif isinstance(item, Sequence):
                inner = word.elements[0].removeprefix("list of ")
                rows.append([self.scalar(part, inner, f"{here}/{column}") for column, part in enumerate(item.items)
                             if isinstance(part, Scalar)])
            elif isinstance(item, Scalar):
                rows.append(self.scalar(item, word.elements[0], here))
        if any(row is None for row in rows) or not rows:
            return None
        text = ", ".join(item.text for item in node.items if isinstance(item, Scalar))
        return Value(word.name, rows, kind, "", text, node.place, pointer)

    def entries(self, node, word, pointer):
        """A list of mappings: each becomes a dict of its fields, with "place_in_file" and its "number" from 1."""
        if not isinstance(node, Sequence):
            return None
        fields = dict(word.elements)
        rows = []
        for number, item in enumerate(node.items):
            if not isinstance(item, Mapping) or f"{pointer}/{number}" in self.broken:
                continue
            row = {"place_in_file": item.place, "number": number + 1}
            for name, entry in item.entries.items():
                here = f"{pointer}/{number}/{escaped(name)}"
                if name not in fields or here in self.broken:
                    continue
                if isinstance(entry.node, Scalar):
                    row[name] = self.scalar(entry.node, fields[name], here)
                elif isinstance(entry.node, Sequence):
                    row[name] = [part.text for part in entry.node.items if isinstance(part, Scalar)]
            rows.append(row)
        return Value(word.name, rows, Entries, "", "", node.place, pointer)

    def scalar(self, node, dimension, pointer):
        """The meaning of one scalar in its dimension, or None after reporting why it cannot be read."""
        kind = KINDS.get(dimension, Text)
        if dimension == "length_or_time":
            for name in ("length", "time"):
                try:
                    return read(node.text, name, self.bare)
                except QuantityError:
                    continue
            return self.refuse(node, pointer, f"{node.text!r} is neither a length nor a time", "Write 1000 mi or 40 h.")
        if kind.numeric:
            if node.plain and isinstance(node.value, bool) or node.value is None:
                return self.refuse(node, pointer, f"a {dimension.replace('_', ' ')} was expected, not {node.text or 'nothing'}",
                                   "Write a number with its unit, or leave the key out.")
            try:
                amount = read(node.text, dimension, self.bare)
            except QuantityError as error:
                return self.refuse(node, pointer, error.message, error.fix, error.instead)
            return int(amount) if dimension == "count" else amount
        if node.value is None and node.plain:
            return None
        if dimension == "yes_no":
            known = {"yes": True, "true": True, "no": False, "false": False}.get(node.text.lower())
            if known is None:
                return self.refuse(node, pointer, f"{node.text!r} is neither yes nor no", "Write yes or no.")
            return known
        if dimension == "date":
            try:
                return datetime.date.fromisoformat(node.text)
            except ValueError:
                return self.refuse(node, pointer, f"{node.text!r} is no date", "Write the date as 2026-03-05: year, month, day.")
        if dimension == "thread":
            thread = read_thread(node.text)
            if thread is None:
                return self.refuse(node, pointer, f"{node.text!r} is no thread that can be read",
                                   "Write it as 7/16-20, 10-32, M8x1.25 or 1/8-27 NPT.")
            return thread
        return node.text

    def refuse(self, node, pointer, message, fix, instead=None):
        if (pointer, message) in self.refused:
            return None
        self.refused.add((pointer, message))
        edit = Edit(NOTATION, pointer, instead, node.place) if instead else None
        self.spec.problems.append(Problem("quantity-can-be-read", message, node.place, fix, "error", pointer, edit=edit))
        return None


def outside_name(scope, word):
    """The name of a word of one scope as it is called from the build: name before kind, main_bearing_clearance."""
    while scope is not None and scope.prefix:
        word, scope = scope.prefix + word, scope.parent
    return word


def _along(word, scope):
    """What a list is counted along: cylinders everywhere, journals in the main and cam bearings."""
    if word.per is None:
        return ("fastener", scope.pointer)
    if word.per == "journal" and not (scope.kind == "bearing" and scope.name == "rod"):
        return ("journal", scope.name)
    return ("cylinder", "")


def _imply(spec):
    """Add the words that follow from where a part stands in the spec."""
    for side in spec.sides:
        side.words["side_name"] = Value("side_name", side.name, Choice, text=side.name)
    for ring in spec.rings:
        ring.words["ring_name"] = Value("ring_name", ring.name, Choice, text=ring.name)
    for bearing in spec.bearings:
        bearing.words["bearing_name"] = Value("bearing_name", bearing.name, Choice, text=bearing.name)
    for joint in spec.joints:
        serves = joint.words.get("serves")
        joint.words["joint_name"] = serves or Value("joint_name", joint.name, Choice, text=joint.name)
    for spring in spec.springs:
        if spring.name == "outer" and "height_step" not in spring.words:
            spring.words["height_step"] = Value("height_step", Length(0.0), Length, text="0 in")
    _imply_order_of_work(spec)
    _imply_order_sheet(spec)
    spec.build.words["measurements"] = Value("measurements", spec.measurements, Entries)
    if spec.joints:
        _imply_leads(spec.joints)
        rows = [{word: value.data for word, value in joint.words.items()} | {"joint": joint.name} for joint in spec.joints]
        spec.build.words["joints_listed"] = Value("joints_listed", rows, Entries)
    _imply_lines(spec)
    signed = spec.build.words.get("assembly_signed")
    for row in signed.data if signed is not None else ():
        if row.get("check") and row.get("by"):
            spec.signed[row["check"]] = f"by {row['by']}" + (f" on {row['on']}" if row.get("on") else "")


def _imply_leads(joints):
    """Say of each joint whether it leads those of its known name: it has the name itself, or is the first by name of them."""
    names = {joint.name for joint in joints}
    leads = {}
    for joint in joints:
        known = joint.words["joint_name"].data
        leads[known] = known if known in names else min(leads.get(known, joint.name), joint.name)
    for joint in joints:
        leading = joint.name == leads[joint.words["joint_name"].data]
        joint.words["joint_leads"] = Value("joint_leads", leading, YesNo, text="yes" if leading else "no")


def _imply_lines(spec):
    """Give each entry of a list a word of its own, such as pipe_fittings_2, so that a finding can point at its line."""
    for scope, value in spec.written:
        if value.dimension == "entries":
            for row in value.data:
                line = f"{value.word}_{row['number']}"
                scope.words[line] = Value(line, line, Text, "", line, row["place_in_file"], f"{value.pointer}/{row['number'] - 1}")


def _imply_order_of_work(spec):
    """What comes before and after each step, what each waits for, and which are done: those with initials and day."""
    names = [step.name for step in spec.steps]
    done, wanted, prerequisites, reasons = {}, {}, {}, {}
    for position, step in enumerate(spec.steps):
        words = {name: value.data for name, value in step.words.items()}
        if words.get("by") and words.get("on"):
            done[step.name] = max(words["on"], done.get(step.name, words["on"]))
        if words.get("needed_on"):
            wanted[step.name] = words["needed_on"]
        if words.get("because"):
            reasons[step.name] = words["because"]
        prerequisites.setdefault(step.name, []).extend(words.get("after") or ())
        step.words["position"] = Value("position", position + 1, Count)
        step.words["earlier_steps"] = Value("earlier_steps", names[:position], List)
        step.words["later_steps"] = Value("later_steps", names[position + 1:], List)
        line = f"steps_listed_{position + 1}"
        spec.build.words[line] = Value(line, step.name, Choice, "", step.name, step.place, step.pointer)
    if names:
        for word, data, kind in (("steps_listed", names, List), ("steps_done", done, Entries),
                                 ("steps_wanted_on", wanted, Entries), ("step_prerequisites", prerequisites, Entries),
                                 ("step_reasons", reasons, Entries)):
            spec.build.words[word] = Value(word, data, kind)


def _imply_order_sheet(spec):
    """The lines of the order as rows, and how many pieces of each item they make together."""
    pieces, lines = {}, []
    for number, item in enumerate(spec.items, 1):
        lines.append({name: value.data for name, value in item.words.items()} | {"item": item.name})
        item.words["line"] = Value("line", number, Count)
        line = f"order_lines_{number}"
        spec.build.words[line] = Value(line, item.name, Choice, "", item.name, item.place, item.pointer)
    for item in spec.items:
        quantity, per_set = item.words.get("quantity"), item.words.get("per_set")
        if quantity is not None:
            count = quantity.data * (per_set.data if per_set is not None else 1)
            pieces[item.name] = pieces.get(item.name, 0) + count
    named = {outside_name(scope, value.word): value.text for scope, value in spec.written
             if value.dimension == "part_number" and scope.kind != "item"}
    spec.build.words["parts_named"] = Value("parts_named", named, Entries)
    if spec.items:
        spec.build.words["ordered_pieces"] = Value("ordered_pieces", pieces, Entries)
        spec.build.words["order_lines"] = Value("order_lines", lines, Entries)
    for item in spec.items:
        if item.name in pieces:
            item.words["ordered_altogether"] = Value("ordered_altogether", pieces[item.name], Count)


def _habit(written):
    """The system of units the builder writes lengths in."""
    metric = us = 0
    for _, value in written:
        if value.unit in ("mm", "cm", "m", "um"):
            metric += 1
        elif value.dimension == "length" and value.unit:
            us += 1
    return "metric" if metric > us else "us"


def _check_counts(spec):
    """A list by cylinder has one value for each cylinder, a list by main journal one for each main bearing.

    What is measured may have gaps or stop short, as work does: up to the mock-up that is a note, later a warning.
    """
    cylinders, mains = spec.build.words.get("cylinders"), spec.build.words.get("block_mains")
    for _, value in spec.written:
        if value.along is None or value.definition.sampled and value.count <= (cylinders.data if cylinders is not None else value.count):
            continue
        count, wanted, what = value.count, None, f"{value.along[0]}s"
        if value.along == ("cylinder", "") and cylinders is not None:
            wanted = cylinders.data
        elif value.along == ("journal", "main") and mains is not None:
            wanted, what = mains.data, "main bearings"
        gaps = [number for number, element in enumerate(value.elements, 1) if element is None]
        if wanted is None and gaps:
            wanted = count
        if wanted is None or (count == wanted and not gaps):
            continue
        word = value.word.replace("_", " ")
        if count <= wanted and value.pointer.endswith("/measured"):
            value.wanted = wanted
            missing = numbers_as_said([*gaps, *range(count + 1, int(wanted) + 1)])
            spec.problems.append(Problem(
                "list-has-one-value-each", f"{word} is measured for {len(value.known)} of {wanted} {what}; {missing} still to come",
                value.place, "Add each as it is measured, in the numbering of the engine: the list begins with number 1, and null "
                "stands for one that is not measured yet.",
                "note" if STAGES.index(spec.stage) < STAGES.index("assembly") else "warning", value.pointer))
            continue
        spec.problems.append(Problem(
            "list-has-one-value-each", f"{word} has {count} value{'' if count == 1 else 's'}, but the engine has {wanted} {what}",
            value.place, "Write one value for each, in the numbering of the engine.", "error", value.pointer))


def numbers_as_said(numbers):
    """Numbers in a row as they are said: 2, 4 and 6 to 8."""
    runs = []
    for number in numbers:
        if runs and number == runs[-1][1] + 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    told = [part for first, last in runs for part in ((f"{first}", f"{last}") if last == first + 1 else (f"{first}",) if first == last
                                                      else (f"{first} to {last}",))]
    return f"{', '.join(told[:-1])} and {told[-1]}" if len(told) > 1 else told[0]


def _check_joint_names(spec, vocabulary):
    """A set of fasteners may have any name, so one a slip away from a known joint's is asked about unless it serves one."""
    known = [name for name, key in vocabulary.tree.children["joints"].children.items() if key.kind == INSTANCE]
    for joint in spec.joints:
        if joint.name in known or "serves" in joint.words:
            continue
        from .spelling import joint_meant  # only names of a spec's own need it

        meant = joint_meant(joint.name, known)
        if meant:
            spec.problems.append(Problem(
                "key-is-known", f"`{shown(joint.name)}` is not the name of a joint that the rules know, so they ask little of it.",
                joint.place, f"Did you mean `{meant}`? A set with a name of its own says `serves: {meant}`.", "warning", joint.pointer))
