"""The files of a plan put together: sections that go on, names that stand once, and the place of everything."""

from __future__ import annotations

import pytest

from validator.plan.merging import Merged, merge
from validator.plan.problems import Place, Problem, Unreadable
from validator.plan.yaml_reader import read_yaml

SURVEY = "dryfit: 1\nheights from: bare floor\nwalls:\n  quay: {length: 4310}\nceiling: 2400\n"
LAYOUT = "dryfit: 1\nWalls:\n  yard wall: {length: 2950}\nruns:\n  long run:\n    order: {U1: door 450}\n"


def merged(**files: str) -> Merged:
    return merge([read_yaml(text, f"{name}.yaml") for name, text in files.items()])


def problems_of(**files: str) -> list[Problem]:
    with pytest.raises(Unreadable) as caught:
        merged(**files)
    return caught.value.problems


class TestMerging:
    def test_a_section_goes_on_in_another_file(self) -> None:
        plan = merged(survey=SURVEY, layout=LAYOUT)
        assert plan.data == {
            "walls": {"quay": {"length": "4310"}, "yard wall": {"length": "2950"}},
            "ceiling": "2400",
            "runs": {"long run": {"order": {"U1": "door 450"}}},
        }
        assert plan.files == ("survey.yaml", "layout.yaml")

    @pytest.mark.parametrize(
        ("pointer", "file", "line", "column"),
        [
            ("/walls/quay/length", "survey.yaml", 4, 18),
            ("/walls/yard_wall/length", "layout.yaml", 3, 23),
            ("/runs/long run", "layout.yaml", 5, 3),
            ("/runs/long run/order/U1/height", "layout.yaml", 6, 17),
            ("/runs/long run/legs", "layout.yaml", 5, 3),
            ("/circuits/ring", "survey.yaml", 0, 0),
        ],
    )
    def test_a_place_is_that_of_the_value_or_of_the_nearest_thing_around(
        self, pointer: str, file: str, line: int, column: int
    ) -> None:
        plan = merged(survey=SURVEY, layout=LAYOUT)
        assert plan.place(pointer) == Place(file, line, column)
        assert plan.file_of(pointer) == file

    def test_a_value_can_be_had_as_it_stands_in_its_file(self) -> None:
        plan = merged(survey=SURVEY, layout=LAYOUT.replace("door 450", "'door  450'"))
        assert plan.written("/runs/long run/order/U1") == "'door  450'"
        assert plan.written("/runs/long run/legs") is None
        span = plan.span("/walls/yard wall/length")
        assert span is not None
        assert (span.value_start.line, span.value_start.column, span.value_end.column) == (3, 23, 27)

    def test_a_name_twice_shows_both_places(self) -> None:
        (problem,) = problems_of(survey=SURVEY, layout=LAYOUT.replace("yard wall", "Quay"))
        assert problem.message == "`Quay` is already in survey.yaml, line 4"
        assert problem.place == Place("layout.yaml", 3, 3)
        assert problem.also == (Place("survey.yaml", 4, 3),)

    @pytest.mark.parametrize("second", ["ceiling: 2410\n", "ceiling: {flat: 2410}\n", "walls: none\n", "walls: [1]\n"])
    def test_a_section_that_is_no_list_of_names_stands_in_one_file(self, second: str) -> None:
        (problem,) = problems_of(survey=SURVEY, layout="dryfit: 1\n" + second)
        assert problem.place == Place("layout.yaml", 2, 1)
        assert problem.expected.endswith("in one file")
        assert [place.file for place in problem.also] == ["survey.yaml"]

    def test_each_file_says_what_its_heights_start_from(self) -> None:
        plan = merged(survey=SURVEY, layout=LAYOUT, job="dryfit: 1\nheights_from: Finished-Floor\n")
        assert [plan.heights_from(file) for file in plan.files] == ["bare floor", "", "finished floor"]

    @pytest.mark.parametrize(("said", "nearest"), [("bare flor", "bare floor"), ("worktop", ""), ("[1, 2]", "")])
    def test_heights_start_from_a_floor(self, said: str, nearest: str) -> None:
        (problem,) = problems_of(survey=f"dryfit: 1\nheights from: {said}\n")
        assert problem.message == "heights cannot start from this"
        assert problem.expected == "`bare floor` or `finished floor`"
        assert (problem.nearest, problem.place) == (nearest, Place("survey.yaml", 2, 15))

    @pytest.mark.parametrize("version", ["2", "1.0", "one", "[1]"])
    def test_a_version_nobody_knows_is_refused(self, version: str) -> None:
        (problem,) = problems_of(survey=f"dryfit: {version}\n")
        assert problem.message == f"`dryfit: {version}` is a version that cannot be read"
        assert (problem.expected, problem.place) == ("`dryfit: 1`", Place("survey.yaml", 1, 9))

    def test_a_file_without_a_version_is_refused(self) -> None:
        (problem,) = problems_of(survey=SURVEY, layout="runs: {}\n")
        assert problem.place == Place("layout.yaml")
        assert problem.expected == "`dryfit: 1` as its first line"

    def test_a_misspelt_version_is_recognised(self) -> None:
        (problem,) = problems_of(survey="dryfitt: 1\n")
        assert (problem.nearest, problem.place) == ("dryfit", Place("survey.yaml", 1, 1))

    def test_the_digest_is_that_of_the_text_and_not_of_its_line_ends(self) -> None:
        plan = merged(survey=SURVEY, layout=LAYOUT)
        assert merged(survey=SURVEY.replace("\n", "\r\n"), layout="\ufeff" + LAYOUT).digest == plan.digest
        assert merged(survey=SURVEY, layout=LAYOUT.replace("450", "451")).digest != plan.digest
        assert len(plan.digest) == 64
