"""Pages taken apart by the parser of Python's library: what stands where, and what a browser would fetch or run."""

from __future__ import annotations

from html.parser import HTMLParser

VOID = frozenset({"meta", "br", "wbr", "link", "img", "input", "hr"})


class Page(HTMLParser):
    """The elements of a page with their texts; `wrong` are tags that do not close as they should."""

    def __init__(self, page: str) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: list[tuple[str, dict[str, str | None], list[str]]] = []
        self.wrong: list[str] = []
        self._open: list[int] = []
        self._at: list[str] = []
        self.feed(page)
        self.close()
        self.wrong += self._at

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs), []))
        if tag not in VOID:
            self._at.append(tag)
            self._open.append(len(self.elements) - 1)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs), []))

    def handle_endtag(self, tag: str) -> None:
        if self._at[-1:] == [tag]:
            self._at.pop()
            self._open.pop()
        else:
            self.wrong.append(f"</{tag}>")

    def handle_data(self, data: str) -> None:
        for number in self._open:
            self.elements[number][2].append(data)

    def all(self, *tags: str) -> list[str]:
        """The texts of the elements of these tags, in their order."""
        return [" ".join("".join(texts).split()) for tag, _, texts in self.elements if tag in tags]

    def attributes(self, tag: str) -> list[dict[str, str | None]]:
        return [attributes for each, attributes, _ in self.elements if each == tag]

    @property
    def text(self) -> str:
        """What a reader reads."""
        return " ".join(self.all("header", "main", "footer"))

    def rows(self) -> list[list[str]]:
        """The cells of every row of every table."""
        found: list[list[str]] = []
        for tag, _, texts in self.elements:
            if tag == "tr":
                found.append([])
            elif tag in ("td", "th") and found:
                found[-1].append(" ".join("".join(texts).split()))
        return found
