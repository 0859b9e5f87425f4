"""Finding the value somebody means, by its pointer or in words."""

from __future__ import annotations

import pytest

from validator.plan.elements import Unfit
from validator.plan.load import SECTIONS
from validator.plan.paths import InOneLine, find
from validator.plan.yaml_reader import read_yaml

LAYOUT = """\
dryfit: 1
heights from: bare floor
walls: {north: {made of: brick, length: [3804, 3801]}, east: {length: 3120}}
runs:
  sink run: {against: north, order: {B1: door 500 left, B2: {is: door, width: 600}}}
stated:
  hob: {read: p. 4, hood above: none}
appliances:
  hood: {up: 1600, width: 598}
  hob: {width: 590}
receptacles: {S1: double socket over B1}
"""
JOB = """\
dryfit: 1
heights from: bare floor
people: {electrician: {trade: electrical}}
work: {paint: {takes: 2 days}}
"""
DOCUMENTS = [read_yaml(LAYOUT, "layout.yaml"), read_yaml(JOB, "job.yaml")]


def found(path: str) -> tuple[str, str, bool]:
    target = find(DOCUMENTS, path, SECTIONS)
    return target.document.file, target.pointer, target.there


def refused(path: str) -> Unfit:
    with pytest.raises(Unfit) as caught:
        find(DOCUMENTS, path, SECTIONS)
    return caught.value


@pytest.mark.parametrize(
    ("path", "pointer"),
    [
        ("/appliances/hood/up", "/appliances/hood/up"),
        ("/Appliances/HOOD/up", "/appliances/hood/up"),
        ("appliances / hood / up", "/appliances/hood/up"),
        ("appliances hood up", "/appliances/hood/up"),
        ("hood up", "/appliances/hood/up"),
        ("up", "/appliances/hood/up"),
        ("sink_run against", "/runs/sink run/against"),
        ("sink run B2 width", "/runs/sink run/order/B2/width"),
        ("B1", "/runs/sink run/order/B1"),
        ("/walls/north/length/1", "/walls/north/length/1"),
        ("hood above", "/stated/hob/hood above"),
        ("/receptacles/S1", "/receptacles/S1"),
        ("points S1", "/receptacles/S1"),
        ("/points/S1", "/receptacles/S1"),
    ],
)
def test_a_value_is_found_by_its_pointer_or_by_the_words_that_lead_to_it(path: str, pointer: str) -> None:
    assert found(path) == ("layout.yaml", pointer, True)


@pytest.mark.parametrize(
    ("path", "file", "pointer"),
    [
        ("/appliances/hood/power", "layout.yaml", "/appliances/hood/power"),
        ("hood power", "layout.yaml", "/appliances/hood/power"),
        ("electrician looked up", "job.yaml", "/people/electrician/looked up"),
        ("/walls/south", "layout.yaml", "/walls/south"),
        ("circuits", "layout.yaml", "/circuits"),
        ("/coatings", "layout.yaml", "/coatings"),
        ("built", "job.yaml", "/built"),
    ],
)
def test_a_name_that_is_not_there_yet_goes_where_it_belongs(path: str, file: str, pointer: str) -> None:
    assert found(path) == (file, pointer, False)


@pytest.mark.parametrize(
    ("path", "said", "nearest"),
    [
        ("hod up", "there is no «hod up»", "hood up"),
        ("hob widht", "there is no «hob widht»", "hob width"),
        ("chimney", "there is no «chimney» in the plan", ""),
    ],
)
def test_words_that_lead_nowhere_are_told_with_the_nearest(path: str, said: str, nearest: str) -> None:
    unfit = refused(path)
    assert said in str(unfit)
    assert unfit.nearest == nearest


@pytest.mark.parametrize(
    ("path", "said", "nearest"),
    [
        ("/appliances/hoood/up", "nothing stands at `/appliances/hoood`", "/appliances/hood/up"),
        ("/aplliances/hood/up", "nothing stands at `/aplliances`", "/appliances/hood/up"),
        ("/pepole", "nothing stands at `/pepole`", "/people"),
        ("/walls/north/length/7/x", "nothing stands at `/walls/north/length/7`", ""),
    ],
)
def test_a_pointer_that_leads_nowhere_is_told_with_the_nearest(path: str, said: str, nearest: str) -> None:
    unfit = refused(path)
    assert said in str(unfit)
    assert unfit.nearest == nearest


@pytest.mark.parametrize(
    ("path", "choices"),
    [
        ("width", "one of `/runs/sink run/order/B2/width`, `/appliances/hood/width`, `/appliances/hob/width`"),
        ("hob", "one of `/stated/hob`, `/appliances/hob`"),
        ("hob power", "one of `/stated/hob/power`, `/appliances/hob/power`, if it is to be added"),
    ],
)
def test_words_that_may_mean_several_values_are_told_with_all_of_them(path: str, choices: str) -> None:
    assert refused(path).expected == choices


@pytest.mark.parametrize("path", ["B1 height", "/runs/sink run/order/B1/height", "sink run B1 height"])
def test_what_is_below_a_thing_in_one_line_is_told_with_that_line(path: str) -> None:
    with pytest.raises(InOneLine) as caught:
        find(DOCUMENTS, path, SECTIONS)
    assert (caught.value.pointer, caught.value.line) == ("/runs/sink run/order/B1", "door 500 left")
    assert caught.value.key == "height"


def test_what_every_file_says_of_itself_cannot_be_changed_for_all() -> None:
    assert "`/heights from` stands in several files: layout.yaml, job.yaml" in str(refused("/heights from"))


def test_no_path_is_told() -> None:
    assert str(refused("  ")) == "no value is named"
