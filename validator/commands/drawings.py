"""`dryfit drawings`: walls, rooms and corners of a plan as drawings to a true scale, or its worktops for the saw."""

from __future__ import annotations

import argparse
import os
import sys
from datetime import date
from typing import TYPE_CHECKING

from validator.commands.inspecting import inspect, say_unreadable
from validator.commands.replacing import put
from validator.plan.problems import Unreadable
from validator.reporting.columns import tamed

if TYPE_CHECKING:
    from validator.judging.apply import Judgement

DONE, NOTHING, UNREADABLE = 0, 1, 2
FOLDER = "drawings"

NO_LIBRARY = "DXF is written through ezdxf, which is not installed: pip install 'dryfit[dxf]'"


def run(chosen: argparse.Namespace) -> int:
    """Write the files and name them; 1 where the plan has nothing that can be drawn."""
    try:
        judged = inspect(chosen.plan, chosen.rules, chosen.on or date.today())
    except Unreadable as unreadable:
        say_unreadable(unreadable)
        return UNREADABLE
    if chosen.dxf is not None:
        return _outlines(judged, chosen.dxf)
    from validator.reporting.drawings.whole_plan import drawings_of

    drawings = drawings_of(judged)
    if not drawings:
        print("Nothing is drawn: no wall of the plan has a length and something on it.", file=sys.stderr)
        return NOTHING
    return _write(chosen.out or FOLDER, {f"{each.name}.svg": each.svg().encode() for each in drawings})


def _outlines(judged: Judgement, folder: str) -> int:
    """The worktops and panels as DXF, where the library for it is there."""
    try:
        from validator.reporting.drawings.outlines import outlines_of
    except ModuleNotFoundError as missing:
        if missing.name is None or missing.name.partition(".")[0] != "ezdxf":
            raise
        print(NO_LIBRARY, file=sys.stderr)
        return UNREADABLE
    files, open_ = outlines_of(judged.site)
    for gap in open_:
        print(tamed(f"not drawn: {gap}"), file=sys.stderr)
    if not files:
        print("Nothing is drawn: no worktop or panel of the plan has a length and a depth.", file=sys.stderr)
        return NOTHING
    return _write(folder, files)


def _write(folder: str, files: dict[str, bytes]) -> int:
    """Each file written beside its place and put there when it is whole; a file that is there is replaced."""
    try:
        os.makedirs(folder, exist_ok=True)
        for name, content in files.items():
            put(os.path.join(folder, name), content)
            print(tamed(os.path.join(folder, name)))
    except OSError as error:
        print(tamed(f"The drawings cannot be written to {folder}: {error.strerror}."), file=sys.stderr)
        return UNREADABLE
    return DONE
