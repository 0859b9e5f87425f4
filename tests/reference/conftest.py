"""A small folder of rules, of which a test changes one file."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

FILES = {
    "sources.yaml": """\
table-book: {title: Book of tables, edition: second, standing: standard, seen: secondary}
hearsay: {title: What is said, standing: trade guidance, seen: memory}
""",
    "groups.yaml": "solid_bases: [brick, dense block]\ntimber_bases: [stud, softwood]\n",
    "stages.yaml": "ordering: order everything?\nhand-over: call it finished?\n",
    "words.yaml": "US:\n  worktop: countertop\n",
    "questions.yaml": "hob under hood.underside: Decide how high the hood hangs.\n",
    "order.yaml": """\
title: Usual order
source: common practice
tasks:
  plaster: {after: [], trade: plasterer, dries: plaster}
  paint: {after: [plaster], trade: decorator}
""",
    "texts.yaml": "requirement because: The household asks for it.\n",
    "cautions.yaml": "dust: {signal: CAUTION, says: Wear a mask., source: common practice}\n",
}


@pytest.fixture
def rules_of(tmp_path: Path) -> Callable[[dict[str, str]], Path]:
    """Writes the folder, with some of its files changed or added."""

    def write(changed: dict[str, str]) -> Path:
        for name, text in {**FILES, **changed}.items():
            file = tmp_path / name
            file.parent.mkdir(exist_ok=True)
            file.write_text(text, "utf-8")
        return tmp_path

    return write
