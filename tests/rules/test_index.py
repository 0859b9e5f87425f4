"""What stands beside the books: the index is that of the books as they are, and the guide does as it says."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.rules.trials import TRIALS
from validator.commands.main import main
from validator.judging.rules import SEVERITIES
from validator.judging.trials import DAY
from validator.reference.folder import rules_folder

GUIDE = (rules_folder() / "README.md").read_text("utf-8")


@pytest.fixture
def guide_book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    """The files of the guide, written where their first lines say; the name of the book."""
    for name, content in re.findall(r"```yaml\n# (\S+)\n(.*?)```", GUIDE, re.DOTALL):
        file = tmp_path / name
        file.parent.mkdir(exist_ok=True)
        file.write_text(f"# {name}\n{content}", "utf-8")
    monkeypatch.chdir(tmp_path)
    return "house-rules.yaml"


def shown(start: str) -> str:
    """The block of the guide that shows what is printed, from its first line."""
    found = next(block for block in re.findall(r"```text\n(.*?)```", GUIDE, re.DOTALL) if block.startswith(start))
    return str(found)


def test_the_index_is_that_of_the_books(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["rules", "--index"]) == 0
    written = (rules_folder() / "INDEX.md").read_text("utf-8")
    assert written == capsys.readouterr().out, "stale: run `dryfit rules --index > rules/INDEX.md`"


def test_the_book_of_the_guide_does_as_it_claims(guide_book: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["rules", "--try", guide_book]) == 0
    out = capsys.readouterr().out
    assert out.startswith(shown("What this workshop"))
    assert out.endswith("Two trials do as claimed.\n")


def test_a_mistake_in_it_looks_as_the_guide_shows(guide_book: str, capsys: pytest.CaptureFixture[str]) -> None:
    book = Path(guide_book)
    book.write_text(re.sub(r"figure: height +#.*", "figure: hieght", book.read_text("utf-8")), "utf-8")
    assert main(["rules", "--try", guide_book]) == 2
    assert capsys.readouterr().err.strip() == shown("THE RULEBOOK").strip()


def test_the_guide_names_the_stages_and_severities_there_are() -> None:
    assert ", ".join(f"`{stage}`" for stage in TRIALS.library.stages) in " ".join(GUIDE.split())
    assert ", ".join(f"`{severity}`" for severity in SEVERITIES) in GUIDE
    assert f"Left out: {DAY}" in GUIDE


@pytest.mark.parametrize("refused", re.findall(r"^\| (`(?:clear|fuel|0 mm|max).*?) \| ", GUIDE, re.MULTILINE))
def test_what_the_guide_says_is_refused_is(refused: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Each stands as the condition of a rule about hobs and hoods, which is what the guide's names are of."""
    book = tmp_path / "book.yaml"
    for text in re.findall("`(.*?)`", refused):
        book.write_text(HOB_RULE.format(when=text), "utf-8")
        assert main(["rules", "--rules", str(book)]) == 2
        assert f"{book}, line 6" in capsys.readouterr().err


HOB_RULE = """\
book: {{title: Refused, covers: everywhere}}
rules:
  hood-higher:
    title: Hood higher
    each: hob under hood
    when: "{when}"
    figure: clearance
    at_least: 700 mm
    severity: improve
    before: first fix
    because: It is so.
    remedy: Hang it {{short}} higher.
    source: common practice
"""
