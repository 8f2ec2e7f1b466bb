"""Writes a spec out in full: what its templates and the parts of the catalogue bring, in one file, as the program reads it.

    .venv/bin/python tests/benchmarks/written_out.py examples/good.yaml > full.yaml

A short spec makes a program that knows templates read several files, and one that does not read one; written out, all
have the same before them.
"""

import sys
from pathlib import Path

import yaml

sys.path.insert(0, str(Path(__file__).resolve().parent.parent.parent))

from buildlint.compose import compose  # noqa: E402
from buildlint.load import load, read_bytes  # noqa: E402
from buildlint.model import Mapping, Sequence  # noqa: E402


class Quoted(str):
    """A text that stood in quotes and has to stay a text."""


class Dumper(yaml.SafeDumper):
    """PyYAML's own, but that plain texts stay as they were written and quoted ones quoted."""


Dumper.add_representer(Quoted, lambda dumper, text: dumper.represent_scalar("tag:yaml.org,2002:str", str(text), style='"'))
Dumper.add_representer(str, lambda dumper, text: dumper.represent_scalar("tag:yaml.org,2002:str", text))


def written_out(spec):
    """The text of a spec with everything in it that its templates and parts give."""
    tree, problems = load(read_bytes(spec), str(spec))
    assert tree is not None, problems
    composed, _, _ = compose(spec, tree)
    data = _plain(composed)
    data.pop("based_on", None)
    return yaml.dump(data, Dumper=Dumper, sort_keys=False, allow_unicode=True, width=110)


def _plain(node):
    if isinstance(node, Mapping):
        return {name: _plain(entry.node) for name, entry in node.entries.items()}
    if isinstance(node, Sequence):
        return [_plain(item) for item in node.items]
    if node.plain:
        return node.value if isinstance(node.value, (int, bool)) or node.value is None else node.text
    return Quoted(node.text)


if __name__ == "__main__":
    print(written_out(sys.argv[1]), end="")
