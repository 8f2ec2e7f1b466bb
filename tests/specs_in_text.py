"""A spec given as text, read the whole road, for tests that ask about words and scopes."""

import textwrap

from buildlint import road
from buildlint.compose import compose
from buildlint.load import load
from buildlint.reading import read_spec
from buildlint.validate import validate


def spec_of(text, name="build.yaml"):
    """The Spec of a text; fails when the text is not sound YAML."""
    tree, problems = load(textwrap.dedent(text).strip("\n").encode() + b"\n", name)
    assert tree is not None, problems
    composed, _, _ = compose(name, tree)
    _, broken = validate(composed, road.words())
    return read_spec(composed, road.words(), road.ways(), broken)


def report_of(text, chosen=None, stage=None):
    """The Report of a text."""
    return road.check("build.yaml", text=textwrap.dedent(text).strip("\n").encode() + b"\n", chosen=chosen, stage=stage)
