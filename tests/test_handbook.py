"""The generated pages are fresh: the catalogue of rules and the glossary of words."""

from pathlib import Path

import pytest

from buildlint import handbook, road

ROOT = Path(__file__).parent.parent
PAGES = handbook.pages()


@pytest.mark.parametrize("path", PAGES)
def test_a_page_is_fresh(path):
    assert (ROOT / path).read_text(encoding="utf-8") == PAGES[path], "run python -m buildlint.handbook"


def test_every_rule_and_every_word_has_its_entry():
    chapters = "".join(text for path, text in PAGES.items() if path.count("/") == 2)
    assert all(f"### {rule.id}\n" in chapters for rule in road.rules())
    glossary = PAGES["schemas/README.md"]
    assert all(f"`{word.name}`" in glossary for word in road.words().words.values())
