"""The words of the command line: each command, what it takes and what its help says."""

from __future__ import annotations

import argparse
import re
from collections.abc import Callable, Sequence
from datetime import date

EXAMPLES = """\
examples:
  dryfit new kitchen.yaml               write a plan to start from
  dryfit measure kitchen.yaml           what is still to be measured, read and asked
  dryfit check kitchen.yaml             work the plan through and print the report
  dryfit check plan/ --on 2026-06-01    a folder is one plan; judged as of a day
  dryfit check plan/ --form json        the same for machines
  dryfit ready drilling plan/           yes or no, and what is in the way
  dryfit set plan/ 'hood up' 1650       one value changed in its file, and judged again
  dryfit jobsheet plan/ --for plumber   the sheet a trade is handed, as one HTML file
  dryfit changes main plan/             which figures, outcomes and points moved since a revision
  dryfit quantities plan/               what has to be cut and bought for cabinets and worktops
  dryfit drawings plan/                 walls, rooms and corners, drawn to a true scale
  dryfit show B3 plan/                  everything worked out about B3, and from where
  dryfit rules                          every rule that applies, by subject
  dryfit rules waste-fall               one rule: limit, source, why, what to do

Exit status: 0 ready, 1 not ready, 2 the plan or a rulebook cannot be read."""

GITHOOK = """\
install puts the hook where git looks for it, also in a worktree, and keeps what it is told (--plan, --rules,
--refuse) as settings of the repository. A hook that is there already is left alone. remove takes the hook
away and puts back the one it was installed beside. run looks at what is staged, by hand or for a hook manager.

Which plans: those that the commit touches, and all of them where it touches a rulebook named in dryfit.rules.
A file belongs to a plan where `dryfit` is one of its top-level names (in JSON the first). The files of plans in
one folder are one plan; where several of them have a `project`, each is a plan of its own.

What is refused: plans and rulebooks that cannot be read (also one with conflict marks in it), always; and, by
dryfit.refuses,
  unreadable   nothing more
  new-stops    each STOP not met that the last commit did not have (the usual; without a last commit, every STOP)
  not-ready    every plan that is not ready
`git commit --no-verify` commits what was refused.

settings of git (git config KEY VALUE; --add for a second one):
  dryfit.plan     a plan, as a path from the top of the repository; then no other plans are looked at
  dryfit.rules    a rulebook to apply to every plan: in the repository as it is staged, elsewhere as it lies there
  dryfit.refuses  unreadable, new-stops or not-ready

Exit status: 0 nothing refused, 1 refused, 2 something cannot be read, or git cannot answer."""


def parser(words: Sequence[str]) -> argparse.ArgumentParser:
    """Reads the words of a command line; where they begin with a command, it knows no other."""
    top = argparse.ArgumentParser(
        prog="dryfit",
        description="Works a kitchen fit-out plan through and judges it by rules that name their source, "
        "before anything is drilled, cut, mixed or booked.",
        epilog=EXAMPLES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    top.add_argument("--version", action=_Version, nargs=0, help="print the version and leave")
    commands = top.add_subparsers(dest="command", required=True, metavar="COMMAND")
    begins = words[0] if words else ""
    for name in [begins] if begins in COMMANDS else COMMANDS:
        says, add_words = COMMANDS[name]
        add_words(commands.add_parser(name, help=says))
    return top


def _new_words(command: argparse.ArgumentParser) -> None:
    command.description = (
        "Write a plan to start from: a small kitchen in which everything to be found out stands as such, with remarks "
        "that say what to measure. Nothing that is there is written over."
    )
    command.add_argument("path", metavar="PATH", help="the file to write, as kitchen.yaml; or a folder, as kitchen/")
    command.add_argument("--country", metavar="CODE", help="where the kitchen is: GB-ENG, GB-SCT, US-OR, …")
    command.add_argument("--toml", action="store_true", help="in TOML, without the remarks, in place of YAML")


def _measure_words(command: argparse.ArgumentParser) -> None:
    command.description = (
        "Print what is not known as a list to take round the room: by wall in walking order, then by who can say, "
        "then papers to read and things to choose. Each entry says where in the plan its answer is written."
    )
    _plan_word(command)
    _form_word(command)
    _common_words(command)


def _quantities_words(command: argparse.ArgumentParser) -> None:
    command.description = (
        "Print what has to be cut and bought for the cabinets and worktops of a plan: finished lengths, cut-outs, "
        "boards and what is cut from each, plinths, panels and fillers, units and appliances by their number. What is "
        "not known is listed as open."
    )
    _plan_word(command)
    _form_word(command)
    command.add_argument("--on", type=_day, metavar="DATE", help="the day printed on it (default: today)")


def _jobsheet_words(command: argparse.ArgumentParser) -> None:
    command.description = (
        "Write the sheet that a trade is handed: one HTML file that needs nothing else, for paper, phone and screen. "
        "With --verify, say whether a sheet still belongs to the plan. Exit status: 0 written, or it still belongs; "
        "1 what it says has moved; 2 something cannot be read or written."
    )
    _plan_word(command)
    wanted = command.add_mutually_exclusive_group(required=True)
    wanted.add_argument(
        "--for",
        dest="trade",
        metavar="TRADE",
        help="electrician, plumber, gas engineer, worktop maker, floor layer, decorator, joiner or helper; the plan's "
        "own name of somebody; or all, into the folder --out",
    )
    wanted.add_argument("--verify", metavar="FILE", help="a sheet: does it still belong to the plan?")
    command.add_argument("--out", metavar="PATH", help="the file to write; of --for all, the folder")
    command.add_argument(
        "--since", metavar="WHAT", help="the sheet they hold (its file, or the folder of all), or a revision of git"
    )
    command.add_argument("--issue", metavar="LETTER", type=_issue, help="the letter of this issue (default: the next)")
    command.add_argument("--money", action="store_true", help="print prices, too")
    command.add_argument("--pdf", action="store_true", help="as PDF in place of HTML; needs pip install '.[pdf]'")
    _common_words(command)


def _drawings_words(command: argparse.ArgumentParser) -> None:
    command.description = (
        "Draw every wall with something on it as one faces it, each side of an island, each room from above and each "
        "corner in which runs meet, as SVG to a true scale that fits A4 and Letter. What is not known is dashed and "
        "named; the numbers are those of the report. With --dxf, the outlines of worktops and panels for the saw."
    )
    _plan_word(command)
    instead = command.add_mutually_exclusive_group()
    instead.add_argument("--out", metavar="FOLDER", help="where the drawings are written (default: drawings)")
    instead.add_argument("--dxf", metavar="FOLDER", help="write worktops and panels there as DXF, in mm")
    _common_words(command)


def _set_words(command: argparse.ArgumentParser) -> None:
    command.description = (
        "Change one value in the file of a plan, and nothing else in it. The plan is judged with the new value before "
        "it is written; what could not be read with it is not written. Exit status: 0 done and ready, 1 done and not "
        "ready, 2 nothing changed."
    )
    command.add_argument("plan", metavar="PLAN", help="a file of a plan, or a folder of them")
    command.add_argument("path", nargs="?", metavar="PATH", help="which value: /appliances/hood/up, or 'hood up'")
    command.add_argument("value", nargs="?", metavar="VALUE", help="a text, a list in [ ], or keys and values in { }")
    command.add_argument("--point", type=int, metavar="N", help="do what point N of the report asks for")
    command.add_argument("--only-show", action="store_true", help="say what would change, and write nothing")
    _common_words(command)


def _ready_words(command: argparse.ArgumentParser) -> None:
    command.description = (
        "Say yes or no for one stage of the work, with what is in the way of it and of the stages before it. "
        "Stages: ordering, first fix, painting, drilling, template, floor, second fix, hand-over."
    )
    command.add_argument("stage", metavar="STAGE", help="what is to start, as drilling or 'first fix'")
    _plan_word(command)
    _common_words(command)


def _check_words(command: argparse.ArgumentParser) -> None:
    command.description = "Judge each plan named (a file, a folder, or - for standard input) and print its report."
    command.add_argument("plans", nargs="+", metavar="PLAN", help="a YAML file, a folder of them, or -")
    command.add_argument(
        "--form",
        choices=("text", "json", "sarif", "junit", "markdown", "html"),
        default="text",
        help="for people (text; html with drawings; markdown for a comment) or for machines (json, sarif, junit)",
    )
    command.add_argument(
        "--against",
        metavar="REVISION",
        help="tell only what changed since this revision of git (a commit, a branch, a tag): brought, cured, moved; "
        "1 only where something brought is in the way",
    )
    command.add_argument("--jobs", type=int, default=1, metavar="N", help="judge several plans in N processes")
    command.add_argument(
        "--fail-on",
        choices=("stop", "put right", "improve", "note"),
        default="put right",
        help="the mildest severity that makes a plan not ready when it is not met (default: put right)",
    )
    _common_words(command)


def _changes_words(command: argparse.ArgumentParser) -> None:
    command.description = (
        "Print which figures, outcomes and points moved from one plan to another. Each is a file or a folder; where "
        "there is none of that name, a revision of git. Both are judged on one day by the same rules."
    )
    command.add_argument("old", metavar="OLD", help="the plan as it was: a path, or a revision")
    command.add_argument("new", metavar="NEW", help="the plan as it is: a path, or a revision")
    command.add_argument("plan", nargs="?", metavar="PLAN", help="the plan, where both are revisions")
    _form_word(command)
    _common_words(command)


def _show_words(command: argparse.ArgumentParser) -> None:
    command.description = (
        "Print every figure worked out about a thing, with its working and the lines it comes from; of a wall, as "
        "`wall north`, all that is in it, on it and behind it, for whoever drills there; of `drilling`, every hole "
        "from the left of its wall, with its bit, its depth, what is near it and whether it is clear."
    )
    command.add_argument(
        "name", nargs="+", metavar="NAME", help="a unit, point, appliance, run, task …, wall NAME, or drilling"
    )
    _plan_word(command)
    command.add_argument("--form", choices=("text", "json"), default="text", help="of drilling: for people or machines")
    _common_words(command)


def _rules_words(command: argparse.ArgumentParser) -> None:
    command.description = "List the rules, or print one with its limit, its source and what it rests on."
    command.add_argument("name", nargs="?", metavar="NAME", help="the name of one rule")
    command.add_argument("--country", metavar="CODE", help="only rules that apply there (GB-ENG, US-OR, …)")
    instead = command.add_mutually_exclusive_group()
    instead.add_argument("--try", dest="try_book", metavar="BOOK", help="try each rule of a book on both sides")
    instead.add_argument("--kinds", nargs="*", metavar="KIND", help="what rules can be about, or all of one kind")
    instead.add_argument("--index", action="store_true", help="all rules by subject, as Markdown")
    _common_words(command)


def _githook_words(command: argparse.ArgumentParser) -> None:
    command.description = (
        "Have git look at each commit before it is made: the plans and rulebooks as they are staged, never as they lie "
        "in the folder."
    )
    command.epilog = GITHOOK
    command.formatter_class = argparse.RawDescriptionHelpFormatter
    command.add_argument("task", choices=("install", "remove", "run"), help="run is what the hook does")
    command.add_argument("--plan", action="append", default=[], metavar="PATH", help="a plan (file or folder)")
    command.add_argument("--refuse", choices=("unreadable", "new-stops", "not-ready"), help="what is not committed")
    command.add_argument("--beside", action="store_true", help="install: keep the hook that is there, and run it first")
    _common_words(command)


def _schema_words(command: argparse.ArgumentParser) -> None:
    command.description = (
        "Print the JSON Schema of a plan's files, short forms included: an editor offers keys and values by it, and "
        "marks what cannot be read while it is typed."
    )
    command.add_argument("--rules", action="store_true", help="the schema of a rulebook, in place of a plan")


def _plan_word(command: argparse.ArgumentParser) -> None:
    command.add_argument("plan", metavar="PLAN", help="a YAML file, a folder of them, or -")


def _form_word(command: argparse.ArgumentParser) -> None:
    command.add_argument("--form", choices=("text", "json"), default="text", help="for people (text) or for machines")


def _common_words(command: argparse.ArgumentParser) -> None:
    command.add_argument("--on", type=_day, metavar="DATE", help="judge as of this day (default: today)")
    command.add_argument("--rules", action="append", default=[], metavar="BOOK", help="add a rulebook (file or folder)")


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r} is no date; write it as 2026-06-01") from None


def _issue(text: str) -> str:
    if not re.fullmatch("[A-Z]{1,3}", text.upper()):
        raise argparse.ArgumentTypeError(f"{text!r} is no letter of an issue; write it as B")
    return text.upper()


class _Version(argparse.Action):
    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> None:
        from importlib.metadata import version

        print(f"dryfit {version('dryfit')}")
        parser.exit()


COMMANDS: dict[str, tuple[str, Callable[[argparse.ArgumentParser], None]]] = {
    "new": ("write a plan to start from", _new_words),
    "measure": ("what is not known, as a list to take round the room", _measure_words),
    "check": ("judge a plan and print the report", _check_words),
    "jobsheet": ("the sheet that a trade is handed, as HTML", _jobsheet_words),
    "changes": ("which figures, outcomes and points moved between two plans", _changes_words),
    "quantities": ("what has to be cut and bought for cabinets and worktops", _quantities_words),
    "drawings": ("walls, rooms and corners as drawings to a true scale", _drawings_words),
    "set": ("change one value of a plan, and judge it again", _set_words),
    "ready": ("yes or no: may a stage of the work start?", _ready_words),
    "show": ("everything worked out about one thing of a plan", _show_words),
    "rules": ("the rules that apply, or one of them", _rules_words),
    "githook": ("look at each commit before it is made", _githook_words),
    "schema": ("what an editor needs to know of plans, or of rulebooks", _schema_words),
}
"""Every command: what it is for, and what adds its own words."""
