"""Rules in words: the list of them by book, and one of them with its limit and what it rests on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from validator.judging.books import Books
from validator.judging.rules import Limit, Rule
from validator.judging.trials import Trials
from validator.measures.site import row_class
from validator.reference.library import Library
from validator.reporting.columns import columns, tamed, wrap
from validator.reporting.findings import rests_on
from validator.reporting.lines import WIDTH
from validator.reporting.trial_texts import example

LABEL = 11
TITLE_COLUMN = 15
BOUNDS = {"at least": "at least", "at most": "at most", "equals": "exactly", "one of": "one of"}


def rule_list(books: Sequence[Books]) -> str:
    """All rules, each once, under the title of its book."""
    by_book: dict[tuple[str, str], dict[str, Rule]] = {}
    for rule in _every(books):
        by_book.setdefault((rule.covers, rule.book), {})[rule.name] = rule
    lines: list[str] = []
    count = 0
    for (covers, book), rules in by_book.items():
        lines.append(f"{book}   ({covers})")
        for rule in rules.values():
            lines += _entry(rule)
            count += 1
        lines.append("")
    lines.append(f"{count} rules. `dryfit rules NAME` prints one of them.")
    return tamed("\n".join(lines) + "\n")


def _entry(rule: Rule) -> Iterator[str]:
    """The rule in the list, its title below where the line has no room for it."""
    line = f"  {rule.severity:<9}  {rule.name:<42} {rule.title}"
    if columns(line) <= WIDTH:
        yield line
        return
    yield f"  {rule.severity:<9}  {rule.name}"
    for part in wrap(rule.title, WIDTH - TITLE_COLUMN):
        yield " " * TITLE_COLUMN + part


def one_rule(name: str, books: Sequence[Books], trials: Trials) -> tuple[str, bool]:
    """Every form that a rule takes in the books given, with what its trial comes to, and whether there is one; else
    the nearest name.
    """
    forms = {
        (rule.covers, rule.book): rule for shelf in books for rule in shelf.rules if rule.name == shelf.resolve(name)
    }
    if not forms:
        near = next((found for shelf in books if (found := shelf.nearest(name))), None)
        hint = f" Perhaps `{near}` was meant." if near else ""
        return tamed(f"There is no rule `{name}`.{hint} `dryfit rules` lists them all.\n"), False
    return tamed("\n".join("\n".join(_one(rule, trials)) + "\n" for rule in forms.values())), True


def _every(books: Sequence[Books]) -> Iterator[Rule]:
    for shelf in books:
        yield from shelf.rules


def _one(rule: Rule, trials: Trials) -> Iterator[str]:
    yield from wrap(f"{rule.name}: {rule.title}", WIDTH)
    yield from _field("covers", f"{rule.covers}   (book: {rule.book})")
    yield from _field("severity", f"{rule.severity}, to be settled before: {rule.before}")
    yield from _field("judges", f"every {rule.each}" + (f", when {rule.when.text}" if rule.when else ""))
    if rule.holds is not None:
        yield from _field("must hold", rule.holds.text)
    if rule.figure:
        yield from _field("figure", _figure(rule))
    for limit in rule.limits:
        yield from _field(BOUNDS[limit.bound], _limit(limit, trials.library))
    if rule.stated:
        kind = row_class(rule.each)
        labels = [kind.figures[name].label if name in kind.figures else kind.fields[name].label for name in rule.stated]
        counts = "the strictest counts, with this limit" if rule.of_law else "the strictest counts, before this limit"
        yield from _field("papers", f"{'; '.join(labels)}: {counts}")
    worked = example(rule, trials)
    if worked:
        yield from _field("example", worked)
    yield from _field("because", rule.because)
    yield from _field("do this", rule.remedy.text)
    yield from _field("rests on", rests_on(rule.source))
    for how, why in rule.changes.items():
        yield from _field(how, why)
    for limit in rule.limits:
        if limit.row is not None:
            for table in trials.library.tables[limit.row.table]:
                yield from _field("table", f"{table.title} ({table.covers}): {rests_on(table.source)}")
    if rule.aliases:
        yield from _field("also", ", ".join(rule.aliases))
    yield from _field("stands in", f"{rule.place.file}, line {rule.place.line}")


def _figure(rule: Rule) -> str:
    kind = row_class(rule.each)
    figure = kind.figures.get(rule.figure)
    if figure is None:
        return f"{rule.figure}: {kind.fields[rule.figure].label}"
    datum = f", from {figure.start} to {figure.end}" if figure.start else ""
    return f"{rule.figure}: {figure.label}{datum}"


def _limit(limit: Limit, library: Library) -> str:
    if limit.words:
        return ", ".join(limit.words)
    if limit.row is not None:
        title = library.tables[limit.row.table][0].title
        return f"{limit.row.gives} in the table «{title}», by {', '.join(limit.row.by.values())}"
    return limit.expression.text if limit.expression else ""


def _field(label: str, text: str) -> Iterator[str]:
    lines = wrap(text, WIDTH - LABEL - 2) or [""]
    for number, line in enumerate(lines):
        yield f"  {label if not number else '':<{LABEL}}{line}"
