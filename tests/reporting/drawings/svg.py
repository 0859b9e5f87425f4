"""Reading drawings back: the things they show in mm of the room, and the texts with the room these take."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import combinations
from xml.etree import ElementTree

from shapely import Polygon
from shapely.affinity import rotate

from validator.reporting.drawings.canvas import Drawing
from validator.reporting.drawings.lettering import Lettering

SVG = "{http://www.w3.org/2000/svg}"


def read(drawing: Drawing) -> ElementTree.Element:
    """The drawing as XML; raises ParseError where it is none."""
    return ElementTree.fromstring(drawing.svg())


def texts(drawing: Drawing) -> list[str]:
    return ["".join(each.itertext()) for each in read(drawing).iter(f"{SVG}text")]


def rectangle(drawing: Drawing, of: str) -> tuple[float, float, float, float]:
    """The rectangle of a thing in mm of the room: left, low, right, high; a tenth of a mm is what the SVG can tell."""
    root = read(drawing)
    scale = float(root.attrib["data-scale"])
    x0, y0 = map(float, root.attrib["data-origin"].split())
    (path,) = [each for each in root.iter(f"{SVG}path") if each.get("data-of") == of]
    points = [tuple(map(float, each.split())) for each in re.findall(r"[ML]([-\d. ]+)", path.attrib["d"])]
    xs, ys = [(x - x0) * scale for x, _ in points], [(y0 - y) * scale for _, y in points]
    return round(min(xs), 1), round(min(ys), 1), round(max(xs), 1), round(max(ys), 1)


def kinds(drawing: Drawing, of: str) -> set[str]:
    """The kinds of line by which a thing is drawn."""
    groups = [each for each in read(drawing).iter(f"{SVG}g") if each.get("data-kind")]
    return {group.attrib["data-kind"] for group in groups for path in group if path.get("data-of") == of}


def overlapping(drawing: Drawing) -> Iterator[tuple[str, str]]:
    """The pairs of texts that lie on one another, by the most room that they take."""
    boxes = [(each.text, polygon(each)) for each in drawing.letterings]
    for (one, first), (other, second) in combinations(boxes, 2):
        if first.intersection(second).area > 0.01:
            yield one, other


def polygon(lettering: Lettering) -> Polygon:
    """The rectangle that a text takes, turned as it stands."""
    left, top, right, bottom = lettering._replace(angle=0.0).box
    flat = Polygon([(left, top), (right, top), (right, bottom), (left, bottom)])
    return rotate(flat, lettering.angle, (lettering.x, lettering.y))
