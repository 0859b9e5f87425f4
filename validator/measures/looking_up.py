"""Looking a value up in the tables of the rules, for measures."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from validator.measures.rows import Given, Known, Missing, Why

if TYPE_CHECKING:
    from validator.measures.site import Site


def looked_up(site: Site, table: str, gives: str, by: Mapping[str, float | str], pointer: str, label: str) -> Given:
    """A cell of a table of the plan's country, named with its source; a row the table lacks is not known."""
    found = site.library.table(table, site.country)
    cell = found.find(gives, by) if found is not None else None
    if found is None or cell is None:
        if not site.country:
            return Missing("/project/country", "country")
        where = f"no table «{table}» for {site.country}" if found is None else f"not in «{found.title}»"
        return Missing(pointer, label, Why.NO_TABLE_ROW, detail=where)
    number = float(cell.value)
    return Known(number, pointer, cell.text, label, low=number, high=number, note=f"from {cell.table}, {cell.source}")
