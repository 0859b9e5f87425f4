"""Reading one rule of a book: every name, dimension, table and source is checked here, before anything is judged."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from validator.judging.expressions import BadExpression, Expression, Scope, Template, read_template, scope_of
from validator.judging.limits import BOUNDS, LimitReader, expression, identifier, types_of
from validator.judging.rules import SEVERITIES, Book, Limit, Rule, Severity, Trial
from validator.measures.catalogue import MEASURES
from validator.measures.rows import NAME, YES_NO, FieldType, Known, Missing, Name, Row, YesNo
from validator.measures.site import row_class
from validator.plan.dimensions import Dimension, subtracted
from validator.plan.names import nearest
from validator.reference.documents import Citation, read_citation
from validator.reference.entries import Entry
from validator.reference.figures import read_figure
from validator.reference.library import Library

CHANGES = ("tightens", "replaces")
ASKS = ("title", "each", "when", "figure", *BOUNDS, "stated", "holds", "severity", "before", "because", "remedy")
RESTS = ("source", "tolerance", "tried", "note")
OF_A_BOOK = (*ASKS, *RESTS, "also called", *CHANGES)
OF_THE_HOUSEHOLD = (*ASKS, *RESTS)
NEEDED = ("title", "each", "severity", "before", "because", "remedy", "source")
TRIAL = ("plan", "vary", "met", "not met", "thing", "on")
NEEDED_TO_TRY = TRIAL[:4]
NO_TEXT = Template("", ())

PLAIN_NAME = re.compile(r"[a-z]+(-[a-z]+)*")
CODE = re.compile(r"[A-Za-z]{1,4}[-_ ]?\d+[A-Za-z]?|\d+", re.ASCII)


class Defaults(NamedTuple):
    """What a rule of the household's own is where it does not say."""

    severity: Severity
    before: str
    source: Citation
    because: str
    remedy: str
    remedy_without_figure: str


class OwnValue(NamedTuple):
    """A value of the household's own; its dimension is None while it is still to find out."""

    value: Known | Missing
    dimension: Dimension | None


@dataclass(frozen=True, slots=True)
class RuleReader:
    """Reads rules against a library.

    `tried` says that every rule has to name the plan it is tried in. `own` holds the
    household's own values by `own.name`, and `defaults` makes a rule a requirement of the household.
    """

    library: Library
    tried: bool = False
    own: Mapping[str, OwnValue] = field(default_factory=dict)
    defaults: Defaults | None = None
    _scopes: dict[tuple[str, FieldType | None, bool], Scope] = field(default_factory=dict, init=False, compare=False)

    def read(self, name: str, entry: Entry, book: Book) -> Rule | None:
        """The rule of this name; None after a mistake, which is noted on the entry's page."""
        before = len(entry.page.problems)
        self._check_name(name, entry)
        known, needed = (OF_THE_HOUSEHOLD, ("each",)) if self.defaults else (OF_A_BOOK, NEEDED)
        fields = entry.fields(f"the rule `{name}`", known, needed)
        if fields is None:
            return None
        kind = fields["each"].choice("each", tuple(MEASURES)) if "each" in fields else None
        demand = _Demand(self, entry, fields, row_class(kind)).read() if kind else None
        severity = self._severity(fields)
        stage = self._stage(fields)
        source = self._source(fields)
        title, because = self._text(fields, "title", name), self._text(fields, "because")
        aliases = self._aliases(fields)
        tried = self._tried(name, entry, fields)
        changes = self._changes(fields)
        if severity == "stop" and source is not None and demand is not None:
            self._rests_on_more_than_memory(fields, source, demand.limits)
        if len(entry.page.problems) > before or not (kind and demand and severity and source):
            return None
        return Rule(
            name=name,
            title=title,
            book=book.title,
            covers=book.covers,
            each=kind,
            severity=severity,
            before=stage,
            because=because,
            remedy=demand.remedy,
            source=source,
            place=entry.page.place_of_key(entry.pointer),
            when=demand.when,
            figure=demand.figure,
            dimension=demand.dimension,
            limits=demand.limits,
            holds=demand.holds,
            stated=demand.stated,
            tolerance=demand.tolerance,
            measured=demand.measured,
            aliases=aliases,
            tried=tried,
            changes=changes,
            own={key: self.own[key].value for key in demand.own},
        )

    def scope(self, row: type[Row], figure: FieldType | None, *, remedy: bool = False) -> Scope:
        """What names mean in a rule about such a row and figure: those of the row, of the household's own, and in a
        remedy also have, need and short.

        An own value that is still to find out is taken to be of the figure's dimension, the only one it could be
        compared in.
        """
        key = row.kind, figure, remedy
        if key not in self._scopes:
            extra: dict[str, FieldType] = {}
            if remedy and isinstance(figure, Dimension):
                extra = {"have": figure, "need": figure, "short": _difference(figure)}
            elif remedy and figure is not None:
                extra = {"have": NAME, "need": NAME}
            for name, own in self.own.items():
                dimension = own.dimension or figure
                if isinstance(dimension, Dimension):
                    extra[name] = dimension
            self._scopes[key] = scope_of(row, self.library.groups, extra)
        return self._scopes[key]

    def _check_name(self, name: str, entry: Entry) -> None:
        if self.defaults:
            if any(CODE.fullmatch(word) for word in (name, *name.split())):
                entry.mistake(
                    f"`{name}` is a code, not a name", expected="plain words that say what is asked", at="key"
                )
        elif not PLAIN_NAME.fullmatch(name):
            entry.mistake(
                f"a rule cannot be called `{name}`",
                expected="plain words in small letters, joined by hyphens, no figures: wall-unit-fixing-depth",
                at="key",
            )

    def _text(self, fields: Mapping[str, Entry], key: str, otherwise: str = "") -> str:
        if key not in fields:
            return self.defaults.because if self.defaults and key == "because" else otherwise
        text = fields[key].text(key) or ""
        if "{" in text or "}" in text:
            fields[key].mistake(f"{key} is the same for every plan: no braces", expected="figures stand in `remedy`")
        return text

    def _severity(self, fields: Mapping[str, Entry]) -> Severity | None:
        if "severity" in fields:
            return fields["severity"].choice("severity", SEVERITIES)
        return self.defaults.severity if self.defaults else None

    def _stage(self, fields: Mapping[str, Entry]) -> str:
        if "before" in fields:
            return fields["before"].choice("before", tuple(self.library.stages)) or ""
        return self.defaults.before if self.defaults else ""

    def _source(self, fields: Mapping[str, Entry]) -> Citation | None:
        if "source" in fields:
            return read_citation(fields["source"], self.library.documents)
        return self.defaults.source if self.defaults else None

    def _aliases(self, fields: Mapping[str, Entry]) -> tuple[str, ...]:
        if "also called" not in fields:
            return ()
        members = fields["also called"].members("also_called")
        return tuple(text for member in members if (text := member.text("an old name")) is not None)

    def _changes(self, fields: Mapping[str, Entry]) -> dict[str, str]:
        given = {key: fields[key] for key in CHANGES if key in fields}
        if len(given) > 1:
            given["replaces"].mistake("a rule tightens another or replaces it, not both", at="key")
        return {key: entry.text(f"why it {key}") or "" for key, entry in given.items()}

    def _tried(self, name: str, entry: Entry, fields: Mapping[str, Entry]) -> tuple[Trial, ...]:
        if "tried" not in fields:
            if self.tried:
                entry.mistake(
                    f"the rule `{name}` has no `tried`: it is needed in a book of ours",
                    expected="tried: {plan: …, vary: …, met: …, not_met: …}",
                    at="key",
                )
            return ()
        tried = fields["tried"]
        trials = (self._trial(trial) for trial in (tried.members("tried") if tried.is_list else [tried]))
        return tuple(trial for trial in trials if trial is not None)

    def _trial(self, entry: Entry) -> Trial | None:
        fields = entry.fields("a trial", TRIAL, NEEDED_TO_TRY)
        if fields is None or any(key not in fields for key in NEEDED_TO_TRY):
            return None
        texts = {key: fields[key].text(key) or "" for key in ("plan", "vary", "thing", "on") if key in fields}
        if texts["vary"] and not texts["vary"].startswith("/"):
            fields["vary"].mistake(f"`{texts['vary']}` is no place in a plan", expected="/appliances/hood/up")
        met, not_met = fields["met"].value, fields["not met"].value
        return Trial(texts["plan"], texts["vary"], met, not_met, texts.get("thing", ""), texts.get("on", ""))

    def _rests_on_more_than_memory(
        self, fields: Mapping[str, Entry], source: Citation, limits: Iterable[Limit]
    ) -> None:
        severity = fields.get("severity", fields["each"])
        if source.seen == "memory":
            severity.mistake(
                f"a `stop` may not rest on memory, and nobody has seen `{source.document}`",
                expected="a source that was seen, or a milder severity",
            )
        for limit in limits:
            for table in self.library.tables.get(limit.row.table, ()) if limit.row else ():
                if table.source.seen == "memory":
                    severity.mistake(
                        f"a `stop` may not rest on memory, as the table `{table.name}` for {table.covers} does",
                        expected="a table whose source was seen, or a milder severity",
                        also=(table.place,),
                    )


@dataclass(slots=True)
class _Demand:
    """What a rule asks, read against the row it is asked of."""

    reader: RuleReader
    entry: Entry
    fields: Mapping[str, Entry]
    row: type[Row]
    figure: str = ""
    type: FieldType | None = None
    limits: tuple[Limit, ...] = ()
    holds: Expression | None = None
    when: Expression | None = None
    stated: tuple[str, ...] = ()
    tolerance: float | None = None
    remedy: Template = NO_TEXT
    own: frozenset[str] = frozenset()

    @property
    def dimension(self) -> Dimension | None:
        return self.type if isinstance(self.type, Dimension) else None

    @property
    def measured(self) -> str:
        """From where to where the figure is measured, where it is a length that has ends."""
        figure = self.row.figures.get(self.figure)
        return f"from {figure.start} to {figure.end}" if figure is not None and figure.start and figure.end else ""

    def read(self) -> _Demand | None:
        """The whole of it; None where the figure has a mistake, without which nothing else can be checked."""
        fields = self.fields
        if "figure" in fields:
            self.type = self._figure(fields["figure"])
            if self.type is None:
                return None
        scope = self.reader.scope(self.row, self.type)
        if "when" in fields:
            self.when = expression(fields["when"], scope, YES_NO)
        self._ask(scope)
        self.stated = self._stated()
        if "tolerance" in fields:
            self.tolerance = self._tolerance(fields["tolerance"])
        self.remedy = self._remedy()
        self.own = self._own_values()
        return self

    def _figure(self, entry: Entry) -> FieldType | None:
        text = entry.text("figure")
        if text is None:
            return None
        self.figure = identifier(text)
        types = types_of(self.row)
        usable = [name for name, type in types.items() if not isinstance(type, YesNo | Name)]
        type = types.get(self.figure)
        if type is None:
            listed = self.row.fields.get(self.figure)
            of_row = f"of a row of {self.row.kind!r}"
            entry.mistake(
                f"`{text}` {of_row} is a list: a figure has to make one value of it"
                if listed
                else f"`{text}` is neither a figure nor a field {of_row}",
                expected=", ".join(usable),
                near=None if listed else nearest(self.figure, usable),
            )
        elif self.figure not in usable:
            entry.mistake(
                f"`{text}` is {'yes or no' if isinstance(type, YesNo) else 'a name'}: it has no limit",
                expected="holds: in place of figure" if isinstance(type, YesNo) else ", ".join(usable),
            )
            return None
        return type

    def _ask(self, scope: Scope) -> None:
        """A figure with its limits, or a condition that holds."""
        bounds = [bound for bound in BOUNDS if bound in self.fields]
        holds = self.fields.get("holds")
        if holds is not None:
            for key in ("figure", *bounds, "stated", "tolerance"):
                if key in self.fields:
                    self.fields[key].mistake("`holds` stands in place of a figure and its limits", at="key")
            self.holds = expression(holds, scope, YES_NO)
        elif self.type is None:
            for bound in bounds:
                self.fields[bound].mistake(f"`{bound}` of which figure?", expected="figure: …", at="key")
            if not bounds:
                self.entry.mistake("the rule asks for nothing", expected="figure with a limit, or holds", at="key")
        elif not bounds:
            self.fields["figure"].mistake("the figure has no limit", expected=", ".join(BOUNDS))
        else:
            self.limits = LimitReader(self.reader.library, scope, self.row, self.type).read(self.fields)

    def _stated(self) -> tuple[str, ...]:
        found: list[str] = []
        types = types_of(self.row)
        for member in self.fields["stated"].members("stated") if "stated" in self.fields else ():
            text = member.text("stated") or ""
            name = identifier(text)
            alike = [key for key, type in types.items() if isinstance(type, Dimension) and _same(type, self.dimension)]
            if name in alike and name != self.figure:
                found.append(name)
            elif name in types:
                member.mistake(f"`{text}` cannot be compared with the figure", expected=", ".join(alike))
            else:
                member.mistake(
                    f"a row of {self.row.kind!r} has no `{text}`", expected=", ".join(alike), near=nearest(name, alike)
                )
        return tuple(found)

    def _tolerance(self, entry: Entry) -> float | None:
        if self.dimension is None:
            entry.mistake("only a figure that is a number has a tolerance", at="key")
            return None
        tolerance = read_figure(entry, _difference(self.dimension))
        if tolerance is not None and tolerance < 0:
            entry.mistake("a tolerance is not less than 0")
        return tolerance

    def _remedy(self) -> Template:
        entry, defaults = self.fields.get("remedy"), self.reader.defaults
        if entry is None and defaults is not None:
            text: str | None = defaults.remedy_without_figure if self.holds else defaults.remedy
            entry = self.entry
        else:
            text = entry.text("remedy") if entry is not None else None
        if text is None or entry is None:
            return NO_TEXT
        try:
            return read_template(text, self.reader.scope(self.row, self.type, remedy=True))
        except BadExpression as bad:
            entry.mistake(bad.message, near=bad.nearest, offset=bad.offset)
            return NO_TEXT

    def _own_values(self) -> frozenset[str]:
        expressions = [self.when, self.holds, *(limit.expression for limit in self.limits)]
        expressions += [piece for piece in self.remedy.pieces if isinstance(piece, Expression)]
        read = frozenset(name for found in expressions if found is not None for name in found.reads)
        return read & self.reader.own.keys()


def _difference(dimension: Dimension) -> Dimension:
    return subtracted(dimension, dimension) if dimension.point else dimension


def _same(left: Dimension, right: Dimension | None) -> bool:
    return right is not None and left.same_as(right)
