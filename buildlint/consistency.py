"""Whether rules, formulas and vocabulary fit each other: every word known, every dimension the same, no circle.

Asked when a rule set is loaded, before any spec is read, so that a misspelt word is an error with a
suggestion and never a rule that silently stays open.
"""

from .dimensions import KINDS, Dimension, List
from .reading import BEARINGS, IMPLIED, RINGS, SIDES
from .resolve import OUTSIDE, split_ending
from .rulebook import RulebookError
from .vocabulary import or_meant

CHAINS = {
    "build": ("build",), "cylinder": ("build",), "side": ("side", "build"), "spring": ("spring", "side", "build"),
    "ring": ("ring", "build"), "bearing": ("bearing", "build"), "main_bearing": ("bearing", "build"),
    "rod_bearing": ("bearing", "build"), "cam_bearing": ("bearing", "build"), "joint": ("joint", "build"),
    "step": ("step", "build"), "item": ("item", "build"),
}
COILS = ("outer", "inner", "innermost")


class Lexicon:
    """Every word that can be seen from a scope, and its dimension."""

    def __init__(self, vocabulary, ways, joint_names):
        self.vocabulary, self.ways = vocabulary, ways
        self.inside = {"side": [], "build": [], "spring": [], "ring": [], "bearing": [], "joint": [], "step": [], "item": []}
        for kind, names, outer in (("side", SIDES, "build"), ("bearing", BEARINGS, "build"), ("ring", RINGS, "build"),
                                   ("joint", joint_names, "build"), ("spring", COILS, "side")):
            self.inside[outer] += [(f"{name}_{OUTSIDE[kind]}", kind) for name in names]
        self.known = {}

    def dimension(self, word, scope):
        """The dimension of a word seen from a scope, or None when it cannot be had there."""
        key = (CHAINS[scope], word)
        if key not in self.known:
            self.known[key] = None
            self.known[key] = self._dimension(word, CHAINS[scope])
        return self.known[key]

    def _dimension(self, word, chain):
        for kind in chain:
            found = self.vocabulary.words.get((kind, word))
            if found is not None:
                return KINDS[found.dimension]
            implied = IMPLIED.get((kind, word))
            if implied is not None:
                return implied
        for formula in self.ways.get(word, ()):
            if all(self.dimension(name, chain[0]) is not None for name in formula.inputs if name not in formula.optional):
                return formula.gives
        parts = split_ending(word)
        if parts is not None:
            found = self.dimension(parts[0], chain[0])
            if found is not None:
                return List if parts[1] == "_each" else found
        for kind in chain:
            for prefix, inner in self.inside[kind]:
                if word.startswith(prefix):
                    found = self.dimension(word[len(prefix):], inner)
                    if found is not None:
                        return found
        return None

    def choices(self, word, scope):
        """The values that a word of choice may have, seen from a scope; None where it is none, or takes own names too."""
        for kind in CHAINS[scope]:
            found = self.vocabulary.words.get((kind, word))
            if found is not None:
                return found.choices if found.dimension == "choice" and not found.open else None
            for prefix, inner in self.inside[kind]:
                if word.startswith(prefix) and self.dimension(word[len(prefix):], inner) is not None:
                    return self.choices(word[len(prefix):], inner)
        return None

    def names(self, scope):
        """Every plain word that can be seen from a scope, for suggestions."""
        return sorted({name for kind, name in self.vocabulary.words if kind in CHAINS[scope]} | set(self.ways))


def check(rules, ways, vocabulary, joint_names=()):
    """Raise RulebookError for the first rule or formula that does not fit; the message lists all that do not."""
    lexicon = Lexicon(vocabulary, ways, joint_names)
    wrong = [*_formulas_that_clash(ways, lexicon), *_circles(ways)]
    for rule in rules:
        if rule.scope == "value":
            continue
        for word in (*rule.words, *rule.when, *rule.points_at):
            found = lexicon.dimension(word, rule.scope)
            where = f"{rule.file}: rule {rule.id}"
            if found is None:
                wrong.append(f"{where}: {word} is no word that can be seen from the scope {rule.scope}{or_meant(word, lexicon.names(rule.scope))}")
            elif word in rule.dimensions and not _same(found, rule.dimensions[word]):
                wrong.append(f"{where}: {word} is a {found}, not a {rule.dimensions[word]}")
        if rule.edit and not any((kind, rule.edit[1]) in vocabulary.words for kind in CHAINS[rule.scope]):
            wrong.append(f"{rule.file}: rule {rule.id}: its edit writes {rule.edit[1]}, which no key of a spec gives there"
                         f"{or_meant(rule.edit[1], lexicon.names(rule.scope))}")
    if wrong:
        raise RulebookError("\n".join(wrong))


def _same(found, said):
    return found == said or not (found.numeric or said.numeric)


def _formulas_that_clash(ways, lexicon):
    """Formulas whose parameters are unknown everywhere, or whose dimensions contradict the vocabulary or each other."""
    for word, formulas in ways.items():
        for formula in formulas:
            where = f"formula {formula.name}"
            if not isinstance(formula.gives, Dimension):
                yield f"{where}: its result needs a dimension as annotation"
                continue
            if formula.gives != formulas[0].gives:
                yield f"{where}: gives a {formula.gives}, another way to {word} gives a {formulas[0].gives}"
            seen_somewhere = False
            for scope in CHAINS:
                found = lexicon.vocabulary.words.get((CHAINS[scope][0], word))
                if found is not None and not _same(KINDS[found.dimension], formula.gives):
                    yield f"{where}: gives a {formula.gives}, but the schema says {word} is a {found.dimension}"
                dimensions = {name: lexicon.dimension(name, scope) for name in formula.inputs}
                if all(dimensions[name] is not None for name in formula.inputs if name not in formula.optional):
                    seen_somewhere = True
                    for name, found in dimensions.items():
                        if found is not None and not _same(found, formula.dimensions.get(name)):
                            yield f"{where}: {name} is a {found}, not a {formula.dimensions.get(name)} (seen from {scope})"
            if not seen_somewhere:
                unknown = [name for name in formula.inputs if all(lexicon.dimension(name, scope) is None for scope in CHAINS)]
                meant = or_meant(unknown[0], lexicon.names("side")) if unknown else ""
                yield f"{where}: no scope knows all of its words ({', '.join(unknown) or 'each is known somewhere'}){meant}"


def _circles(ways):
    """Words that would need themselves."""
    state = {}

    def visit(word, path):
        if state.get(word) == "done":
            return None
        if word in path:
            return [*path[path.index(word):], word]
        for formula in ways.get(word, ()):
            for name in formula.inputs:
                if name in ways:
                    found = visit(name, [*path, word])
                    if found:
                        return found
        state[word] = "done"
        return None

    for word in ways:
        found = visit(word, [])
        if found:
            yield "formulas run in a circle: " + " needs ".join(found)
            return
