"""Comparing a figure with its limits: the rule's own, a table's row, and what the makers' papers ask."""

from __future__ import annotations

from typing import NamedTuple

from validator.judging.outcomes import Check
from validator.judging.rules import Limit, Rule
from validator.measures.rows import Missing, NotKnown, Row, Why
from validator.measures.site import Site
from validator.measures.tracing import all_missing
from validator.plan.dimensions import LENGTH
from validator.plan.names import fold

FINE_LENGTH = 0.1
COARSE_LENGTH = 0.5
COARSE_FROM = 50.0


class Comparison(NamedTuple):
    """The checks of one rule on one row, or what is missing for them; `unread` are papers nobody has read yet.

    Where a limit is missing and the figure misses another, that one settles it: `checks` are those that fail.
    """

    checks: tuple[Check, ...]
    missing: tuple[Missing, ...] = ()
    unread: tuple[Missing, ...] = ()

    @property
    def failed(self) -> bool:
        return not all(check.ok for check in self.checks)

    def worse_than(self, other: Comparison) -> bool:
        return self._badness > other._badness

    @property
    def _badness(self) -> tuple[bool, bool, float]:
        return self.failed, bool(self.missing), max((check.short for check in self.checks), default=0.0)


class Need(NamedTuple):
    """A limit and whose it is."""

    value: float
    source: str = "rule"


class MakersFigures(NamedTuple):
    """What the makers' papers ask: figures, papers not read, figures whose start cannot be converted, and whether one
    was read that gives none.
    """

    given: list[Need]
    unread: tuple[Missing, ...]
    unclear: list[Missing]
    silent: bool


NO_PAPERS = MakersFigures([], (), [], silent=False)


def compare(rule: Rule, row: Row, site: Site) -> Comparison:
    """Compare a rule's figure with every limit that counts for the row."""
    if rule.holds is not None:
        try:
            holds = bool(rule.holds.evaluate(row, rule.names))
        except NotKnown as unknown:
            return Comparison((), unknown.missing)
        return Comparison((Check("holds", holds, True, holds, 0.0 if holds else 1.0),))
    missing: list[Missing] = []
    try:
        have = getattr(row, rule.figure)
    except NotKnown:
        have = None
        missing += all_missing(row, rule.figure)
    own, of_words, gaps = _own_limits(rule, row, site)
    makers = _stated(rule, row) if rule.stated else NO_PAPERS
    own_counts = _own_counts(makers, rule.of_law)
    missing += [*(gaps if own_counts else ()), *makers.unclear]
    if have is None:
        return Comparison((), tuple(missing), makers.unread)
    if isinstance(have, str):
        return Comparison(tuple(_word_check(have, limit) for limit in of_words))
    checks = []
    for bound in dict.fromkeys(limit.bound for limit in rule.limits):
        counting = makers.given + (own.get(bound, []) if own_counts else [])
        if counting:
            checks.append(_check(rule, bound, float(have), _strictest(bound, counting, float(have))))
    if missing:
        failing = tuple(check for check in checks if not check.ok)
        return Comparison(failing, () if failing else tuple(missing), makers.unread)
    return Comparison(tuple(checks), (), makers.unread)


def tolerance(rule: Rule, need: float) -> float:
    """How far a figure may miss its limit and still count as there; inches do not land on whole millimetres."""
    if rule.tolerance is not None:
        return rule.tolerance
    if rule.dimension is not None and rule.dimension.same_as(LENGTH):
        return COARSE_LENGTH if abs(need) >= COARSE_FROM else FINE_LENGTH
    return abs(need) * 1e-9


def _own_limits(rule: Rule, row: Row, site: Site) -> tuple[dict[str, list[Need]], list[Limit], list[Missing]]:
    needs: dict[str, list[Need]] = {}
    words: list[Limit] = []
    missing: list[Missing] = []
    for limit in rule.limits:
        if limit.words:
            words.append(limit)
            continue
        try:
            needs.setdefault(limit.bound, []).append(Need(_limit_value(limit, rule, row, site)))
        except NotKnown as unknown:
            missing += unknown.missing
    return needs, words, missing


def _limit_value(limit: Limit, rule: Rule, row: Row, site: Site) -> float:
    if limit.expression is not None:
        return float(limit.expression.evaluate(row, rule.names))
    wanted = limit.row
    if wanted is None:
        raise TypeError("a limit has neither an expression nor a table's row")
    table = site.library.table(wanted.table, site.country)
    if table is None:
        raise NotKnown(Missing(row.subject.pointer, wanted.table, Why.NO_TABLE_ROW, detail=site.country))
    by = {column: _read_all(row, field) for column, field in wanted.by.items()}
    found = table.find(wanted.gives, by)
    if found is None:
        said = ", ".join(
            f"{row.fields[field].label if field in row.fields else row.figures[field].label}: {_as_written(row, field)}"
            for field in wanted.by.values()
        )
        raise NotKnown(Missing(row.subject.pointer, table.title, Why.NO_TABLE_ROW, detail=said))
    return float(found.value)


def _read_all(row: Row, name: str) -> float | str:
    try:
        value: float | str = getattr(row, name)
    except NotKnown:
        raise NotKnown(*all_missing(row, name)) from None
    return value


def _as_written(row: Row, name: str) -> str:
    known = row.known.get(name)
    return known.text if known is not None and known.text else str(getattr(row, name))


def _stated(rule: Rule, row: Row) -> MakersFigures:
    given: list[Need] = []
    unread: list[Missing] = []
    unclear: list[Missing] = []
    silent = False
    for name in rule.stated:
        try:
            given.append(Need(float(getattr(row, name)), name))
        except NotKnown:
            missing = all_missing(row, name)
            reasons = {gap.why for gap in missing}
            if Why.NOTHING_STATED in reasons:
                silent = True
            elif Why.UNREAD in reasons:
                unread += [gap for gap in missing if gap.why is Why.UNREAD]
            elif name in row.fields and reasons <= {Why.LEFT_OUT, Why.TO_FIND}:
                unread += missing
            else:
                unclear += missing
    return MakersFigures(given, tuple(unread), unclear, silent)


def _own_counts(makers: MakersFigures, law: bool) -> bool:
    """Whether the rule's own limits count: where no maker gives a figure, for every maker who gives none, and by law.

    One whose figure cannot be converted gives one all the same.
    """
    return law or bool(makers.unread) or makers.silent or not (makers.given or makers.unclear)


def _strictest(bound: str, needs: list[Need], have: float) -> Need:
    match bound:
        case "at least":
            return max(needs, key=lambda need: need.value)
        case "at most":
            return min(needs, key=lambda need: need.value)
        case _:
            return max(needs, key=lambda need: abs(have - need.value))


def _check(rule: Rule, bound: str, have: float, need: Need) -> Check:
    slack = tolerance(rule, need.value)
    match bound:
        case "at least":
            return Check("at least", have, need.value, have >= need.value - slack, need.value - have, need.source)
        case "at most":
            return Check("at most", have, need.value, have <= need.value + slack, have - need.value, need.source)
        case _:
            apart = abs(have - need.value)
            return Check("equals", have, need.value, apart <= slack, apart, need.source)


def _word_check(have: str, limit: Limit) -> Check:
    ok = fold(have) in {fold(word) for word in limit.words}
    return Check("one of", have, " or ".join(limit.words), ok, 0.0 if ok else 1.0)
