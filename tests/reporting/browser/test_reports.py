"""The report as a page in Chromium, with every drawing of the plan."""

from __future__ import annotations

import functools

import pytest

from tests.reporting.browser.pages import A4, LETTER, PHONE, SCREEN, Opened, torn
from tests.reporting.sheets.made import DAY, DEMOS, judged
from validator.reporting.html_form import of_plan, whole


@functools.cache
def report(plan: str) -> str:
    return whole([of_plan(judged(plan), DAY)])


@pytest.mark.parametrize("plan", [*DEMOS, "awkward"])
def test_a_report_fits_a_phone_and_the_browser_complains_of_nothing(plan: str, opened: Opened) -> None:
    opened.show(report(plan), PHONE)
    assert opened.sticking_out() == []
    assert opened.said == []


@pytest.mark.parametrize("plan", [*DEMOS, "awkward"])
def test_texts_of_its_drawings_keep_clear_of_each_other(plan: str, opened: Opened) -> None:
    opened.show(report(plan), SCREEN)
    assert opened.overlapping() == []


@pytest.mark.parametrize("plan", DEMOS)
def test_on_paper_nothing_is_cut_and_no_drawing_is_torn(plan: str, opened: Opened) -> None:
    opened.show(report(plan), LETTER if judged(plan).site.country.startswith("US") else A4, printed=True)
    assert opened.sticking_out() == []
    assert torn(opened.figures(), opened.printed()) == []


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_nobody_is_kept_from_reading_it(dark: bool, opened: Opened) -> None:
    opened.show(report("weavers-row"), SCREEN, dark=dark)
    assert opened.barriers() == []
