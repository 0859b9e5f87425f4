"""The index of all rules by subject, as Markdown: `rules/INDEX.md`."""

from __future__ import annotations

from collections.abc import Sequence

from validator.judging.books import Books
from validator.judging.rules import SEVERITIES, Rule
from validator.reporting.markdown_text import plain, table

HEADS = ("severity", "rule", "what it asks for", "where", "rests on", "standing", "seen")
HEAD = """\
# The rules by subject

Written by `dryfit rules --index > rules/INDEX.md`; do not edit it by hand. `dryfit rules NAME` prints one of them in
full, and [README.md](README.md) says how one is written. Seen: *primary*, read in the document itself; *secondary*,
read on a page that reports it; *memory*, known and not found again. Common practice has no document.
"""


def rule_index(books: Sequence[Books]) -> str:
    """Every rule of the books given, once, by the title of its book; the gravest first."""
    subjects: dict[str, dict[tuple[str, str], Rule]] = {}
    for shelf in books:
        for rule in shelf.rules:
            subjects.setdefault(rule.book, {})[rule.covers, rule.name] = rule
    count = sum(map(len, subjects.values()))
    names = {rule.name for rules in subjects.values() for rule in rules.values()}
    lines = [HEAD, f"{count} rules of {len(names)} names, in {len(subjects)} subjects."]
    for subject in sorted(subjects):
        rules = sorted(subjects[subject].values(), key=_order)
        lines += ["", f"## {plain(subject)}", "", *table(HEADS, map(_cells, rules))]
    return "\n".join(lines) + "\n"


def _order(rule: Rule) -> tuple[int, str, str]:
    return SEVERITIES.index(rule.severity), rule.name, rule.covers


def _cells(rule: Rule) -> tuple[str, ...]:
    source = rule.source
    cites = plain(str(source)) if source.title else ""
    return rule.severity, f"`{rule.name}`", plain(rule.title), rule.covers, cites, source.standing, source.seen
