"""Where the rules are found."""

from __future__ import annotations

from pathlib import Path

import pytest

from validator.plan.problems import Unreadable
from validator.reference.folder import book_files, rules_folder


def _rules(folder: Path) -> Path:
    folder.mkdir(parents=True)
    (folder / "sources.yaml").write_text("", "utf-8")
    return folder


def test_the_rules_of_a_checkout_lie_beside_the_package(tmp_path: Path) -> None:
    beside = _rules(tmp_path / "rules")
    assert rules_folder(tmp_path / "validator") == beside


def test_the_rules_of_an_installation_lie_in_the_package_and_go_first(tmp_path: Path) -> None:
    _rules(tmp_path / "rules")
    within = _rules(tmp_path / "validator" / "_rules")
    assert rules_folder(tmp_path / "validator") == within


def test_a_folder_of_another_tool_that_is_called_rules_is_not_taken(tmp_path: Path) -> None:
    (tmp_path / "rules").mkdir()
    with pytest.raises(Unreadable, match="the rules that belong to dryfit are not there"):
        rules_folder(tmp_path / "validator")


def test_books_are_the_files_outside_tables_and_fragments(tmp_path: Path) -> None:
    for name in ("GB/drains.yaml", "everywhere/hobs.yaml", "tables/cables.yaml", "fragments/hob.yaml", "sources.yaml"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text("", "utf-8")
    assert [file.name for file in book_files(tmp_path)] == ["drains.yaml", "hobs.yaml"]
