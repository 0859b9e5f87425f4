"""`--form html`: the report as a page, with the same points as the other forms and the drawings of the plan."""

from __future__ import annotations

import pytest

from tests.reporting.plans import DAY, PLANS, judged, report_data
from tests.reporting.sheets.pages import Page
from validator.plan.problems import Place, Problem, Unreadable
from validator.reporting.html_form import of_plan, of_unreadable, whole


def page(*plans: str) -> Page:
    return Page(whole([of_plan(judged(plan), DAY) for plan in plans]))


@pytest.mark.parametrize("plan", PLANS)
def test_every_point_and_errand_of_the_report_stands_on_the_page(plan: str) -> None:
    made = page(plan)
    data = report_data(plan)
    verdict = "READY" if data["ready"] else "NOT READY"
    assert made.wrong == []
    assert made.all("h1")[0].startswith(f"{verdict}: ")
    headings = [text for text in made.all("h3") if text[0].isdigit()]
    assert [int(text.split(".")[0]) for text in headings] == [point["number"] for point in data["points"]]
    ids = {attributes.get("id") for _, attributes, _ in made.elements}
    assert {f"point-{errand['number']}" for errand in data["errands"]} <= ids


def test_a_point_says_what_to_do_as_every_form_does() -> None:
    said = page("weavers-row").text
    assert all(outcome["do this"] in said for outcome in report_data("weavers-row")["outcomes"] if "do this" in outcome)


@pytest.mark.parametrize("plan", PLANS)
def test_every_number_leads_to_its_point(plan: str) -> None:
    made = page(plan)
    ids = [attributes["id"] for _, attributes, _ in made.elements if "id" in attributes]
    assert len(ids) == len(set(ids))
    assert {(link["href"] or "")[1:] for link in made.attributes("a")} <= set(ids)


def test_the_drawings_have_a_title_and_stand_in_the_page() -> None:
    drawings = page("weavers-row").attributes("svg")
    assert len(drawings) >= 3
    assert all(drawing["role"] == "img" and drawing["aria-labelledby"] for drawing in drawings)


def test_several_plans_share_a_page_without_sharing_names() -> None:
    made = page("weavers-row", "tern-cottage", "weavers-row")
    ids = [attributes["id"] for _, attributes, _ in made.elements if "id" in attributes]
    assert len(ids) == len(set(ids))
    assert made.all("title")[0] == "3 plans"


def test_a_plan_that_cannot_be_read_says_what_to_mend() -> None:
    unreadable = Unreadable([Problem("`<b>` is no key", Place("kitchen.yaml", 3, 1), "walls")])
    made = Page(whole([of_unreadable(unreadable)]))
    assert made.all("h1") == ["CANNOT BE READ"]
    assert "kitchen.yaml, line 3: `<b>` is no key. Expected: walls." in made.text
