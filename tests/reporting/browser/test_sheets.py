"""Every sheet of every demo plan in Chromium: on a phone, on paper, in the dark, and read by a machine."""

from __future__ import annotations

import pytest

from tests.reporting.browser.pages import A4, LETTER, PHONE, SCREEN, Opened, torn
from tests.reporting.sheets.made import DEMOS, TRADES, html, judged

EVERY = [(plan, trade) for plan in DEMOS for trade in TRADES]
HOSTILE = [("awkward", trade) for trade in TRADES]
"""A plan whose names are markup, emoji, written from the right, or very long."""


@pytest.mark.parametrize(("plan", "trade"), EVERY + HOSTILE)
def test_a_sheet_fits_a_phone_and_the_browser_complains_of_nothing(plan: str, trade: str, opened: Opened) -> None:
    opened.show(html(plan, trade), PHONE)
    assert opened.sticking_out() == []
    assert opened.said == []


@pytest.mark.parametrize("trade", ["electrician", "worktop maker", "joiner"])
@pytest.mark.parametrize("plan", [*DEMOS, "awkward"])
def test_texts_of_drawings_keep_clear_of_each_other(plan: str, trade: str, opened: Opened) -> None:
    opened.show(html(plan, trade), SCREEN)
    assert opened.overlapping() == []


@pytest.mark.parametrize(("plan", "trade"), EVERY)
def test_on_paper_nothing_is_cut_and_no_drawing_or_row_is_torn(plan: str, trade: str, opened: Opened) -> None:
    american = judged(plan).site.country.startswith("US")
    opened.show(html(plan, trade), LETTER if american else A4, printed=True)
    assert opened.sticking_out() == []
    pages = opened.printed()
    assert torn(opened.figures(), pages) == []
    assert [row for row in opened.rows() if not any("".join(row) in page for page in pages)] == []
    assert [heading for heading in opened.headings() if any(page.endswith(heading) for page in pages)] == []
    assert "Whoiswho" in pages[-1]  # whoever signs signs below what it is about
    assert all(f"page{number}of{len(pages)}" in page for number, page in enumerate(pages, 1))


@pytest.mark.parametrize(("plan", "trade"), HOSTILE)
def test_names_that_are_markup_are_printed_as_they_are_written(plan: str, trade: str, opened: Opened) -> None:
    opened.show(html(plan, trade), A4, printed=True)
    assert opened.sticking_out() == []
    assert any("</title>#1.]]>" in page for page in opened.printed())


@pytest.mark.parametrize("plan", DEMOS)
def test_nobody_is_kept_from_reading_it(plan: str, opened: Opened) -> None:
    opened.show(html(plan, "electrician"), SCREEN)
    assert opened.barriers() == []


@pytest.mark.parametrize("trade", ["worktop maker", "joiner"])
def test_nobody_is_kept_from_reading_it_in_the_dark(trade: str, opened: Opened) -> None:
    opened.show(html("weavers-row", trade), SCREEN, dark=True)
    assert opened.barriers() == []
