"""The sheet of each trade of each demo plan: what it holds, and that it stands by itself."""

from __future__ import annotations

import itertools
import re

import pytest

from tests.reporting.sheets.made import DEMOS, TRADES, html, page, sheet, sheets
from validator.measures.catalogue import MEASURES
from validator.measures.site import row_class
from validator.plan.sections.appliances import Appliance
from validator.reporting.sheets.tables import Table

EVERY = [(plan, trade) for plan in DEMOS for trade in TRADES]
LARGEST = 400_000


@pytest.mark.parametrize(("plan", "trade"), EVERY)
def test_a_sheet_is_one_page_that_needs_nothing_else(plan: str, trade: str) -> None:
    made = page(plan, trade)
    assert made.wrong == []
    assert len(html(plan, trade).encode()) < LARGEST
    assert {"script", "link", "img", "iframe", "object", "embed", "form"}.isdisjoint(tag for tag, _, _ in made.elements)
    fetched = [
        value for _, attributes, _ in made.elements for key, value in attributes.items() if key in ("src", "href")
    ]
    assert all(value is not None and value.startswith("#") for value in fetched)
    assert "url(" not in html(plan, trade)
    assert "@import" not in html(plan, trade)


@pytest.mark.parametrize(("plan", "trade"), EVERY)
def test_whoever_cannot_see_it_finds_the_way(plan: str, trade: str) -> None:
    made = page(plan, trade)
    (root,) = made.attributes("html")
    assert root["lang"] in ("en-GB", "en-US")
    assert made.all("title")[0].startswith(made.all("h1")[0].split(" (")[0])
    assert len(made.all("main")) == len(made.all("header")) == len(made.all("footer")) == 1
    levels = [int(tag[1]) for tag, _, _ in made.elements if re.fullmatch("h[1-6]", tag)]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in itertools.pairwise(levels))
    assert all(attributes.get("scope") in ("col", "row") for attributes in made.attributes("th"))
    ids = [attributes["id"] for _, attributes, _ in made.elements if "id" in attributes]
    assert len(ids) == len(set(ids))
    named = [attributes["aria-labelledby"] for _, attributes, _ in made.elements if "aria-labelledby" in attributes]
    assert {name for names in named for name in (names or "").split()} <= set(ids)


@pytest.mark.parametrize(("plan", "trade"), EVERY)
def test_every_sheet_says_whether_to_start_what_may_hurt_and_what_to_leave(plan: str, trade: str) -> None:
    headings = page(plan, trade).all("h2")
    for heading in ("May you start?", "Before the first tool", "Heights", "When you come, ready?"):
        assert heading in headings
    assert "When you go, leave with us" in headings
    assert "signed" in page(plan, trade).text
    assert sheet(plan, trade).digest[:9] in page(plan, trade).text


def test_the_electrician_can_set_out_every_point_from_a_named_wall_and_the_bare_floor() -> None:
    rows = page("weavers-row", "electrician").rows()
    heads = next(row for row in rows if row[:2] == ["name", "what"])
    assert heads[2:4] == ["middle, from west, at your left", "middle, up from the bare floor"]
    assert ["S1", "double socket, plate 146 x 86", "720", "1056"] in [row[:4] for row in rows]
    assert ["C1", "cooker outlet, plate 86 x 86", "929", "400"] in [row[:4] for row in rows]
    assert "15 above the bare floor, laid after units" in page("weavers-row", "electrician").text


def test_a_place_says_what_it_may_move_by_and_what_has_to_move() -> None:
    said = page("weavers-row", "electrician").text
    assert "room to move: 0 (Room for plug and flex above the worktop), 65 (Socket well away from the sink)" in said
    assert "is open" in said


def test_what_is_measured_already_stands_in_the_place_to_write_on() -> None:
    made = page("tern-cottage", "electrician")
    row = next(row for row in made.rows() if row[0] == "S1")
    assert row[-2:] == ["made; the layout follows it", "807 from west, 1061 up, 12 October 2026"]


def test_open_points_of_a_trade_are_told_with_what_to_do_and_others_by_their_number() -> None:
    made = page("weavers-row", "electrician")
    assert "NOT READY for first fix. In your part: " in made.text
    assert "STOP: Cable large enough for its device" in made.text
    assert "Do this: Ask the electrician for a larger cable" in made.text
    assert "Embedment of the fixings" not in made.text


def test_a_figure_stands_with_its_working() -> None:
    figures = {(figure.thing, figure.label): figure for figure in sheet("tern-cottage", "electrician").worked}
    assert figures["kitchen ring", "design current"].value == "10.87 A"
    assert figures["kitchen ring", "design current"].sums[0].startswith("(200 W hood + 200 W fridge freezer")


def test_an_agreed_departure_says_who_and_why() -> None:
    said = page("tern-cottage", "electrician").text
    assert (
        "Socket well away from the sink, S2, north wall: «further along it would come behind the kettle shelf»" in said
    )


def test_what_is_not_known_is_asked_under_the_plans_own_key() -> None:
    assert "survey / consumer unit / ways free:" in page("tern-cottage", "electrician").text
    assert "survey / panel / spaces free:" in page("cedar-street", "electrician").text


def test_what_a_piece_of_worktop_cannot_be_cut_without_is_asked() -> None:
    made = page("weavers-row", "worktop maker")
    assert next(row for row in made.rows() if row[0] == "hob top")[2] == "not known"
    assert "worktops / hob top / past end:" in made.text


def test_an_american_plan_has_american_words_inches_and_letter_paper() -> None:
    made = page("cedar-street", "worktop maker")
    assert made.all("h1") == ["Countertop maker"]
    assert "Lengths in inches" in made.text
    assert "size: letter" in html("cedar-street", "worktop maker")
    assert "size: A4" in html("tern-cottage", "worktop maker")


def test_the_same_input_gives_the_same_bytes() -> None:
    once = html("tern-cottage", "plumber")
    html.cache_clear()
    sheet.cache_clear()
    assert html("tern-cottage", "plumber") == once


def test_prices_stand_on_it_only_where_they_are_asked_for() -> None:
    assert "3400" not in page("cedar-street", "electrician").text


def test_a_name_is_text_whatever_it_holds() -> None:
    for trade in TRADES:
        made = page("awkward", trade)
        assert made.wrong == []
        assert "script" not in [tag for tag, _, _ in made.elements]
        assert made.all("title")[0].endswith("<details>, issue A")
    assert any("<script>alert(1)</script>" in row[0] for row in page("awkward", "electrician").rows())


def test_whatever_a_trade_reads_exists() -> None:
    words = {"what", "feeds", "circuit", "cable", "moves", "done", "context", "unit"}
    for trade in sheets().trades.values():
        kinds = {*trade.about, *trade.own, *trade.needed, *trade.figures}
        assert kinds <= MEASURES.keys(), trade.name
        for kind, names in trade.figures.items():
            assert set(names) <= row_class(kind).figures.keys(), (trade.name, kind)
        for schedule in trade.schedules:
            if schedule.each:
                row = row_class(schedule.each)
                assert set(schedule.columns) <= {*row.fields, *row.figures, *words}, schedule.title
        assert set(trade.needs) <= Appliance.model_fields.keys(), trade.name


def test_tables_of_a_wall_go_from_left_to_right() -> None:
    tables: list[Table] = [table for table in sheet("tern-cottage", "electrician").tables if table.wall == "north"]
    places = [line.along for line in tables[0].lines]
    assert places == sorted(places)


def test_gaps_of_a_floor_stand_in_one_table_and_call_for_no_wall() -> None:
    edges = [table for table in sheet("tern-cottage", "floor layer").tables if table.title == "Gap at each edge"]
    assert [table.wall for table in edges] == [""]
    assert len(edges[0].lines) == 5
    drawn = {drawing["aria-labelledby"] for drawing in page("tern-cottage", "floor layer").attributes("svg")}
    assert drawn == {"floor-plan-room-title floor-plan-room-desc"}
