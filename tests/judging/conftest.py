"""A small folder of rules with one book, of which a test changes a line or adds books."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

FILES = {
    "sources.yaml": """\
gas-standard: {title: Gas standard, edition: "2010", standing: standard, seen: secondary}
building-act: {title: Building act, edition: "1984", standing: law, seen: primary}
hearsay: {title: What is said, standing: trade guidance, seen: memory}
""",
    "groups.yaml": "solid_bases: [brick, dense block]\ntimber_bases: [stud]\n",
    "stages.yaml": "ordering: order everything?\ndrilling: drill?\nhand-over: call it finished?\n",
    "words.yaml": "US: {worktop: countertop}\n",
    "questions.yaml": "hob under hood.underside: Decide how high the hood hangs.\n",
    "order.yaml": "title: Usual order\nsource: common practice\ntasks: {paint: {after: [], trade: decorator}}\n",
    "cautions.yaml": "dust: {signal: CAUTION, says: Wear a mask., source: common practice}\n",
    "texts.yaml": """\
requirement because: The household asks for it.
requirement remedy: "Bring it to {need}: it comes to {have}."
requirement remedy without figure: Keep to what the household asks for.
""",
    "tables/depth.yaml": """\
depth:
  title: Depth by base
  covers: everywhere
  keys: {base: term, plug: {is: length, match: from}}
  gives: {depth: length, load: mass}
  source: common practice
  rows: [[solid_bases, 8 mm, 50 mm, 30 kg]]
remembered:
  title: A table nobody found again
  covers: everywhere
  keys: {base: term}
  gives: {depth: length}
  source: {document: hearsay}
  rows: [[solid_bases, 50 mm]]
kinds:
  title: By kind of fixing
  covers: everywhere
  keys: {kind: text}
  gives: {depth: length}
  source: common practice
  rows: [[frame fixing, 50 mm], [anchor, 40 mm]]
""",
}


@pytest.fixture
def rules_of(tmp_path: Path) -> Callable[[dict[str, str]], Path]:
    """Writes the folder of rules with these books added to it, and files changed."""

    def write(books: dict[str, str]) -> Path:
        for name, text in {**FILES, **books}.items():
            file = tmp_path / "rules" / name
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(text, "utf-8")
        return tmp_path / "rules"

    return write
