"""`dryfit set`: one value changed in its file, judged before it is written, or nothing at all."""

from __future__ import annotations

import os
import shlex
import shutil
import signal
import subprocess
import time
from pathlib import Path

import pytest

from tests.bench.plans import plan as plan_of_lines
from tests.commands.conftest import Here, Write
from tests.commands.running import DEMO, ON, PUMP_HOUSE, command, dryfit, environment_with
from validator.commands import replacing

ON_DAY = ("--on", ON)
WEAVERS_ROW = (DEMO / "weavers-row" / "plan.yaml").read_text(encoding="utf-8")
HOOD = next(number for number, line in enumerate(WEAVERS_ROW.splitlines(), 1) if line.startswith("  hood: {is:"))


@pytest.fixture
def pump_house(write: Write) -> Path:
    """A small plan that is ready."""
    return write("plan.yaml", PUMP_HOUSE)


@pytest.fixture
def weavers_row(write: Write) -> Path:
    """The demo plan with faults."""
    return write("plan.yaml", WEAVERS_ROW)


def other_lines(text: str, than: str) -> list[str]:
    """The lines of a text that differ from another of as many lines."""
    pairs = list(zip(text.splitlines(), than.splitlines(), strict=True))
    return [line for line, other in pairs if line != other]


class TestOneValue:
    def test_the_line_is_changed_and_nothing_else(self, weavers_row: Path, here: Here) -> None:
        ran = here("set", "plan.yaml", "hood up", "1640 from finished floor", *ON_DAY)
        assert ran.status == 1
        assert ran.err == ""
        assert other_lines(weavers_row.read_text(), WEAVERS_ROW) == [
            (
                "  hood: {is: chimney hood, over: hob, width: 600, up: 1640 from finished floor, power: 0.2 kW,"
                " supply: S4, rate: 250 m3/h, ducted: {bore: 150, length: 800,"
                " bends: 1, flexible: 300, to: outside wall}, body: 600 w x 600 h x 480 d, weight: 14 kg}"
            )
        ]

    def test_old_and_new_value_line_and_what_is_cured_are_said(self, weavers_row: Path, here: Here) -> None:
        assert here("set", "plan.yaml", "hood up", "1640 from finished floor", *ON_DAY).out == (
            f"CHANGED: plan.yaml, line {HOOD}\n"
            "\n"
            "       appliances / hood / up\n"
            "       was        1580 from finished floor\n"
            "       now        1640 from finished floor\n"
            "\n"
            "       cured      STOP: Room above a gas hob, hob\n"
            "\n"
            "NOT READY, as before: 16 points (17 before), nothing to find out.\n"
        )

    def test_a_point_that_is_new_and_a_verdict_that_is_other_are_said(self, pump_house: Path, here: Here) -> None:
        ran = here("set", "plan.yaml", "dishwasher waste", "40 mm to stack 1500 at 10 mm/m", *ON_DAY)
        assert ran.status == 1
        assert "new        put right: Fall of a waste, dishwasher, short by 8 mm/m" in ran.out
        assert "NOT READY, which it was not before: one point (0 before)" in ran.out

    def test_a_plan_that_is_ready_with_the_value_ends_with_0(self, pump_house: Path, here: Here) -> None:
        assert here("set", "plan.yaml", "dishwasher waste", "40 mm to stack 1500 at 30 mm/m", *ON_DAY).status == 0
        assert "30 mm/m" in pump_house.read_text()

    def test_what_is_only_shown_is_not_written(self, weavers_row: Path, here: Here) -> None:
        ran = here("set", "plan.yaml", "hood up", "1640 from finished floor", "--only-show", *ON_DAY)
        assert ran.status == 1
        assert ran.out.startswith(f"WOULD CHANGE (nothing was written): plan.yaml, line {HOOD}\n")
        assert weavers_row.read_text() == WEAVERS_ROW

    def test_a_value_that_stands_there_already_is_not_written_again(self, pump_house: Path, here: Here) -> None:
        os.utime(pump_house, (0, 0))
        ran = here("set", "plan.yaml", "project title", "Pump house", *ON_DAY)
        assert (ran.status, ran.out.splitlines()[0]) == (
            0,
            "Nothing to change: project / title is Pump house already.",
        )
        assert pump_house.stat().st_mtime == 0

    def test_a_list_in_brackets_and_keys_in_braces_are_values_too(self, pump_house: Path, here: Here) -> None:
        assert here("set", "plan.yaml", "ceiling", "[2405, 2401]", *ON_DAY).status == 0
        assert here("set", "plan.yaml", "/people", "{ann: {trade: gas}}", *ON_DAY).status == 0
        assert pump_house.read_text() == PUMP_HOUSE + "ceiling: [2405, 2401]\npeople: {ann: {trade: gas}}\n"

    def test_in_a_folder_the_file_that_has_the_value_is_changed(self, folder: Path, here: Here) -> None:
        shutil.copytree(DEMO / "tern-cottage", folder / "tern")
        before = {file.name: file.read_text() for file in (folder / "tern").iterdir()}
        ran = here("set", "tern", "project title", "Tern Cottage, upstairs", *ON_DAY)
        changed = [name for name in before if (folder / "tern" / name).read_text() != before[name]]
        assert len(changed) == 1
        assert f"CHANGED: {os.path.join('tern', changed[0])}, line" in ran.out

    @pytest.mark.parametrize(
        ("name", "content", "line"),
        [
            ("plan.toml", 'dryfit = 1\n[own]\nreach = "940 mm" # tall cook\n', 'reach = "950 mm" # tall cook'),
            ("plan.json", '{"dryfit": 1,\n "own": {"reach": "940 mm"}}\n', ' "own": {"reach": "950 mm"}}'),
        ],
    )
    def test_plans_in_toml_and_json_are_changed_as_well(
        self, name: str, content: str, line: str, write: Write, here: Here
    ) -> None:
        file = write(name, content)
        assert here("set", name, "own reach", "950 mm", *ON_DAY).status == 1
        assert line in file.read_text().splitlines()

    def test_line_ends_and_the_mark_of_byte_order_stay(self, write: Write, here: Here) -> None:
        content = b"\xef\xbb\xbf" + PUMP_HOUSE.replace("\n", "\r\n").encode()
        file = write("plan.yaml", content)
        assert here("set", "plan.yaml", "project title", "Sluice", *ON_DAY).status == 0
        assert file.read_bytes() == content.replace(b"Pump house", b"Sluice")

    def test_through_a_link_the_file_behind_it_is_changed(self, folder: Path, write: Write, here: Here) -> None:
        target = write("kept/plan.yaml", PUMP_HOUSE)
        (folder / "plan.yaml").symlink_to(target)
        assert here("set", "plan.yaml", "project title", "Sluice", *ON_DAY).status == 0
        assert (folder / "plan.yaml").is_symlink()
        assert "title: Sluice" in target.read_text()

    def test_a_plan_that_cannot_be_read_may_be_mended(self, write: Write, here: Here) -> None:
        file = write("plan.yaml", PUMP_HOUSE.replace("25 mm/m", "25 parsecs"))
        assert here("check", "plan.yaml", *ON_DAY).status == 2
        ran = here("set", "plan.yaml", "dishwasher waste", "40 mm to stack 1500 at 25 mm/m", *ON_DAY)
        assert ran.status == 0
        assert file.read_text() == PUMP_HOUSE


class TestKinds:
    def test_a_value_of_its_own_is_added_and_where_it_came_from_until_now_is_said(
        self, weavers_row: Path, here: Here
    ) -> None:
        ran = here("set", "plan.yaml", "points S1 up", "1200 from bare floor", *ON_DAY)
        assert "  S1: {is: double socket, wall: north, along: 720 from west, up: 1200 from bare floor}" in (
            weavers_row.read_text()
        )
        assert ran.out.endswith(
            "Until now the value came from `/kinds/double socket/up`, which has not changed.\n"
            "For all of the kind:\n"
            "  dryfit set plan.yaml '/kinds/double socket/up' '1200 from bare floor'\n"
        )

    @pytest.mark.parametrize(
        ("path", "value", "line"),
        [
            ("B1 height", "750", "      B1: {is: drawers, width: 500, height: 750}"),
            ("S3 up", "1200", "  S3: {is: double socket, over: B6, up: 1200}"),
        ],
    )
    def test_a_thing_in_one_line_is_left_and_the_command_that_writes_it_out_works(
        self, path: str, value: str, line: str, weavers_row: Path, here: Here
    ) -> None:
        ran = here("set", "plan.yaml", path, value, *ON_DAY)
        assert ran.status == 2
        assert "is written in one line" in ran.err
        assert "For all of its kind:\n  dryfit set plan.yaml " in ran.err
        assert weavers_row.read_text() == WEAVERS_ROW
        written_out = ran.err.partition("Written out it has:\n")[2].splitlines()[0]
        assert here(*shlex.split(written_out)[1:], *ON_DAY).status == 1
        assert other_lines(weavers_row.read_text(), WEAVERS_ROW) == [line]


class TestPoints:
    def point(self, here: Here, title: str) -> str:
        """The number that the report gives a rule."""
        report = here("check", "plan.yaml", *ON_DAY).out
        return next(line.split()[0] for line in report.splitlines() if f"  {title}" in line and "[ ]" in line)

    def test_what_a_point_asks_for_is_done_where_one_value_does_it(self, weavers_row: Path, here: Here) -> None:
        number = self.point(here, "Room above a gas hob")
        ran = here("set", "plan.yaml", "--point", number, *ON_DAY)
        assert ran.status == 1
        assert "now        1633 from finished floor" in ran.out
        assert "cured      STOP: Room above a gas hob, hob" in ran.out
        assert "up: 1633 from finished floor" in weavers_row.read_text()

    def test_where_several_values_would_do_each_is_told_with_a_command_that_works(
        self, weavers_row: Path, here: Here
    ) -> None:
        number = self.point(here, "Run no longer than its wall")
        ran = here("set", "plan.yaml", "--point", number, *ON_DAY)
        assert ran.status == 2
        assert weavers_row.read_text() == WEAVERS_ROW
        commands = [line for line in ran.err.splitlines() if line.startswith("  dryfit set")]
        assert len(commands) == 6
        assert "cured      put right: Run no longer than its wall" in here(*shlex.split(commands[0])[1:], *ON_DAY).out

    def test_a_cure_that_brings_another_point_is_told_with_it(self, weavers_row: Path, here: Here) -> None:
        number = self.point(here, "Machine goes in and comes out under the worktop")
        ran = here("set", "plan.yaml", "--point", number, *ON_DAY)
        assert ran.status == 2
        assert "brings     put right: Legs wound out at the low spot" in ran.err
        assert weavers_row.read_text() == WEAVERS_ROW

    def test_a_point_that_no_value_cures_is_told_with_what_to_do(self, weavers_row: Path, here: Here) -> None:
        number = self.point(here, "Gas work by someone registered")
        ran = here("set", "plan.yaml", "--point", number, *ON_DAY)
        assert ran.status == 2
        assert "Do this: Have the gas work done by an engineer who is on the register" in ran.err

    def test_something_to_find_out_is_told_with_where_the_answer_goes(self, write: Write, here: Here) -> None:
        write("plan.yaml", PUMP_HOUSE.replace("40 mm to stack 1500 at 25 mm/m", "to find out"))
        ran = here("set", "plan.yaml", "--point", "1", *ON_DAY)
        assert ran.status == 2
        assert ran.err.startswith("Point 1 is something to find out.")
        assert "dryfit set plan.yaml /appliances/dishwasher/waste" in ran.err

    def test_a_number_that_the_report_has_not_is_told(self, weavers_row: Path, pump_house: Path, here: Here) -> None:
        ran = here("set", "plan.yaml", "--point", "99", *ON_DAY)
        assert (ran.status, ran.err) == (2, "The report has no point 99.\nExpected: it has no points\n")


class TestRefused:
    def refused(self, file: Path, here: Here, *words: str) -> str:
        """What is said; the file is as it was, to the byte and the second."""
        before, status = file.read_bytes(), file.stat()
        ran = here("set", *words, *ON_DAY)
        assert ran.status == 2
        assert ran.out == ""
        assert file.read_bytes() == before
        assert (file.stat().st_mtime_ns, file.stat().st_ino) == (status.st_mtime_ns, status.st_ino)
        assert [name for name in os.listdir(file.parent) if name.startswith(".")] == []
        return ran.err

    def test_a_value_that_the_plan_cannot_be_read_with_is_shown_in_its_line(
        self, weavers_row: Path, here: Here
    ) -> None:
        said = self.refused(weavers_row, here, "plan.yaml", "hood up", "banana")
        assert said.startswith(
            "Not changed: with this value the plan could not be read.\n"
            "The file is as it was: plan.yaml\n"
            "\n"
            f"In plan.yaml, line {HOOD}:\n"
        )
        assert "up: banana, power: 0.2 kW, supply: S4, rate" in said
        assert said.endswith("    `banana` is not a length\n    Expected: a length, such as `600 mm` or `34-1/2 in`\n")

    @pytest.mark.parametrize(
        ("path", "value", "said"),
        [
            ("hood over", "hobb", "Perhaps «hob» was meant."),
            ("project lengths in", "parsecs", "`parsecs` cannot stand here"),
            ("window run aginst", "east", "Perhaps «against» was meant."),
            ("hod up", "5", "Perhaps «hood up» was meant."),
            ("/appliances/hoood/up", "5", "Perhaps «/appliances/hood/up» was meant."),
            ("/pionts", "none", "Perhaps «/points» was meant."),
            ("hood", "5", "one of `/stated/hood`, `/appliances/hood`"),
            ("/appliances/hood", "5", "`/appliances/hood` holds several values, not one"),
            ("points", "none", "`/points` holds several values, not one"),
            ("dryfit", "2", "is a version that cannot be read"),
            ("hood up", "", "no value is given"),
            ("", "5", "no value is named"),
            ("ceiling", "[2405, 2401", "cannot be read"),
            ("/appliances/hood/note", "a bell \x07", "an invisible character (U+0007)"),
        ],
    )
    def test_what_cannot_be_done_is_told_with_what_was_probably_meant(
        self, path: str, value: str, said: str, weavers_row: Path, here: Here
    ) -> None:
        assert said in " ".join(self.refused(weavers_row, here, "plan.yaml", path, value).split())

    def test_of_a_plan_that_cannot_be_read_all_has_to_be_mended_by_the_value(self, write: Write, here: Here) -> None:
        file = write("plan.yaml", PUMP_HOUSE.replace("25 mm/m", "25 parsecs"))
        said = self.refused(file, here, "plan.yaml", "project title", "Sluice")
        assert "the plan cannot be read, and this value does not mend all of it" in said

    def test_what_comes_from_standard_input_cannot_be_changed(self, pump_house: Path, here: Here) -> None:
        assert "cannot be changed there" in self.refused(pump_house, here, "-", "hood up", "5")

    @pytest.mark.parametrize(
        "words", [("plan.yaml",), ("plan.yaml", "hood up"), ("plan.yaml", "a", "b", "--point", "1")]
    )
    def test_a_value_and_what_it_is_to_be_are_wanted_or_a_point(
        self, words: tuple[str, ...], pump_house: Path, here: Here
    ) -> None:
        assert "PATH VALUE" in self.refused(pump_house, here, *words)

    def test_a_file_that_is_not_there_is_told_with_the_nearest(self, pump_house: Path, here: Here) -> None:
        said = self.refused(pump_house, here, "plam.yaml", "a", "b")
        assert "there is no file `plam.yaml`" in said
        assert "Perhaps «plan.yaml» was meant." in said

    def test_a_file_that_nobody_may_write_is_told(self, pump_house: Path, here: Here) -> None:
        pump_house.chmod(0o444)
        said = self.refused(pump_house, here, "plan.yaml", "project title", "Sluice")
        assert said == "Not changed: the file may not be written.\nThe file is as it was: plan.yaml\n"

    def test_a_file_changed_by_somebody_else_while_it_is_judged_is_left_alone(
        self, pump_house: Path, here: Here, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        theirs = PUMP_HOUSE.replace("Pump house", "Windmill")
        check = replacing._check_unchanged

        def after_somebody_else(target: str, old: bytes) -> None:
            pump_house.write_text(theirs)
            check(target, old)

        monkeypatch.setattr(replacing, "_check_unchanged", after_somebody_else)
        ran = here("set", "plan.yaml", "project title", "Sluice", *ON_DAY)
        assert ran.status == 2
        assert "somebody else has changed the file meanwhile" in ran.err
        assert pump_house.read_text() == theirs

    def test_a_full_disk_leaves_the_file_as_it_was(
        self, pump_house: Path, here: Here, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        def full(handle: int) -> None:
            raise OSError(28, os.strerror(28))

        monkeypatch.setattr(os, "fsync", full)
        said = self.refused(pump_house, here, "plan.yaml", "project title", "Sluice")
        assert "Not changed: the file cannot be written: No space left on device." in said


def test_kill_9_during_the_command_leaves_the_old_or_the_new_plan(pump_house: Path) -> None:
    new = PUMP_HOUSE.replace("Pump house", "Sluice")
    words = command(["set", "plan.yaml", "project title", "Sluice", *ON_DAY])
    for wait in (0.05, 0.15, 0.25, 0.32, 0.38, 0.44, 0.5):
        pump_house.write_text(PUMP_HOUSE)
        process = subprocess.Popen(
            words, env=environment_with({}), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        time.sleep(wait)
        process.send_signal(signal.SIGKILL)
        process.wait()
        assert pump_house.read_text() in (PUMP_HOUSE, new)


def test_a_plan_of_5_000_lines_takes_at_most_three_times_as_long_as_its_check(write: Write) -> None:
    write("plan.yaml", plan_of_lines(5000))
    check = min(dryfit("check", "plan.yaml", *ON_DAY).seconds for _ in range(2))
    ran = dryfit("set", "plan.yaml", "appliances hood 3 up", "1650", *ON_DAY)
    assert ran.status in (0, 1)
    assert ran.seconds < 3 * check
