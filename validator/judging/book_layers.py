"""Laying the books over each other: the general first, the special over it, last those given on the command line."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from validator.judging.book_reading import ReadBook, Withdrawal
from validator.judging.rules import SEVERITIES, Book, Change, Limit, Rule
from validator.measures.rows import Row, Subject
from validator.plan.names import fold, nearest
from validator.plan.problems import Problem
from validator.reference.countries import depth


@dataclass(slots=True)
class Layers:
    """The rules so far, by their names folded, with what the later books did to them."""

    problems: list[Problem]
    elsewhere: Mapping[str, str]
    rules: dict[str, Rule] = field(default_factory=dict)
    changed: list[Change] = field(default_factory=list)
    withdrawn: dict[str, str] = field(default_factory=dict)
    _books: dict[str, Book] = field(default_factory=dict)
    _names: set[str] = field(default_factory=set)

    def lay(self, book: ReadBook, rules: Iterable[Rule]) -> None:
        """Lay a book's rules over those before it, then take away what it withdraws."""
        for rule in rules:
            self._put(rule, book.book)
        self._names |= book.names
        for withdrawal in book.withdrawals():
            self._withdraw(withdrawal)

    def check_aliases(self) -> None:
        """A mistake for each old name that is the name, or an old name, of another rule."""
        holders = dict(self.rules)
        for rule in self.rules.values():
            for alias in rule.aliases:
                holder = holders.setdefault(fold(alias), rule)
                if holder is not rule:
                    self.problems.append(
                        Problem(f"`{alias}` also leads to the rule `{holder.name}`", rule.place, also=(holder.place,))
                    )

    def _put(self, rule: Rule, book: Book) -> None:
        key = fold(rule.name)
        before = self.rules.get(key)
        how = next(iter(rule.changes), "")
        if before is None:
            if how:
                self._nothing_there(rule, how)
            self.rules[key], self._books[key] = rule, book
            return
        if not how:
            self._note(
                f"there is already a rule `{rule.name}` in {before.book}",
                rule,
                before,
                "another name, or `tightens` or `replaces` with why in a book for a part of the country",
            )
            return
        if not _more_special(book, self._books[key]):
            self._note(
                f"only a more special book than {before.book} ({before.covers}) may change its rule", rule, before
            )
        if how == "tightens":
            for loosened in loosens(rule, before):
                self._note(f"`{rule.name}` says that it tightens, and {loosened}", rule, before, "replaces, with why")
        self.changed.append(Change(rule.name, how, rule.changes[how], rule.book, before.book))
        self.rules[key], self._books[key] = rule, book

    def _nothing_there(self, rule: Rule, how: str) -> None:
        if rule.name in self._names:  # its own mistakes are shown already
            return
        where = self.elsewhere.get(rule.name)
        message = f"there is no rule `{rule.name}` before this one that it {how}"
        if where:
            message += f"; there is one for {where}"
        self.problems.append(Problem(message, rule.place, nearest=self._nearest(rule.name)))

    def _withdraw(self, withdrawal: Withdrawal) -> None:
        found = self.rules.pop(fold(withdrawal.name), None)
        if found is not None:
            self.withdrawn[found.name] = withdrawal.why
        elif withdrawal.name not in self.elsewhere and withdrawal.name not in self._names:
            withdrawal.entry.mistake(
                f"there is no rule `{withdrawal.name}` to withdraw", near=self._nearest(withdrawal.name), at="key"
            )

    def _nearest(self, name: str) -> str:
        return nearest(name, [rule.name for rule in self.rules.values()]) or ""

    def _note(self, message: str, rule: Rule, before: Rule, expected: str = "") -> None:
        self.problems.append(Problem(message, rule.place, expected, also=(before.place,)))


def loosens(rule: Rule, before: Rule) -> list[str]:
    """In what a rule asks less than the one it claims to tighten, in words; nothing where it does tighten.

    Only constants are compared: of two bounds that depend on the row, neither is known to be the stricter.
    """
    found: list[str] = []
    if (rule.each, rule.figure) != (before.each, before.figure):
        return [
            f"judges {rule.figure or 'a condition'} of {rule.each}, not {before.figure or 'the same'} of {before.each}"
        ]
    if rule.when is not None and (before.when is None or rule.when.tree != before.when.tree):
        found.append("applies under another condition")
    if SEVERITIES.index(rule.severity) > SEVERITIES.index(before.severity):
        found.append(f"is milder: {rule.severity}, not {before.severity}")
    for bound in dict.fromkeys(limit.bound for limit in before.limits):
        found += _loosened([limit for limit in before.limits if limit.bound == bound], rule.limits, bound)
    return found


def _loosened(before: list[Limit], after: Iterable[Limit], bound: str) -> list[str]:
    same = [limit for limit in after if limit.bound == bound]
    if not same:
        return [f"has no `{bound}`"]
    if bound == "one of":
        old, new = {word for limit in before for word in limit.words}, {word for limit in same for word in limit.words}
        return [f"allows `{word}`" for word in sorted(new - old)]
    was, now = _strictest(before, bound), _strictest(same, bound)
    if was is None or now is None:
        return []
    texts = [limit.expression.text for limit in (*same, *before) if limit.expression is not None]
    looser = now < was if bound == "at least" else now > was if bound == "at most" else now != was
    return [f"asks for {bound} {texts[0]} where {texts[-1]} stood"] if looser else []


def _strictest(limits: list[Limit], bound: str) -> float | None:
    """The strictest constant of several limits; None where one of them depends on the row."""
    nothing = Row(Subject("", ""))
    values: list[float] = []
    for limit in limits:
        if limit.expression is None or limit.expression.reads:
            return None
        values.append(float(limit.expression.evaluate(nothing)))
    return min(values) if bound == "at most" else max(values)


def _more_special(book: Book, before: Book) -> bool:
    if book.given != before.given:
        return book.given
    return depth(book.covers) > depth(before.covers)
