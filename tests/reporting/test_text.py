"""The report as people read it: what stands in it and where, in their words and units, within 80 columns."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.reporting.plans import DATA, DAY, PLANS, judged, report_data
from validator.commands.inspecting import Inspector
from validator.judging.apply import Judgement
from validator.plan.files import read_plan
from validator.reporting.columns import OBEYED, columns
from validator.reporting.style import Style
from validator.reporting.text import MOST_IN_FULL, report

PLAIN = Style(plain=True)
HEADING = re.compile(r"^ ?(?P<number>\d+) \[ \] (?P<severity>STOP|put right|improve|note)(  | )(?P<title>\S.*)$")
WEAVERS = (PLANS["weavers-row"] / "plan.yaml").read_text("utf-8")


INSPECTOR = Inspector((), DAY)
"""Reads the books once for all plans."""


def inspected(plan: Path) -> Judgement:
    return INSPECTOR.inspect(read_plan([str(plan)], bytes))


def text_of(plan: str) -> str:
    return report(judged(plan), DAY, PLAIN)


def sections(text: str) -> dict[str, list[str]]:
    """The lines below each heading in capitals, by the heading."""
    found: dict[str, list[str]] = {"": []}
    heading = ""
    for line in text.splitlines():
        if re.fullmatch(r"[A-Z][A-Z :,\-]+[A-Z]", line):
            heading = line
            found[heading] = []
        found[heading].append(line)
    return found


def points(text: str) -> dict[int, list[str]]:
    """The lines of each point and errand, by its number."""
    found: dict[int, list[str]] = {}
    number = 0
    for line in text.splitlines():
        if heading := HEADING.match(line):
            number = int(heading["number"])
            found[number] = []
        elif not line.startswith(" ") or not line.strip():
            number = number if not line.strip() else 0
        if number:
            found[number].append(line)
    return found


def flat(lines: list[str]) -> str:
    return " ".join(" ".join(lines).split())


class TestOrder:
    def test_the_verdict_stands_first_and_last(self) -> None:
        lines = text_of("weavers-row").splitlines()
        assert lines[4] == "NOT READY."
        assert lines[-1].startswith("NOT READY.")
        assert lines[-1].endswith("this is nobody's approval.")

    def test_each_stage_is_answered_with_what_stands_in_its_way(self) -> None:
        data = report_data("weavers-row")
        answers = text_of("weavers-row").split("What stands in the way\n")[1].split("\n\n")[0].splitlines()
        said = {line[3:32].strip(): line[32:43].strip() for line in answers if line[3:32].strip()}
        assert list(said.values()) == ["yes" if stage["ready"] else "not yet" for stage in data["stages"]]

    def test_points_stand_under_the_stage_before_which_they_are_settled(self) -> None:
        data = report_data("weavers-row")
        stage_of = {outcome["rule"]: outcome["before"] for outcome in data["outcomes"]}
        for heading, lines in sections(text_of("weavers-row")).items():
            for number in points("\n".join(lines)):
                if heading.startswith("BEFORE "):
                    assert f"BEFORE {stage_of[data['points'][number - 1]['rule']].upper()}" == heading

    def test_numbers_run_on_from_one_without_a_gap(self) -> None:
        found = list(points(text_of("weavers-row")))
        assert found == list(range(1, len(found) + 1))

    def test_what_is_not_known_comes_after_what_is_wrong(self) -> None:
        text = text_of("awkward")
        wrong = len(report_data("awkward")["points"])
        unknown = points("\n".join(sections(text)["NOT KNOWN: FIND THESE OUT"]))
        assert min(unknown) == wrong + 1


class TestPoints:
    def test_a_point_says_what_there_is_what_it_needs_by_how_much_and_what_to_do(self) -> None:
        for number, lines in points(text_of("weavers-row")).items():
            if number <= len(report_data("weavers-row")["points"]):
                labels = {line[7:18].strip() for line in lines[1:] if line.startswith(" " * 7)}
                assert {"do this", "rests on"} <= labels
                assert "have" in labels or any(re.match(r" {7}where +have +need", line) for line in lines)

    def test_figures_agree_with_the_form_for_machines(self) -> None:
        """Have, need and by how much of every point, as the JSON gives them for its outcomes."""
        data = report_data("weavers-row")
        text = points(text_of("weavers-row"))
        compared = 0
        for point in data["points"]:
            of_point = [o for o in data["outcomes"] if o["rule"] == point["rule"] and o["result"] == "not met"]
            assert [outcome["thing"] for outcome in of_point] == point["at"]
            said = flat(text[point["number"]])
            for outcome in of_point:
                shown = [check["shown"] for check in outcome["checks"] if not check["ok"] and "shown" in check]
                values = [value for of_check in shown[:1] for value in of_check.values()]
                assert [value for value in values if value.removeprefix("−") not in said] == []
                compared += len(values)
        assert compared > 15

    def test_several_places_make_a_table_with_a_line_each(self) -> None:
        data = report_data("weavers-row")
        several = [point for point in data["points"] if len(point["at"]) > 1]
        assert several
        for point in several:
            lines = points(text_of("weavers-row"))[point["number"]]
            assert f"{len(point['at'])} places" in flat(lines[:2])
            (head,) = [at for at, line in enumerate(lines) if re.match(r" {7}where +have +need", line)]
            for thing, line in zip(point["at"], lines[head + 1 :], strict=False):
                assert line.startswith(f"       {thing} ")

    def test_a_point_names_the_lines_of_the_plan(self) -> None:
        lines = WEAVERS.splitlines()
        data = report_data("weavers-row")
        for point in data["points"]:
            rests_on = flat(points(text_of("weavers-row"))[point["number"]]).split("rests on")[1]
            numbers = [int(number) for number in re.findall(r"\d+", re.split(r"\blines? (?=\d)", rests_on)[-1])]
            assert numbers
            assert all(1 <= number <= len(lines) for number in numbers)
            assert all(lines[number - 1].split("#")[0].strip() for number in numbers)

    def test_what_moves_other_points_says_which(self) -> None:
        moved = [line for line in text_of("weavers-row").splitlines() if line.startswith("       moves")]
        count = len(report_data("weavers-row")["points"])
        assert moved
        for line in moved:
            found = re.match(r" +moves +points? ([\d, ]+) too", line)
            assert found is not None
            assert all(1 <= int(number) <= count for number in found[1].split(","))


class TestErrands:
    def test_an_errand_says_where_the_answer_goes_and_which_rules_wait(self) -> None:
        data = report_data("awkward")
        text = points(text_of("awkward"))
        in_full = len(data["errands"]) <= MOST_IN_FULL
        assert data["errands"]
        for errand in data["errands"]:
            said = flat(text[errand["number"]])
            assert " for " in said or not in_full
            assert "answer at" in said
            if errand["who"]:
                assert errand["who"] in said


@pytest.fixture(scope="module")
def loft() -> str:
    return report(inspected(DATA / "net_loft.yaml"), DAY, PLAIN)


class TestWords:
    def test_americans_read_their_own_words(self, loft: str) -> None:
        assert "cabinets" in loft
        assert "countertop" in loft
        own_names = loft.replace("wall units", "")
        assert not re.search(r"\b(worktops?|units?|plasterboard|hob|tap)\b", own_names, re.IGNORECASE)

    def test_lengths_are_in_inches_and_sixteenths(self, loft: str) -> None:
        assert "35-13/16" in loft  # 34-1/2 + 1-5/16
        assert "34-1/2 cabinet + 1-5/16 bench top" in loft
        assert "2-3/8" in loft  # 38-3/16 − 35-13/16
        assert "2 long − 3/4 rail − 1/2 drywall" in loft
        fractions = re.findall(r"\b\d+/(\d+)\b", loft)
        assert set(fractions) <= {"2", "4", "8", "16"}
        assert not re.search(r"\d mm\b", loft)

    def test_the_british_read_theirs(self) -> None:
        text = text_of("weavers-row")
        assert "worktop" in text
        assert not re.search(r"\b(countertops?|cabinets?|drywall|faucet)\b", text)


HOSTILE = {
    "200 letters": "x" * 200,
    "many words": "word " * 39 + "word",
    "umlauts": "Küchenzeile Öde größte",
    "emoji": "🍳🔥" * 30,
    "right to left": "مطبخ كبير " * 12 + "جدا",
    "wide": "流し台" * 30,
    "marks": "e\u0301" * 90,
    "markup": "<script>alert(1)</script>",
    "turned": "pan\u202eknip\u2066",
}
NAMES = {
    "unit": "B2",
    "point": "S2",
    "run": "window run",
    "wall": "north",
    "task": "connect gas",
    "appliance": "washing machine",
    "title": "Weavers Row, number 14",
    "coating": "old walls",
    "fixing": "rail",
    "requirement": "worktop for standing work",
}


def renamed(what: str, kind: str) -> str:
    """The demo plan with a name replaced where it is said and wherever it is meant."""
    return re.sub(rf"(?<![\w-]){re.escape(NAMES[what])}(?![\w-])", lambda _: HOSTILE[kind].strip(), WEAVERS)


class TestNames:
    @pytest.mark.parametrize("what", sorted(NAMES))
    @pytest.mark.parametrize("kind", sorted(HOSTILE))
    def test_no_name_breaks_a_line_or_steers_a_terminal(self, kind: str, what: str, tmp_path: Path) -> None:
        """Every name of the demo plan that a report prints, replaced by one that is hard to print, in both forms."""
        plan = tmp_path / "plan.yaml"
        plan.write_text(renamed(what, kind), "utf-8")
        found = inspected(plan)
        for style in (PLAIN, Style(plain=False)):
            for line in without_style(report(found, DAY, style)).splitlines():
                assert columns(line) <= 80
                assert not OBEYED.search(line)

    def test_a_long_name_is_printed_whole_somewhere(self, tmp_path: Path) -> None:
        plan = tmp_path / "plan.yaml"
        plan.write_text(renamed("unit", "200 letters"), "utf-8")
        text = report(inspected(plan), DAY, PLAIN)
        assert "x" * 200 in "".join(text.split())


def without_style(text: str) -> str:
    return re.sub(r"\x1b\[(0|1|36|1;35)m", "", text)


@pytest.mark.parametrize("title", ["%s %(a)d {} {0}", "back\\\\slash", "$HOME `ls`"])
def test_signs_of_a_formatting_language_are_printed_as_they_stand(title: str, tmp_path: Path) -> None:
    plan = tmp_path / "plan.yaml"
    plan.write_text(WEAVERS.replace("Weavers Row, number 14", title), "utf-8")
    assert title.replace("\\\\", "\\") in report(inspected(plan), DAY, PLAIN)


IN_INCHES = """\
dryfit: 1
heights from: bare floor
project: {title: Mud room, country: US-VT, lengths in: in}
layers: {partition: [drywall 1/2, stud 3-1/2, drywall 1/2]}
walls: {north: {made of: partition, length: 84}, east: {length: 60}, south: {length: 84}, west: {length: 60}}
kinds: {wall: {height: 30, depth: 12, hangers: {down: 1-1/2, in: 1-1/2}}}
runs: {upper: {against: north, underside: 54, order: {W1: wall 30 left}}}
points: {R1: {is: double socket, wall: north, along: 26 from west, up: 44, plate: 4-1/2 x 4-1/2, cable: straight up}}
"""


def test_a_remedy_in_inches_is_rounded_to_the_side_that_cures(tmp_path: Path) -> None:
    """From the middle of the plate to the right hanger are 28-1/2 - 26 = 2-1/2 in, 1/4 past its edge, where 50 mm are
    wanted: 50 / 25.4 - 1/4 = 1.7185 in, which is more than the nearest sixteenth, 1-11/16."""
    (tmp_path / "plan.yaml").write_text(IN_INCHES, "utf-8")
    assert "Move the hole 1-3/4 in further from the point R1" in report(inspected(tmp_path / "plan.yaml"), DAY, PLAIN)
