"""`dryfit drawings`: files in a folder, whole or not at all."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from tests.commands.conftest import Here, Write
from tests.commands.running import ON

GALLEY = """\
dryfit: 1
heights from: bare floor
project: {title: Jetty, country: GB-ENG, lengths in: mm}
ceiling: 2400
walls: {north: {length: 3000}, east: {length: 2400}, south: {length: 3000}, west: {length: 2400}}
floors: none
kinds: {base: {height: 720, depth: 560, front: 19}, worktop: {thickness: 38, depth: 600, past end: 0, gap at wall: 0}}
runs: {galley: {against: north, legs: 150 at high spot, order: {B1: base 600}}}
worktops: {top: {on: galley}}
"""


def test_walls_and_rooms_are_written_to_the_folder(here: Here, write: Write, folder: Path) -> None:
    ran = here("drawings", write("plan.yaml", GALLEY), "--out", "sheets", "--on", ON)
    assert (ran.status, ran.err) == (0, "")
    assert ran.out.split() == ["sheets/floor-plan-room.svg", "sheets/elevation-north.svg"]
    assert sorted(path.name for path in (folder / "sheets").iterdir()) == ["elevation-north.svg", "floor-plan-room.svg"]
    assert (folder / "sheets" / "elevation-north.svg").read_text("utf-8").startswith("<svg ")


def test_without_a_folder_they_go_to_drawings(here: Here, write: Write, folder: Path) -> None:
    assert here("drawings", write("plan.yaml", GALLEY), "--on", ON).status == 0
    assert (folder / "drawings" / "elevation-north.svg").exists()


def test_a_plan_without_anything_on_a_wall_says_so(here: Here, write: Write, folder: Path) -> None:
    ran = here("drawings", write("plan.yaml", "dryfit: 1\nproject: {country: GB-ENG}\n"), "--on", ON)
    assert ran.status == 1
    assert ran.err.startswith("Nothing is drawn")
    assert not (folder / "drawings").exists()


def test_a_plan_that_cannot_be_read_writes_nothing(here: Here, write: Write, folder: Path) -> None:
    assert here("drawings", write("plan.yaml", "dryfit: 1\nwals: {}\n"), "--on", ON).status == 2
    assert not (folder / "drawings").exists()


def test_a_folder_that_cannot_be_written_is_said_in_words(here: Here, write: Write) -> None:
    write("taken", "a file")
    ran = here("drawings", write("plan.yaml", GALLEY), "--out", "taken", "--on", ON)
    assert ran.status == 2
    assert ran.err.startswith("The drawings cannot be written to taken")


def test_worktops_are_written_for_the_saw(here: Here, write: Write, folder: Path) -> None:
    pytest.importorskip("ezdxf")
    ran = here("drawings", write("plan.yaml", GALLEY), "--dxf", "saw", "--on", ON)
    assert (ran.status, ran.out.split()) == (0, ["saw/worktop-top.dxf"])


def test_where_the_library_for_dxf_is_missing_it_says_what_to_install(
    here: Here, write: Write, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delitem(sys.modules, "validator.reporting.drawings.outlines", raising=False)
    monkeypatch.setitem(sys.modules, "ezdxf", None)
    ran = here("drawings", write("plan.yaml", GALLEY), "--dxf", "saw", "--on", ON)
    assert ran.status == 2
    assert "pip install 'dryfit[dxf]'" in ran.err
    assert not (folder / "saw").exists()
