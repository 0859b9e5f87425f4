"""How far a beam bends: span or overhang, of a rectangular section, on plain numbers and on traced ones alike.

Formulas of American Wood Council, Design Aid 6, figures 1, 7, 12 and 13. A spread load is a pressure on the face of the
beam; a load at one place bends a strip of a given width.
"""

from __future__ import annotations


def spread_on_span(pressure: float, span: float, stiffness: float, thickness: float) -> float:
    """The middle of a span under a spread load, held at both ends and free to turn: 5 w L⁴ / 384 E I."""
    return 5 * pressure * span * span * span * span / (384 * stiffness * _inertia(thickness))


def at_middle_of_span(force: float, span: float, stiffness: float, width: float, thickness: float) -> float:
    """The middle of a span under a force there: P L³ / 48 E I."""
    return force * span * span * span / (48 * stiffness * width * _inertia(thickness))


def spread_on_overhang(pressure: float, overhang: float, stiffness: float, thickness: float) -> float:
    """The free edge of an overhang under a spread load: w L⁴ / 8 E I."""
    return pressure * overhang * overhang * overhang * overhang / (8 * stiffness * _inertia(thickness))


def at_edge_of_overhang(force: float, overhang: float, stiffness: float, width: float, thickness: float) -> float:
    """The free edge of an overhang under a force there: P L³ / 3 E I."""
    return force * overhang * overhang * overhang / (3 * stiffness * width * _inertia(thickness))


def _inertia(thickness: float) -> float:
    """The second moment of area of a rectangle for each unit of its width: h³ / 12."""
    return thickness * thickness * thickness / 12
