"""The documents that rules and tables rest on, registered once in `sources.yaml`, and how one is cited."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Literal, NamedTuple, get_args

from validator.plan.names import fold, nearest
from validator.plan.problems import Place

if TYPE_CHECKING:
    from validator.reference.entries import Entry

Standing = Literal[
    "law",
    "official guidance",
    "standard",
    "trade guidance",
    "maker",
    "household",
    "common practice",
]
STANDINGS: tuple[Standing, ...] = get_args(Standing)

Seen = Literal["primary", "secondary", "memory"]
SEEN: tuple[Seen, ...] = get_args(Seen)
"""How a document was seen, the best first: in itself, on a page that reports it, or known and not found."""

COMMON_PRACTICE: Standing = "common practice"


class Document(NamedTuple):
    """A registered document: its title, edition, standing, and how it was seen."""

    name: str
    title: str
    edition: str
    standing: Standing
    seen: Seen
    place: Place


class Citation(NamedTuple):
    """What a rule or a table rests on. `document` is its name in sources.yaml ('' for common practice and the
    household's own rules).
    """

    document: str
    title: str
    edition: str
    clause: str
    standing: Standing
    seen: Literal["primary", "secondary", "memory", ""]
    note: str = ""

    def __str__(self) -> str:
        """`BS 6172, 2010, clause 8.1` or `common practice`."""
        if not self.title:
            return self.standing
        return ", ".join(part for part in (self.title, self.edition, self.clause) if part)


def read_documents(entry: Entry) -> dict[str, Document]:
    """The documents of `sources.yaml`, by the name that rules and tables cite them by."""
    documents: dict[str, Document] = {}
    for name, written in entry.items("sources"):
        known = ("title", "edition", "standing", "seen", "note")
        fields = written.fields(f"the document `{name}`", known, ("title", "standing", "seen"))
        if fields is None:
            continue
        title = fields["title"].text("title") if "title" in fields else None
        edition = fields["edition"].text("edition") if "edition" in fields else ""
        standing = fields["standing"].choice("standing", STANDINGS) if "standing" in fields else None
        seen = fields["seen"].choice("seen", SEEN) if "seen" in fields else None
        if title and edition is not None and standing and seen:
            documents[name] = Document(name, title, edition, standing, seen, written.place)
    return documents


def read_citation(entry: Entry, documents: Mapping[str, Document]) -> Citation | None:
    """`common practice`, or `{document: bs-6172, edition: …, clause: …, seen: secondary}`; None after a mistake.

    `edition` and `seen` are the document's where the citation does not say. A citation cannot have been seen better
    than its document.
    """
    if not entry.is_mapping:
        return _practice(entry)
    known = ("document", "edition", "clause", "seen", "note", "standing")
    fields = entry.fields("a source", known, ("document",))
    if fields is None or "document" not in fields:
        return None
    if "standing" in fields:
        fields["standing"].mistake(
            "the standing of a source is its document's", expected="standing said once, in sources.yaml", at="key"
        )
    name = fields["document"].text("document")
    edition, clause, note = (fields[key].text(key) if key in fields else "" for key in ("edition", "clause", "note"))
    if name is None or edition is None or clause is None or note is None:
        return None
    document = documents.get(name)
    if document is None:
        fields["document"].mistake(
            f"no document `{name}` is registered in sources.yaml",
            expected="a name from sources.yaml, or `common practice` in place of a document",
            near=nearest(name, documents),
        )
        return None
    seen = fields["seen"].choice("seen", SEEN) if "seen" in fields else document.seen
    if seen is None:
        return None
    if SEEN.index(seen) < SEEN.index(document.seen):
        fields["seen"].mistake(
            f"`{name}` is registered as seen {document.seen}: what it says cannot have been seen {seen}",
            expected=f"seen: {document.seen}",
            also=(document.place,),
        )
    return Citation(name, document.title, edition or document.edition, clause, document.standing, seen, note)


def _practice(entry: Entry) -> Citation | None:
    written = entry.text("source")
    if written is None:
        return None
    if fold(written) == COMMON_PRACTICE:
        return Citation("", "", "", "", COMMON_PRACTICE, "")
    entry.mistake(
        f"a source cannot be `{written}`",
        expected="common practice, or {document: a name from sources.yaml, clause: …}",
    )
    return None
