"""What a key or value that is not known was most likely meant to be, said as advice.

The vocabulary is searched here from near to far: another spelling, the usual place, a slip of the finger, a
heading below, a word elsewhere. Comparing bare texts stands in ``spelling``.
"""

import re

from buildlint.spelling import USUAL_PLACES, american
from buildlint.vocabulary import LEAF, suggest

_PLANNED = {"plan", "measured", "by", "on", "notes"}
_YES = {"yes": "fitted", "true": "fitted", "on": "fitted", "no": "none", "false": "none", "off": "none"}


def sure_key(name, known):
    """The key that ``name`` is in other letters (British, capitals, hyphens), where it can be no other; else None."""
    spelled = american(name)
    return spelled if spelled in known else None


def sure_choice(text, values):
    """The value that ``text`` is in other letters, or as yes and no, where it can be no other; else None."""
    near = [] if True in values else for_choice(text, values)
    if len(near) != 1:
        return None
    spelled, bare = american(text), _bare(text)
    return near[0] if near[0] == spelled or _bare(near[0]) in (bare, "sae" + bare) or near[0] == _YES.get(spelled) else None


def _bare(text):
    return re.sub("[^a-z0-9]", "", text.lower())


def for_key(path, name, known, key, vocabulary):
    """What to write instead of the unknown key ``name`` under ``path``, whose Key is ``key`` or None."""
    if key is not None and key.kind == LEAF:
        near = suggest(name, known)
        if near:
            return f"Did you mean `{near}`?"
        if set(known) == _PLANNED:
            return "Under a value stand `plan`, `measured`, `by`, `on` and `notes`."
        return f"What may stand here: {listed(known)}."
    spelled = american(name)
    if spelled in known:
        return f"Write `{spelled}`."
    names = [step for step in path if isinstance(step, str)]
    elsewhere = _usual_place(names, name, spelled)
    if elsewhere:
        return f"It is written as `{elsewhere}`."
    near = suggest(name, [other for other in known if other != "notes"])
    if near:
        return f"Did you mean `{near}`?"
    below = _below(key)
    near = suggest(name, below)
    if near:
        return f"Did you mean {either('.'.join((*names, *place)) for place in below[near][:3])}?"
    others = _anywhere(vocabulary, names, spelled)
    if others:
        return f"Did you mean {either(others)}?"
    return f"What may stand here: {listed(known)}."


def _usual_place(names, name, spelled):
    """The path where a builder's key has its place, or None."""
    for spelling in (name, spelled):
        place = USUAL_PLACES.get(".".join((*names, spelling)))
        if place is None and (not names or len(names) == 1):
            place = USUAL_PLACES.get(spelling)
        if place and place != ".".join(names):
            return place
    return None


def _below(key, depth=2):
    """The names of the keys below the headings of ``key``, each with the paths that lead there."""
    found = {}
    for child in key.children.values() if key is not None and depth else ():
        for name in child.children:
            found.setdefault(name, []).append((child.name, name))
        for name, places in _below(child, depth - 1).items():
            found.setdefault(name, []).extend((child.name, *place) for place in places)
    found.pop("notes", None)
    return found


def _anywhere(vocabulary, names, name):
    """Paths of the words that are called so: as a whole word, or as a key that few headings have."""
    words = vocabulary.words
    for spelling in ("_".join((*names[-1:], name)), name):
        for scope in ("build", "side"):
            if (scope, spelling) in words:
                return [words[scope, spelling].path]
    ends = "." + name
    found = list(dict.fromkeys(word.path for word in words.values() if word.path.endswith(ends)))
    return found if len(found) <= 3 else []


def for_choice(text, values):
    """The values that ``text`` may stand for, best first."""
    spelled = american(text)
    if set(values) == {"fitted", "none"} and spelled in _YES:
        return [_YES[spelled]]
    plain = {american(value): value for value in values}
    if spelled in plain:
        return [plain[spelled]]
    squeezed = {_bare(value): value for value in values}
    bare = _bare(text)
    for candidate in (bare, "sae" + bare):
        if candidate in squeezed:
            return [squeezed[candidate]]
    begins = [value for value in values if value.startswith(spelled + "_") or value.endswith("_" + spelled)]
    if spelled and begins:
        return begins[:4]
    near = suggest(text, values)
    return [near] if near else []


def listed(names, most=12):
    """Names in a row, each in backticks."""
    names = list(names)
    more = f" and {len(names) - most} more" if len(names) > most else ""
    return ", ".join(f"`{name}`" for name in names[:most]) + more


def either(names):
    """Names of which one is meant."""
    return " or ".join(f"`{name}`" for name in names)
