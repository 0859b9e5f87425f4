"""Standing cautions for the work in a plan, with the signal words of ANSI Z535 in their own meaning."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Literal, NamedTuple, get_args

from validator.reference.countries import EVERYWHERE, read_covers
from validator.reference.documents import Citation, Document, read_citation

if TYPE_CHECKING:
    from validator.reference.entries import Entry

Signal = Literal["DANGER", "WARNING", "CAUTION", "NOTICE"]
SIGNALS: tuple[Signal, ...] = get_args(Signal)
KEYS = ("signal", "says", "for", "built before", "country", "heaviest", "source")


class Caution(NamedTuple):
    """A caution: what it says, the kinds of row for which it is printed (none: for all plans), and its limits.

    `built_before` keeps it to houses built earlier than that year, or of unknown age. `heaviest` is the kind of row and
    the figure by which the heaviest thing is named with it, empty for none.
    """

    name: str
    signal: Signal
    says: str
    kinds: tuple[str, ...]
    built_before: int | None
    covers: str
    heaviest: tuple[str, ...]
    source: Citation


def read_cautions(entry: Entry, documents: Mapping[str, Document]) -> tuple[Caution, ...]:
    """The cautions of `cautions.yaml`, gravest first."""
    found: list[Caution] = []
    for name, written in entry.items("cautions"):
        caution = _caution(name, written, documents)
        if caution is not None:
            found.append(caution)
    return tuple(sorted(found, key=lambda caution: SIGNALS.index(caution.signal)))


def _caution(name: str, entry: Entry, documents: Mapping[str, Document]) -> Caution | None:
    fields = entry.fields(f"the caution `{name}`", KEYS, ("signal", "says", "source"))
    if fields is None or not {"signal", "says", "source"} <= fields.keys():
        return None
    signal = fields["signal"].choice("signal", SIGNALS)
    says = fields["says"].text("says")
    source = read_citation(fields["source"], documents)
    covers = read_covers(fields["country"]) if "country" in fields else EVERYWHERE
    kinds = [member.text("a kind of row") for member in fields["for"].members("for")] if "for" in fields else []
    year = _year(fields["built before"]) if "built before" in fields else None
    weighed = fields["heaviest"].text("heaviest") if "heaviest" in fields else None
    heaviest = tuple(part.strip() for part in (weighed or "").split("/")) if weighed else ()
    if signal is None or says is None or source is None or covers is None:
        return None
    return Caution(name, signal, says, tuple(kind for kind in kinds if kind), year, covers, heaviest, source)


def _year(entry: Entry) -> int | None:
    written = entry.written or ""
    if written.isdecimal() and len(written) == 4:
        return int(written)
    entry.mistake("`built before` is a year", expected="built before: 2000")
    return None
