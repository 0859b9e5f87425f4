"""The household's own rules, written into the plan in the form of a rulebook's rules."""

from __future__ import annotations

from collections.abc import Sequence

from validator.judging.limits import identifier
from validator.judging.rule_reading import Defaults, OwnValue, RuleReader
from validator.judging.rules import Book, Rule
from validator.measures.rows import Known, Missing, Why
from validator.plan.names import fold
from validator.plan.plan import Plan
from validator.plan.pointers import join
from validator.plan.problems import Place, Problem, Unreadable
from validator.plan.values import Quantity
from validator.reference.documents import Citation
from validator.reference.entries import Entry, Page
from validator.reference.library import Library

POINTER = "/requirements"
TITLE = "the household's own requirements"
HOUSEHOLD = Citation("", "", "", "", "household", "")


def read_requirements(plan: Plan, library: Library, rules: Sequence[Rule]) -> tuple[Rule, ...]:
    """The requirements of a plan as rules; `rules` are those of the books, whose names they may not take.

    Raises Unreadable with every mistake, placed in the plan.
    """
    problems: list[Problem] = []
    page = Page(plan.place, plan.place, problems)
    book = Book(TITLE, "everywhere", "", plan.place(POINTER))
    reader = RuleReader(library, own=_own_values(plan), defaults=_defaults(library, problems))
    taken = {fold(name): rule for rule in rules for name in (rule.name, *rule.aliases)}
    found: list[Rule] = []
    for name, written in plan.requirements.items():
        entry = Entry(written, join(POINTER, name), page)
        holder = taken.get(fold(name))
        if holder is not None:
            entry.mistake(
                f"`{name}` is a rule of {holder.book} already",
                expected="another name; `agreed` is for departing from a rule",
                also=(holder.place,),
                at="key",
            )
        rule = reader.read(name, entry, book)
        if rule is not None:
            found.append(rule)
    if problems:
        raise Unreadable(problems)
    return tuple(found)


def _defaults(library: Library, problems: list[Problem]) -> Defaults:
    because, remedy, without = (
        library.texts.get(key, "")
        for key in ("requirement because", "requirement remedy", "requirement remedy without figure")
    )
    if not (because and remedy and without):
        problems.append(Problem("the texts for a household's own rules are not there", Place("rules/texts.yaml")))
    return Defaults("put right", list(library.stages)[-1], HOUSEHOLD, because, remedy, without)


def _own_values(plan: Plan) -> dict[str, OwnValue]:
    values: dict[str, OwnValue] = {}
    for name, value in plan.own.items():
        pointer = join("/own", name)
        if isinstance(value, Quantity):
            known = Known(value.low, pointer, value.text, name, low=value.low, high=value.high, assumed=value.assumed)
            values[f"own.{identifier(name)}"] = OwnValue(known, value.dimension)
        else:
            values[f"own.{identifier(name)}"] = OwnValue(Missing(pointer, name, Why.TO_FIND, value.by), None)
    return values
