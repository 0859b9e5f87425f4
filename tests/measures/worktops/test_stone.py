"""Which worktops are of stone, and where they are cut."""

from __future__ import annotations

import pytest

from tests.measures.plans import left_out, row, rows, to_find

RUN = "walls: {n: {length: 3000}}\nkinds: {base: {height: 720}}\nruns: {r: {against: n, order: {B1: base 600}}}\n"


@pytest.mark.parametrize("material", ["granite", "Quartz", "sintered stone"])
def test_stone_is_told_by_its_name(material: str) -> None:
    found = row(f"{RUN}worktops: {{t: {{on: r, material: {material}, cut: in the workshop}}}}", "stone worktop")
    assert (found.material, found.cut) == (material, "in the workshop")


def test_laminate_makes_no_dust_of_stone() -> None:
    assert rows(f"{RUN}worktops: {{t: {{on: r, material: laminate}}}}", "stone worktop") == []


def test_a_worktop_of_which_nobody_says_the_material_may_be_stone() -> None:
    assert left_out(f"{RUN}worktops: {{t: {{on: r}}}}", "stone worktop") == ["/worktops/t/material"]


def test_where_stone_is_cut_has_to_be_said() -> None:
    found = row(f"{RUN}worktops: {{t: {{on: r, material: granite}}}}", "stone worktop")
    assert to_find(found, "cut") == {"/worktops/t/cut"}
