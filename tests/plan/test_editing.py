"""Changing one value of a file: exactly that value, everything else to the byte."""

from __future__ import annotations

import codecs
import json
from typing import Any

import pytest
import tomli_w
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.plan.same_data import has_one_name_twice, names, plans, scalars, values
from validator.plan.documents import Document
from validator.plan.editing import Change, WouldNotRead, as_text, change
from validator.plan.elements import Unfit
from validator.plan.files import read_document
from validator.plan.names import fold
from validator.plan.pointers import join, split
from validator.plan.quoting import Value

YAML = """\
project: {title: "Osier", built: 1968}   # once a mill
walls:
  # seen from above
  north: {made of: brick, length: [3804, 3801]}   # twice
  east:
    made of: 'block'
    note: |
      two
      lines

# the last part
coats:
- neat
- product: matt
  water: 10 %
points: {S1: low socket,
         S2: low socket  # in B2
        }
own: {}
"""
TOML = """\
dryfit = 1
"heights from" = 'bare floor'   # said once

[project]
built = 1968      # on the lintel
starts = 2026-06-01
heated = false

[walls.north]
"made of" = "brick"
length = [3804,
  3801]           # twice
[runs."sink run"]
order.B1 = {is = "door", width = 500}
[runs."sink run".legs]
"""
JSON = """\
{"dryfit": 1,
  "project": {"title": "Osier", "built": 1968, "heated": true},
  "walls": {
    "north": {"made of": "brick"},
    "east": {}
  }
}
"""


def changed(text: str, pointer: str, value: Value, file: str = "plan.yaml") -> Change:
    content = text.encode()
    return change(read_document(text, file), content, pointer, value)


def new_lines(text: str, pointer: str, value: Value, file: str = "plan.yaml") -> list[str]:
    """The lines of the new file that the old one has not, in their order."""
    old, new = text.splitlines(), as_text(changed(text, pointer, value, file).content).splitlines()
    start = next((at for at, pair in enumerate(zip(old, new, strict=False)) if pair[0] != pair[1]), len(old))
    end = next(at for at in range(len(new)) if at == len(old) - start or old[-1 - at] != new[-1 - at])
    assert old[:start] == new[:start]
    assert end == 0 or old[-end:] == new[-end:]
    return new[start : len(new) - end]


def refused(text: str, pointer: str, value: Value, file: str = "plan.yaml") -> str:
    with pytest.raises(Unfit) as caught:
        changed(text, pointer, value, file)
    return f"{caught.value} / {caught.value.expected}"


class TestYaml:
    @pytest.mark.parametrize(
        ("pointer", "value", "lines"),
        [
            ("/project/built", "1972", ['project: {title: "Osier", built: 1972}   # once a mill']),
            ("/Project/BUILT", "1972", ['project: {title: "Osier", built: 1972}   # once a mill']),
            ("/project/title", "Mill", ['project: {title: "Mill", built: 1968}   # once a mill']),
            ("/project/built", "10, or so", ['project: {title: "Osier", built: "10, or so"}   # once a mill']),
            ("/walls/east/made of", "Jo's", ["    made of: 'Jo''s'"]),
            ("/walls/east/note", "one line", ["    note: one line"]),
            ("/walls/east/note", "#1: one", ['    note: "#1: one"']),
            ("/walls/north/length/1", "3800", ["  north: {made of: brick, length: [3804, 3800]}   # twice"]),
            ("/walls/north/length", "3800", ["  north: {made of: brick, length: 3800}   # twice"]),
            ("/walls/north/length", ["1", "2"], ["  north: {made of: brick, length: [1, 2]}   # twice"]),
            ("/coats/0", "20 % water", ["- 20 % water"]),
            ("/points/S1", {"is": "low socket", "in": "B1"}, ["points: {S1: {is: low socket, in: B1},"]),
        ],
    )
    def test_a_value_is_put_in_place_of_the_old_one(self, pointer: str, value: Value, lines: list[str]) -> None:
        assert new_lines(YAML, pointer, value) == lines

    @pytest.mark.parametrize(
        ("pointer", "value", "lines"),
        [
            ("/project/currency", "GBP", ['project: {title: "Osier", built: 1968, currency: GBP}   # once a mill']),
            ("/walls/east/length", "3120", ["    length: 3120"]),
            ("/walls/south", {"made of": "block"}, ["  south: {made of: block}"]),
            ("/coats/1/note", "last", ["  note: last"]),
            ("/points/S3", "low socket", ["         S2: low socket,  # in B2", "         S3: low socket"]),
            ("/own/reach", "940", ["own: {reach: 940}"]),
            ("/circuits", "none", ["circuits: none"]),
        ],
    )
    def test_a_new_name_is_put_behind_its_neighbours_in_their_way(
        self, pointer: str, value: Value, lines: list[str]
    ) -> None:
        assert new_lines(YAML, pointer, value) == lines

    @pytest.mark.parametrize(
        ("pointer", "said"),
        [
            ("/walls/north", "holds several values, not one / `/walls/north/made of`, `/walls/north/length`"),
            ("/coats", "is a list in lines of its own / one entry at a time: `/coats/0` to `/coats/1`"),
            ("/coats/2", "has no entry 2"),
            ("/garden/up", "nothing stands at `/garden`"),
            ("/project/built/year", "`/project/built` is one value: `1968`"),
        ],
    )
    def test_what_is_not_one_value_is_refused(self, pointer: str, said: str) -> None:
        assert said in refused(YAML, pointer, "5")

    def test_a_change_says_what_was_there_and_in_which_line_it_stands(self) -> None:
        made = changed(YAML, "/Walls/east/MADE_OF", "brick")
        assert (made.pointer, made.old, made.new, made.line) == ("/walls/east/made of", "block", "brick", 6)
        assert changed(YAML, "/walls/east/up", "5").old is None

    @pytest.mark.parametrize(("text", "file"), [(YAML, "plan.yaml"), (TOML, "plan.toml"), (JSON, "plan.json")])
    def test_a_value_that_no_file_may_hold_is_refused_with_the_text_as_it_would_be(self, text: str, file: str) -> None:
        with pytest.raises(WouldNotRead) as caught:
            changed(text, "/project/built", "19\x0768", file)
        (problem,) = caught.value.problems
        assert problem.message == "an invisible character (U+0007)"
        assert "19\\u000768" in caught.value.text

    def test_a_file_without_a_last_line_end_gets_none(self) -> None:
        assert changed("a: 1", "/a", "2").content == b"a: 2"
        assert changed("a: 1", "/b", "2").content == b"a: 1\nb: 2"


class TestToml:
    @pytest.mark.parametrize(
        ("pointer", "value", "lines"),
        [
            ("/project/built", "1972", ["built = 1972      # on the lintel"]),
            ("/project/built", "about 1972", ['built = "about 1972"      # on the lintel']),
            ("/project/starts", "2026-07-01", ["starts = 2026-07-01"]),
            ("/project/heated", "true", ["heated = true"]),
            ("/heights from", "finished floor", ["\"heights from\" = 'finished floor'   # said once"]),
            ("/walls/north/made of", "600", ['"made of" = "600"']),
            ("/walls/north/length/1", "3800 assumed", ['  "3800 assumed"]           # twice']),
            ("/runs/sink run/order/B1/width", "450", ['order.B1 = {is = "door", width = 450}']),
            ("/runs/sink run/order/B1/hand", "left", ['order.B1 = {is = "door", width = 500, hand = "left"}']),
            ("/runs/sink run/order/B2", "door 500", ['order.B2 = "door 500"']),
            ("/runs/sink run/against", "north", ['against = "north"']),
            ("/runs/sink run/legs/setting", "145", ["setting = 145"]),
            ("/walls/north/angle to east", "90", ['"angle to east" = 90']),
            ("/circuits", "none", ['circuits = "none"']),
        ],
    )
    def test_a_value_is_changed_or_added_as_it_is_written_there(
        self, pointer: str, value: Value, lines: list[str]
    ) -> None:
        assert new_lines(TOML, pointer, value, "plan.toml") == lines

    def test_a_group_that_has_only_tables_below_it_is_left_alone(self) -> None:
        assert "has no lines of its own in this file" in refused(TOML, "/walls/south", "5", "plan.toml")

    @pytest.mark.parametrize(
        ("day", "line"), [("2026-01-31", "starts = 2026-01-31"), ("2026-02-30", 'starts = "2026-02-30"')]
    )
    def test_a_day_stands_without_quotes_and_one_that_there_is_not_as_a_text(self, day: str, line: str) -> None:
        assert new_lines(TOML, "/project/starts", day, "plan.toml") == [line]


class TestJson:
    @pytest.mark.parametrize(
        ("pointer", "value", "lines"),
        [
            ("/project/built", "1972", ['  "project": {"title": "Osier", "built": 1972, "heated": true},']),
            ("/project/title", "600", ['  "project": {"title": "600", "built": 1968, "heated": true},']),
            ("/project/heated", "no", ['  "project": {"title": "Osier", "built": 1968, "heated": "no"},']),
            ("/walls/north/length", ["1", "2 mm"], ['    "north": {"made of": "brick", "length": [1, "2 mm"]},']),
            ("/walls/east/up", "5", ['    "east": {"up": 5}']),
            ("/walls/south", {"up": "5"}, ['    "east": {},', '    "south": {"up": 5}']),
            ("/circuits", "none", ["  },", '  "circuits": "none"']),
        ],
    )
    def test_a_value_is_changed_or_added_as_it_is_written_there(
        self, pointer: str, value: Value, lines: list[str]
    ) -> None:
        assert new_lines(JSON, pointer, value, "plan.json") == lines


class TestBytes:
    @pytest.mark.parametrize("mark", [b"", codecs.BOM_UTF8])
    def test_line_ends_and_the_mark_at_the_start_stay(self, mark: bytes) -> None:
        content = mark + "a: 1\r\nb: ½  # x\r\nc:\r\n  d: 1\r\n".encode()
        document = read_document(as_text(content), "plan.yaml")
        assert change(document, content, "/b", "¾").content == mark + "a: 1\r\nb: ¾  # x\r\nc:\r\n  d: 1\r\n".encode()
        assert change(document, content, "/c/e", "2").content == content + b"  e: 2\r\n"

    def test_line_ends_of_two_sorts_stay_as_they_are(self) -> None:
        content = b"a: 1\nb: 2\r\nc: 3\n"
        document = read_document(as_text(content), "plan.yaml")
        assert change(document, content, "/c", "4").content == b"a: 1\nb: 2\r\nc: 4\n"

    @pytest.mark.parametrize("codec", ["utf-16-le", "utf-16-be"])
    def test_two_bytes_a_character_stay_two(self, codec: str) -> None:
        mark = codecs.BOM_UTF16_LE if codec == "utf-16-le" else codecs.BOM_UTF16_BE
        content = mark + "a: 1\r\nb: 😀\r\n".encode(codec)
        document = read_document(as_text(content), "plan.yaml")
        assert change(document, content, "/b", "5").content == mark + "a: 1\r\nb: 5\r\n".encode(codec)


def in_yaml(data: Any) -> str:
    return json.dumps(data, ensure_ascii=False, indent=1)


WRITERS = [("plan.yaml", in_yaml), ("plan.json", json.dumps), ("plan.toml", tomli_w.dumps)]


def with_value(data: Any, segments: list[str], value: str) -> Any:
    """The data with one value set, by an independent way: a copy changed in place."""
    copy = json.loads(json.dumps(data))
    node = copy
    for segment in segments[:-1]:
        node = node[int(segment) if isinstance(node, list) else segment]
    node[int(segments[-1]) if isinstance(node, list) else segments[-1]] = value
    return copy


def is_kept_around(document: Document, made: Change, old: str, pointer: str) -> bool:
    """Whether the new text is the old one but for what stands at the pointer."""
    before, after = document.span(pointer), made.after.span(pointer)
    assert before is not None
    assert after is not None
    return (
        old[: before.value_start.offset] == made.after.text[: after.value_start.offset]
        and old[before.value_end.offset :] == made.after.text[after.value_end.offset :]
    )


def added_if_it_can_be(document: Document, text: str, pointer: str, value: str) -> Change | None:
    """The change, or None where a group of TOML has only tables below it."""
    try:
        return change(document, text.encode(), pointer, value)
    except Unfit as unfit:
        if "has no lines of its own" in str(unfit):
            return None
        raise


class TestAnyData:
    @pytest.mark.parametrize(("file", "write"), WRITERS)
    @settings(max_examples=60, deadline=None)
    @given(data=plans.filter(lambda data: not has_one_name_twice(data)), value=values, draw=st.data())
    def test_any_value_of_any_plan_becomes_any_other_and_nothing_else_moves(
        self, file: str, write: Any, data: dict[str, Any], value: str, draw: st.DataObject
    ) -> None:
        assume(scalars(data))
        pointer = draw.draw(st.sampled_from([pointer for pointer, _ in scalars(data)]))
        text = write(data)
        document = read_document(text, file)
        made = change(document, text.encode(), pointer, value)
        assert made.after.data == with_value(data, split(pointer), value)
        assert is_kept_around(document, made, text, pointer)

    @pytest.mark.parametrize(("file", "write"), WRITERS)
    @settings(max_examples=60, deadline=None)
    @given(data=plans.filter(lambda data: not has_one_name_twice(data)), name=names, value=values, draw=st.data())
    def test_any_new_name_goes_into_any_group_that_has_lines_or_braces(
        self, file: str, write: Any, data: dict[str, Any], name: str, value: str, draw: st.DataObject
    ) -> None:
        groups = [""] + [
            pointer for pointer, _ in [(join("", key), inner) for key, inner in data.items() if isinstance(inner, dict)]
        ]
        around = draw.draw(st.sampled_from(groups))
        inner = data if not around else data[split(around)[0]]
        assume(fold(name) not in map(fold, inner))
        text = write(data)
        document = read_document(text, file)
        made = added_if_it_can_be(document, text, join(around, name), value)
        assert made is not None or file == "plan.toml"
        if made is not None:
            assert made.after.data == with_value(data, [*split(around), name], value)
            assert len(made.after.text) > len(text)
