"""Ways through a tree of nodes: what lies below a node, every node once, and pointers to them (RFC 6901).

For whoever needs to get somewhere in a tree; how trees are made stands in ``load`` and ``compose``.
"""

from .model import Mapping, Scalar, Sequence


def children(node):
    """The nodes directly below a node, keys left out, in the order written; none below a scalar."""
    if isinstance(node, Mapping):
        return [entry.node for entry in node.entries.values()]
    return node.items if isinstance(node, Sequence) else ()


def walk(tree):
    """Every node and every key of a tree, in the order written; a node behind aliases once."""
    seen, waiting = set(), [tree]
    while waiting:
        node = waiting.pop()
        if id(node) in seen:
            continue
        seen.add(id(node))
        yield node
        if isinstance(node, Mapping):
            for entry in reversed(node.entries.values()):
                waiting += (entry.node, entry.key)
        elif isinstance(node, Sequence):
            waiting += reversed(node.items)


def scalars(tree):
    """Every scalar of a tree, keys included, in the order written."""
    return (node for node in walk(tree) if isinstance(node, Scalar))


def behind_aliases(tree):
    """The ids of the nodes that stand in more than one place."""
    seen, twice, waiting = set(), set(), [tree]
    while waiting:
        node = waiting.pop()
        if id(node) in seen:
            twice.add(id(node))
            continue
        seen.add(id(node))
        waiting += children(node)
    return twice


# -- pointers ---------------------------------------------------------------------------------------------


def escaped(step):
    """One key as it stands in a pointer."""
    return step.replace("~", "~0").replace("/", "~1") if "~" in step or "/" in step else step


def pointer_of(path):
    """The pointer of a path of keys and positions."""
    return "".join("/" + escaped(str(step)) for step in path)


def steps_of(pointer):
    """The keys and positions that a pointer names, as texts."""
    return [step.replace("~1", "/").replace("~0", "~") for step in pointer.split("/")[1:]]
