"""A figure in a book: one number, always with its unit."""

from __future__ import annotations

from validator.plan.dimensions import LENGTH, Dimension
from validator.plan.quantities import BadQuantity, parse_quantity
from validator.plan.values import Quantity
from validator.reference.entries import Entry


def read_figure(entry: Entry, dimension: Dimension) -> float | None:
    """The figure written here, in base units of the dimension; None after a mistake. A bare number is no length."""
    text = entry.text(f"a {dimension.name}")
    if text is None:
        return None
    if dimension is LENGTH and text.replace(".", "").isdecimal():
        entry.mistake(f"`{text}` has no unit", expected=f"{text} mm, {text} in, …")
        return None
    try:
        read = parse_quantity(text, dimension, None)
    except BadQuantity as bad:
        entry.mistake(bad.message, expected=bad.expected, near=bad.nearest)
        return None
    if not isinstance(read, Quantity) or not read.exact or read.assumed:
        entry.mistake(f"`{text}` is not one figure: a book says what it knows, and leaves out the rest")
        return None
    return read.low
