"""`dryfit changes OLD NEW`: which figures, outcomes and points moved between two plans, or two revisions of one."""

from __future__ import annotations

import argparse
import os
import sys
from datetime import date

from validator.commands.against import at_revision
from validator.commands.inspecting import Inspector, say_unreadable, style
from validator.commands.revisions import GitTrouble
from validator.plan.files import read_plan
from validator.plan.problems import Unreadable
from validator.reporting.change_data import data
from validator.reporting.change_texts import text
from validator.reporting.change_words import Since
from validator.reporting.changes import compare
from validator.reporting.columns import tamed
from validator.reporting.json_form import as_text
from validator.reporting.moved_figures import in_lines, moved_figures, turned_outcomes

NOTHING_BLOCKS, BLOCKS, UNREADABLE = 0, 1, 2


def run(chosen: argparse.Namespace) -> int:
    """Judge both on the same day; 1 where something brought blocks, 2 where either cannot be had."""
    inspector = Inspector(chosen.rules, chosen.on)
    try:
        old, new = _side(chosen.old, chosen, inspector), _side(chosen.new, chosen, inspector)
    except Unreadable as unreadable:
        say_unreadable(unreadable)
        return UNREADABLE
    except GitTrouble as trouble:
        sys.stderr.write(f"{tamed(str(trouble))}\n")
        return UNREADABLE
    now = new.judgement
    if now is None or old.judgement is None:
        which = new if now is None else old
        said = f"The plan cannot be read at {which.revision}. {' '.join(which.mistakes[:1])}"
        sys.stderr.write(f"{tamed(said)}\n")
        return UNREADABLE
    on: date = chosen.on or date.today()
    changes = compare(old.judgement, now)
    figures, outcomes = moved_figures(old.judgement, now), turned_outcomes(old.judgement, now)
    if chosen.form == "json":
        told = data(changes, now, old, on, "put right")
        told["figures"] = [figure._asdict() for figure in figures]
        told["outcomes"] = [outcome._asdict() for outcome in outcomes]
        sys.stdout.write(as_text(told))
    else:
        turned = [
            (f"{outcome.title}, {outcome.thing}", [f"{outcome.before or 'not judged'} → {outcome.now or 'not judged'}"])
            for outcome in outcomes
        ]
        further = [("Outcomes that turned", turned), ("Places and figures that moved", list(in_lines(figures)))]
        sys.stdout.write(text(changes, now, old, on, style(), "put right", further))
    return BLOCKS if changes.blocks() else NOTHING_BLOCKS


def _side(name: str, chosen: argparse.Namespace, inspector: Inspector) -> Since:
    """A plan by its path, else as it was at a revision of git. Raises Unreadable or GitTrouble."""
    if os.path.exists(name):
        return Since(name, "", inspector.inspect(read_plan([name], bytes)))
    plan = chosen.plan or next((path for path in (chosen.new, chosen.old) if os.path.exists(path)), None)
    if plan is None:
        raise GitTrouble(f"`{name}` is no file or folder. If it is a revision, name the plan behind both.")
    return at_revision(plan, name, inspector)
