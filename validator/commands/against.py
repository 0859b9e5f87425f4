"""`dryfit check --against REVISION`: what a change of a plan brought, cured and moved since a revision of git."""

from __future__ import annotations

import argparse
import importlib
import os
import sys
from datetime import date
from typing import Any

from validator.commands.inspecting import Inspector, say_unreadable, style
from validator.commands.revisions import GitTrouble, Repository, Tree
from validator.commands.staged import plan_at
from validator.plan.files import documents_of, read_plan
from validator.plan.merging import merge
from validator.plan.names import nearest
from validator.plan.problems import Unreadable
from validator.reporting.change_data import data
from validator.reporting.change_texts import text
from validator.reporting.change_words import Since
from validator.reporting.changes import compare
from validator.reporting.columns import tamed
from validator.reporting.json_form import as_text
from validator.reporting.sentences import mistake

NOTHING_BLOCKS, BLOCKS, UNREADABLE = 0, 1, 2
FORMS = ("text", "json", "markdown")


def run(chosen: argparse.Namespace) -> int:
    """Judge each plan as it is and as it was; 1 where something brought blocks, 2 where either cannot be had."""
    if chosen.form not in FORMS:
        return _refused(f"A change is told as {', '.join(FORMS)}; `--form {chosen.form}` is for the whole plan.")
    if "-" in chosen.plans:
        return _refused("Standard input has no revisions: name the file or the folder of the plan.")
    on: date = chosen.on or date.today()
    inspector = Inspector(chosen.rules, on)
    statuses: list[int] = []
    reports: list[Any] = []
    for plan in chosen.plans:
        try:
            now = inspector.inspect(read_plan([plan], bytes))
            since = at_revision(plan, chosen.against, inspector)
        except Unreadable as unreadable:
            say_unreadable(unreadable)
            statuses.append(UNREADABLE)
            if chosen.form == "markdown":
                reports.append(importlib.import_module("validator.reporting.markdown").of_unreadable(unreadable))
        except GitTrouble as trouble:
            statuses.append(_refused(str(trouble)))
        else:
            changes = compare(since.judgement, now)
            statuses.append(BLOCKS if changes.blocks(chosen.fail_on) else NOTHING_BLOCKS)
            match chosen.form:
                case "json":
                    reports.append(data(changes, now, since, on, chosen.fail_on))
                case "markdown":
                    form = importlib.import_module("validator.reporting.change_markdown")
                    reports.append(form.part(changes, now, since, on, chosen.fail_on))
                case _:
                    sys.stdout.write(text(changes, now, since, on, style(), chosen.fail_on))
    if reports and chosen.form == "json":
        sys.stdout.write(as_text(reports[0] if len(chosen.plans) == 1 else reports))
    elif reports:
        sys.stdout.write(importlib.import_module("validator.reporting.markdown").whole(reports))
    return max(statuses)


def at_revision(plan: str, revision: str, inspector: Inspector) -> Since:
    """The plan at a revision, judged by the same books on the same day. Raises GitTrouble where there is none."""
    repository = Repository.around(plan if os.path.isdir(plan) else os.path.dirname(plan) or os.curdir)
    commit = repository.commit(revision)
    if commit is None:
        raise GitTrouble(_no_such_revision(revision, repository))
    tree = repository.at(commit)
    path = repository.within(plan)
    files = plan_at(repository, tree, path)
    if not files:
        raise GitTrouble(_not_there(path, revision, tree))
    try:
        return Since(revision, commit, inspector.inspect(merge(documents_of(files.items()))))
    except Unreadable as unreadable:
        return Since(revision, commit, None, tuple(mistake(problem) for problem in unreadable.problems))


def _no_such_revision(revision: str, repository: Repository) -> str:
    if repository.commit("HEAD") is None:
        return f"The repository at {repository.top} has no commit yet, so there is nothing to compare with."
    said = f"There is no revision `{revision}` in the repository at {repository.top}."
    names = (repository.said("for-each-ref", "--format=%(refname:short)") or "").split("\n")
    meant = nearest(revision, names)
    if repository.said("rev-parse", "--is-shallow-repository") == "true":
        return f"{said} It was fetched without its history (a shallow clone): fetch that revision first."
    return said + (f" Perhaps «{meant}» was meant." if meant else " Give a branch, a tag or a commit.")


def _not_there(path: str, revision: str, tree: Tree) -> str:
    said = f"`{path or '.'}` is not in {revision}, so there is nothing to compare with."
    meant = nearest(path, [*tree.files, *tree.folders])
    return said + (f" Perhaps «{meant}» was it then." if meant else "")


def _refused(why: str) -> int:
    sys.stderr.write(f"{tamed(why)}\n")
    return UNREADABLE
