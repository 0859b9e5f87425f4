"""Pages as a browser lays them out: what it complained of, what sticks out, where the ink of each text lies."""

from __future__ import annotations

import io
from typing import Any

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Dialog, Page
from pypdf import PdfReader
from shapely import STRtree, box
from shapely.geometry import Polygon

PHONE = 360
"""The width of a narrow phone in CSS pixels."""

SCREEN = 1024
MARGINS = 26
"""Left and right margins of a page on paper, in mm, as its style sets them."""

PIXELS = 96 / 25.4
"""CSS pixels in a mm (CSS Values and Units Level 4, 6.2)."""

A4 = (210 - MARGINS) * PIXELS
LETTER = (215.9 - MARGINS) * PIXELS
"""How wide a page is between its margins, in CSS pixels (ISO 216; ANSI Y14.1, size A)."""

STICKING_OUT = """() => {
  const wide = document.documentElement.clientWidth;
  const shown = element => element.getClientRects().length && getComputedStyle(element).clipPath === 'none';
  const hidden = element => element.closest('thead') && getComputedStyle(element.closest('thead')).clipPath !== 'none';
  return [...document.body.querySelectorAll('*')]
    .filter(element => shown(element) && !hidden(element) && !element.closest('svg'))
    .filter(element => {
      const box = element.getBoundingClientRect();
      return box.left < -0.5 || box.right > wide + 0.5 || element.scrollWidth > element.clientWidth + 1
        && getComputedStyle(element).display !== 'inline';
    })
    .map(element => `${element.tagName} ${element.textContent.trim().slice(0, 60)}`);
}"""

INK = """() => {
  const pen = document.createElement('canvas').getContext('2d');
  return [...document.querySelectorAll('svg')].map(svg => {
    const frame = svg.getBoundingClientRect();
    return {
      name: svg.querySelector('title').textContent,
      frame: [frame.left, frame.top, frame.right, frame.bottom],
      texts: [...svg.querySelectorAll('text')].filter(text => text.textContent.trim()).map(text => {
        const style = getComputedStyle(text), size = parseFloat(style.fontSize);
        pen.font = `${style.fontWeight} 100px ${style.fontFamily}`;
        const ink = pen.measureText(text.textContent), share = size / 100;
        const {x: left, width} = text.getBBox(), line = text.getStartPositionOfChar(0).y;
        const matrix = text.getScreenCTM();
        const high = ink.actualBoundingBoxAscent * share, deep = ink.actualBoundingBoxDescent * share;
        const corners = [[0, -high], [width, -high], [width, deep], [0, deep]].map(([x, y]) => {
          const corner = new DOMPoint(left + x, line + y).matrixTransform(matrix);
          return [corner.x, corner.y];
        });
        return {text: text.textContent, corners};
      }),
    };
  });
}"""

FIGURES = """() => [...document.querySelectorAll('svg')].map(
  svg => [...svg.querySelectorAll('text')].map(text => text.textContent))"""

HEADINGS = """() => [...document.querySelectorAll('h1, h2, h3, caption, thead tr')].map(
  heading => [...(heading.cells || [heading])].map(cell => cell.textContent).join(''))"""

ROWS = """() => [...document.querySelectorAll('tbody tr')].map(
  row => [...row.children].map(cell => cell.textContent.trim()))"""


class Opened:
    """A page of a browser; `said` is what its console, its scripts, dialogs and requests came to."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.said: list[str] = []
        page.on("console", lambda message: self.said.append(f"console: {message.text}"))
        page.on("pageerror", lambda error: self.said.append(f"error: {error}"))
        page.on("request", lambda request: self.said.append(f"request: {request.url[:80]}"))
        page.on("dialog", self._asked)

    def _asked(self, dialog: Dialog) -> None:
        self.said.append(f"dialog: {dialog.message}")
        dialog.dismiss()

    def show(self, html: str, width: float, *, printed: bool = False, dark: bool = False) -> None:
        """Lay the page out at a width in CSS pixels, as on a screen or as on paper."""
        self.page.emulate_media(media="print" if printed else "screen", color_scheme="dark" if dark else "light")
        self.page.set_viewport_size({"width": round(width), "height": 800})
        self.page.set_content(html)

    def sticking_out(self) -> list[str]:
        """The elements that reach beyond the page, or whose text reaches beyond them."""
        found: list[str] = self.page.evaluate(STICKING_OUT)
        return found

    def overlapping(self) -> list[str]:
        """The pairs of texts of a drawing whose ink meets, by the browser's own letters; and texts that are cut."""
        found: list[str] = []
        for drawing in self.page.evaluate(INK):
            shapes = [(text["text"], Polygon(text["corners"])) for text in drawing["texts"]]
            frame = box(*drawing["frame"]).buffer(0.5)
            found += [f"{drawing['name']}: {text} is cut" for text, shape in shapes if not frame.contains(shape)]
            tree = STRtree([shape for _, shape in shapes])
            for number, (text, shape) in enumerate(shapes):
                for other in sorted(int(near) for near in tree.query(shape)):
                    if number < other and shape.intersection(shapes[other][1]).area > 0.5:
                        found.append(f"{drawing['name']}: {text} on {shapes[other][0]}")
        return found

    def printed(self) -> list[str]:
        """The text of each page of paper, without white space."""
        data = self.page.pdf(prefer_css_page_size=True, print_background=True)
        return ["".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(data)).pages]

    def figures(self) -> list[list[str]]:
        """The texts of each drawing, without white space."""
        return [["".join(text.split()) for text in texts] for texts in self.page.evaluate(FIGURES)]

    def rows(self) -> list[list[str]]:
        """The cells of each row of each table, without white space."""
        return [["".join(cell.split()) for cell in row] for row in self.page.evaluate(ROWS)]

    def headings(self) -> list[str]:
        """What stands above something else, heads of tables too, without white space."""
        return ["".join(text.split()) for text in self.page.evaluate(HEADINGS)]

    def barriers(self) -> list[str]:
        """What keeps somebody from reading the page, by the rules of WCAG 2.2 A and AA that axe-core can judge.

        A drawing is one picture with a name and a description; what it is made of is not read.
        """
        levels = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
        options = {"runOnly": {"type": "tag", "values": levels}}
        found: dict[str, Any] = Axe().run(self.page, {"exclude": [["svg > *"]]}, options).response
        return [f"{each['id']}: {node['html'][:120]}" for each in found["violations"] for node in each["nodes"]]


def torn(figures: list[list[str]], pages: list[str]) -> list[list[str]]:
    """The texts of the drawings that do not stand on one page of paper as a whole."""
    return [texts for texts in figures if not any(all(text in page for text in texts) for page in pages)]
