"""The report as Markdown, read back by a general reader of CommonMark with tables and addresses (markdown-it-py).

What hosts of repositories make of `@name`, `#12`, `GH-12` and `:sign:` in plain text is common knowledge, from memory.
"""

from __future__ import annotations

import functools
import itertools
import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from markdown_it import MarkdownIt
from markdown_it.token import Token

from tests.reporting.plans import DAY, PLANS, WASTE, judged, many_times, printed, report_data, unreadable
from validator.commands.inspecting import inspect
from validator.commands.main import main
from validator.plan.problems import Place, Problem, Unreadable
from validator.reporting import markdown
from validator.reporting.markdown_text import plain

INVISIBLE = str.maketrans("", "", "\u2060\u2068\u2069")
READ_INTO_TEXT = re.compile(r"@[A-Za-z0-9]|#\d|\bGH-\d|:[\w+-]+:|https?://|www\.")


@functools.cache
def comment(*plans: str) -> str:
    return markdown.whole([markdown.of_plan(judged(plan), DAY) for plan in plans])


def of_file(file: Path) -> str:
    return markdown.whole([markdown.of_plan(inspect(str(file), (), DAY), DAY)])


@functools.cache
def reader() -> MarkdownIt:
    return MarkdownIt("gfm-like", {"html": True})


def read(text: str) -> list[Token]:
    """The tokens of a text, those inside lines after the line they are in."""
    return [token for block in reader().parse(text) for token in (block, *(block.children or ()))]


def shown(text: str) -> str:
    """What a reader of the comment sees, with nothing invisible in it."""
    return "\n".join(line for _, line in lines(text)).translate(INVISIBLE)


def headings(text: str, tag: str) -> list[str]:
    return [line.translate(INVISIBLE) for block, line in lines(text) if block == tag]


def lines(text: str) -> Iterator[tuple[str, str]]:
    """The lines of text with the block that each is in."""
    blocks = reader().parse(text)
    for around, block in itertools.pairwise(blocks):
        if block.type == "inline":
            yield (
                around.tag,
                "".join("\n" if part.type == "softbreak" else part.content for part in block.children or ()),
            )


def test_the_verdict_comes_first() -> None:
    assert comment("weavers-row").startswith("## NOT READY: Weavers Row, number 14\n\n15 points are wrong")
    assert comment("tern-cottage").startswith("## READY: Tern Cottage\n")


@pytest.mark.parametrize("plan", PLANS)
def test_every_stage_has_its_line_in_the_table(plan: str) -> None:
    lines = comment(plan).splitlines()
    start = lines.index("| May I now |  | What stands in the way |")
    answers = [line.split(" | ")[1] for line in lines[start + 2 : start + 2 + len(report_data(plan)["stages"])]]
    assert answers == ["yes" if stage["ready"] else "not yet" for stage in report_data(plan)["stages"]]


@pytest.mark.parametrize("plan", PLANS)
def test_every_point_has_a_heading_with_its_number_and_severity_in_words(plan: str) -> None:
    by_rule = {outcome["rule"]: outcome for outcome in report_data(plan)["outcomes"]}
    wanted = []
    for point in report_data(plan)["points"]:
        severity = by_rule[point["rule"]]["severity"]
        wanted.append(f"{point['number']}. {'STOP' if severity == 'stop' else severity}: ")
    found = headings(comment(plan), "h4")
    assert [heading[: len(start)] for heading, start in zip(found, wanted, strict=True)] == wanted


@pytest.mark.parametrize("plan", PLANS)
def test_every_thing_to_find_out_is_a_task_with_its_number(plan: str) -> None:
    numbers = [int(number) for number in re.findall(r"^- \[ \] \*\*(\d+)\.", comment(plan), re.MULTILINE)]
    assert numbers == [errand["number"] for errand in report_data(plan)["errands"]]


@pytest.mark.parametrize("plan", PLANS)
def test_the_tally_is_that_of_the_json_form(plan: str) -> None:
    tally = report_data(plan)["tally"]
    counts = ", ".join(f"{tally[result]} {result}" for result in ("met", "not met", "not known", "agreed"))
    assert f"{sum(tally.values())} rules apply: {counts}." in comment(plan)


def test_a_point_says_its_figures_what_to_do_and_what_it_rests_on(tmp_path: Path) -> None:
    (tmp_path / "plan.yaml").write_text(WASTE, "utf-8")
    text = of_file(tmp_path / "plan.yaml")
    point = text[text.index("#### 1.") : text.index("\n\n", text.index("- **in the plan:**"))]
    assert point == (
        "#### 1. put right: Fall of a waste (sink, to stack)\n"
        "\n"
        "A waste that is too flat blocks, and one that is too steep sucks its trap dry.\n"
        "\n"
        "| have | need | short by |\n"
        "| :-- | :-- | :-- |\n"
        "| 12 mm/m (fall) | at least 18 mm/m | 6 mm/m |\n"
        "\n"
        "- **do this:** Lay the pipe at 18 mm/m; over 2600 mm that makes 46.8 mm.\n"
        "- **rests on:** Approved Document H, Drainage and waste disposal, 2015, Diagram 3: official guidance, "
        "as reported\n"
        "- **in the plan:** line 8"
    )


def test_places_of_a_folder_name_their_file() -> None:
    assert "(job 29)" in comment("tern-cottage")


def test_what_was_agreed_is_said_with_the_reason() -> None:
    assert "- **agreed:** Socket well away from the sink, S2: «further along it would" in comment("tern-cottage")


AWKWARD_NAMES = [
    "</title> # 1. ]]> 😀 'q' \"d\" &lt; http://a.example <details>",
    "\"S2\" <script>alert(1)</script> & `rm -r` | 'x' \\ $x$ :smile:",
    "run (1) [a](http://b.example), north | <b>wall</b> wall",
    "🔥 **bold** _it_ ~~x~~",
    "עמוד 12 שולחן",
    "two lines and a tab",
    "laminate at the @east #12 wall",
    "laminate at the `south` wall",
    "# A bench <script> that is | high enough for @cook (- [ ] top, north | <b>wall</b> wall)",
    "<!-- plumber -->",
    "«- [ ] because | of </details> # @all and #7»",
]


@pytest.mark.parametrize("name", AWKWARD_NAMES)
def test_awkward_names_are_shown_as_the_plan_has_them(name: str) -> None:
    assert name in shown(comment("awkward"))


def test_awkward_names_make_no_links_pictures_code_or_html() -> None:
    ours = {"<details><summary>Whatever the plan says</summary>", "</details>"}
    tokens = read(comment("awkward"))
    assert {token.content.strip() for token in tokens if token.type in ("html_block", "html_inline")} == ours
    assert not [token for token in tokens if token.type in ("link_open", "image", "em_open", "s_open", "fence")]
    digests = [token.content for token in tokens if token.type == "code_inline"]
    assert len(digests) == 2
    assert all(re.fullmatch("[0-9a-f]{7,9}", digest) for digest in digests)


def test_nobody_is_called_and_nothing_is_pointed_to() -> None:
    text = "\n".join(line for _, line in lines(comment("awkward")))
    assert READ_INTO_TEXT.search(text) is None
    assert READ_INTO_TEXT.search(text.translate(INVISIBLE)) is not None


def test_every_table_keeps_its_columns() -> None:
    rows: list[int] = []
    for token in reader().parse(comment("awkward")):
        if token.type == "table_open":
            rows = []
        elif token.type == "tr_open":
            rows.append(0)
        elif token.type in ("td_open", "th_open"):
            rows[-1] += 1
        elif token.type == "table_close":
            assert len(set(rows)) == 1


@pytest.mark.parametrize(
    "text",
    [
        *(
            "- item",
            "+ item",
            "1. item",
            "12) item",
            "- [ ] task",
            "# heading",
            "> said",
            "=====",
            "---",
            "***",
            "_a_ __b__",
        ),
        *("```", "~~~", "| a | b |", "    code", "<b>", "[x]: http://a.example", "a &copy; b", "\\", "\\*"),
    ],
)
def test_what_begins_a_block_stays_text(text: str) -> None:
    blocks = [block.type for block in reader().parse(plain(text))]
    assert blocks == ["paragraph_open", "inline", "paragraph_close"]
    assert shown(plain(text)) == text.strip()


@pytest.mark.parametrize("text", ["12.5 mm", "34-1/2", "−41", "8 x 100", "5'-6 1/2\"", "10 %", "32 A, 18 mm/m"])
def test_figures_are_left_as_they_are(text: str) -> None:
    assert plain(text) == text


def test_a_very_long_text_is_cut() -> None:
    assert len(plain("long " * 5000)) == 1000


def test_what_turns_the_direction_of_a_text_is_shown_as_a_mark() -> None:
    assert plain("turned \u202e round \x1b[31m") == "turned \ufffd round \ufffd\\[31m"


@pytest.mark.parametrize("plan", PLANS)
def test_the_same_plan_gives_the_same_bytes(plan: str) -> None:
    first = printed("markdown", plan, seed=1)
    assert first.startswith(b"## ")
    assert first == printed("markdown", plan, seed=2)


def test_a_comment_that_would_be_too_long_is_cut_and_says_how_much_is_missing() -> None:
    text = markdown.whole([markdown.of_plan(many_times(judged("weavers-row"), 40), DAY)])
    there = len(headings(text, "h4"))
    cut = re.search(r"\*\*Cut here to fit into a comment:\*\* (\d+) points", text)
    assert cut is not None
    assert there + int(cut[1]) == 40 * len(report_data("weavers-row")["points"])
    assert 50_000 < len(text) < 60_000
    assert text.startswith("## NOT READY: Weavers Row, number 14\n")
    assert "\n\n**NOT READY.** The plan was looked at" in text


def test_a_comment_is_never_cut_inside_a_point() -> None:
    text = markdown.whole([markdown.of_plan(many_times(judged("weavers-row"), 40), DAY)])
    assert text.count("\n#### ") == text.count("\n- **in the plan:** ")


def test_the_longest_comment_there_can_be_of_many_plans_is_not_too_long() -> None:
    part = markdown.of_plan(judged("weavers-row"), DAY)
    for count in (2, 39, 40, 41, 1000):
        text = markdown.whole([replace(part, title=f"plot {number}") for number in range(count)])
        assert len(text) < 60_000
        assert "Cut here" in text or count == 2


def test_a_place_that_is_not_met_everywhere_is_told_by_its_first_forty() -> None:
    once = judged("weavers-row")
    outcome = next(each for each in once.outcomes if each.rule.name == "laminate-gap")
    everywhere = once._replace(outcomes=(outcome,) * 500)
    text = markdown.whole([markdown.of_plan(everywhere, DAY)])
    assert "(500 places)" in text
    assert "\n... and 460 places more.\n" in text


def test_of_several_plans_those_not_ready_come_first_under_one_table() -> None:
    text = comment("tern-cottage", "weavers-row")
    assert text.startswith("| plan | verdict |  |\n| :-- | :-- | :-- |\n| Weavers Row, number 14 | NOT READY |")
    assert headings(text, "h2") == ["NOT READY: Weavers Row, number 14", "READY: Tern Cottage"]


def test_a_plan_that_cannot_be_read_says_where_and_what_was_meant(tmp_path: Path) -> None:
    (tmp_path / "plan.yaml").write_text(WASTE.replace("runs: none", "ruuns: none"), "utf-8")
    text = shown(markdown.whole([markdown.of_unreadable(unreadable(tmp_path / "plan.yaml"))]))
    assert text.startswith("CANNOT BE READ: ")
    assert f"{tmp_path / 'plan.yaml'}, line 5: " in text
    assert "Perhaps «runs» was meant." in text


def test_a_plan_with_very_many_mistakes_is_cut_too() -> None:
    many = Unreadable([Problem(f"mistake {number}", Place("plan.yaml", number, 1)) for number in range(1, 5000)])
    text = markdown.whole([markdown.of_unreadable(many)])
    there = text.count("\n- ")
    assert len(text) < 60_000
    assert f"{4999 - there} mistakes more." in text


def test_the_command_prints_the_comment_of_readable_and_unreadable_plans(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    status = main(["check", str(PLANS["tern-cottage"]), str(tmp_path / "none.yaml"), "--form", "markdown"])
    out = capsys.readouterr().out
    assert status == 2
    assert [heading.partition(":")[0] for heading in headings(out, "h2")] == ["CANNOT BE READ", "READY"]
