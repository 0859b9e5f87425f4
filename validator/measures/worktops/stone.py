"""Worktops of stone, whose dust hurts whoever cuts them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.rows import TERM, Known, LeftOut, Missing, Row, Rows, Subject, Words, given
from validator.plan.names import fold

if TYPE_CHECKING:
    from validator.measures.site import Site


class StoneWorktop(Row, kind="stone worktop"):
    """A worktop of natural or engineered stone, and where it is cut."""

    material: str = given(TERM, "material of the worktop")
    cut: str = given(
        Words(("in the workshop", "wet on site", "with extraction on site", "dry on site")), "where and how it is cut"
    )


def stone_worktops(site: Site) -> Rows:
    """A row for each worktop of stone; one of which nobody knows what it is made of may be stone."""
    plan = site.plan
    if plan.worktops.left_out:
        return Rows(left_out=[LeftOut(StoneWorktop.kind, Missing("/worktops", "worktops"))])
    rows = Rows()
    for name, top in plan.worktops.items():
        material = reading.word(top.material, top.pointer_to("material"), f"material of {name}")
        if isinstance(material, Missing):
            rows.left_out.append(LeftOut(StoneWorktop.kind, material))
        elif isinstance(material, Known) and fold(str(material.value)) in site.library.groups["stone_worktops"]:
            cut = reading.word(top.cut, top.pointer_to("cut"), f"where {name} is cut")
            rows.rows.append(StoneWorktop(Subject(name, top.pointer), material=material, cut=cut))
    return rows
