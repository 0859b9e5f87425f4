"""`dryfit check` as its users meet it: exit status, both streams, and every word of its command line."""

from __future__ import annotations

import json
import os
import pty
import subprocess
from pathlib import Path

import pytest

from tests.commands.conftest import Here, Write
from tests.commands.running import DEMO, ON, PUMP_HOUSE, command, dryfit, environment_with, own_rule

FLAT = PUMP_HOUSE.replace("25 mm/m", "5 mm/m")
"""The waste falls too little: one point to put right."""

ESCAPE = "\x1b["


class TestVerdict:
    def test_a_plan_that_is_ready_leaves_with_0_and_says_so_first_and_last(self, here: Here, write: Write) -> None:
        ran = here("check", write("plan.yaml", PUMP_HOUSE), "--on", ON)
        assert (ran.status, ran.err) == (0, "")
        verdicts = [line for line in ran.out.splitlines() if line.startswith("READY.")]
        assert len(verdicts) == 2
        assert ran.out.splitlines()[-1] == verdicts[-1]

    def test_a_plan_that_is_not_ready_leaves_with_1(self, here: Here, write: Write) -> None:
        ran = here("check", write("plan.yaml", FLAT), "--on", ON)
        assert (ran.status, ran.err) == (1, "")
        assert ran.out.splitlines()[-1].startswith("NOT READY.")

    def test_a_plan_that_cannot_be_read_leaves_with_2_and_prints_no_report(self, here: Here, write: Write) -> None:
        ran = here("check", write("plan.yaml", PUMP_HOUSE.replace("25 mm/m", "25 kg")))
        assert (ran.status, ran.out) == (2, "")
        assert "plan.yaml, line 8" in ran.err

    def test_a_plan_that_says_next_to_nothing_is_not_ready(self, here: Here, write: Write) -> None:
        head = "dryfit: 1\nproject: {title: Empty hall, country: GB-ENG}\n"
        assert here("check", write("plan.yaml", head), "--on", ON).status == 1

    def test_a_plan_without_a_country_is_not_ready_and_says_why(self, here: Here, write: Write) -> None:
        ran = here("check", write("plan.yaml", PUMP_HOUSE.replace("country: GB-ENG, ", "")), "--on", ON)
        assert ran.status == 1
        assert "names no country" in ran.out

    def test_as_a_process_the_status_is_the_same(self, write: Write, folder: Path) -> None:
        write("ready.yaml", PUMP_HOUSE)
        write("flat.yaml", FLAT)
        write("bad.yaml", "dryfit: 1\nwals: none\n")
        found = [dryfit("check", name, folder=folder).status for name in ("ready.yaml", "flat.yaml", "bad.yaml")]
        assert found == [0, 1, 2]


class TestSeveralPlans:
    @pytest.mark.parametrize(
        ("names", "status"),
        [
            (["ready.yaml", "ready.yaml"], 0),
            (["flat.yaml", "ready.yaml"], 1),
            (["ready.yaml", "flat.yaml"], 1),
            (["bad.yaml", "flat.yaml"], 2),
            (["flat.yaml", "bad.yaml", "ready.yaml"], 2),
        ],
    )
    def test_the_worst_decides(self, here: Here, write: Write, names: list[str], status: int) -> None:
        write("ready.yaml", PUMP_HOUSE)
        write("flat.yaml", FLAT)
        write("bad.yaml", "dryfit: 1\nwals: none\n")
        ran = here("check", *names, "--on", ON)
        assert ran.status == status
        assert ran.out.count("INSPECTION OF THE PLAN") == len([name for name in names if name != "bad.yaml"])

    def test_for_machines_several_plans_make_a_list_and_one_does_not(self, here: Here, write: Write) -> None:
        write("ready.yaml", PUMP_HOUSE)
        write("flat.yaml", FLAT)
        several = json.loads(here("check", "ready.yaml", "flat.yaml", "--form", "json").out)
        assert [report["ready"] for report in several] == [True, False]
        assert json.loads(here("check", "flat.yaml", "--form", "json").out)["ready"] is False

    def test_a_folder_is_one_plan(self, here: Here, write: Write) -> None:
        head, services = PUMP_HOUSE.split("points: none\n")
        write("house/layout.yaml", head)
        write("house/services.yaml", "dryfit: 1\npoints: none\n" + services)
        assert here("check", "house", "--on", ON).status == 0


class TestStandardInput:
    def test_a_dash_reads_it(self, folder: Path) -> None:
        ran = dryfit("check", "-", "--on", ON, stdin=FLAT.encode(), folder=folder)
        assert ran.status == 1
        assert "line 8" in ran.out

    def test_what_is_wrong_in_it_is_shown_by_line(self, folder: Path) -> None:
        ran = dryfit("check", "-", stdin=FLAT.replace("walls: none", "wals: none").encode(), folder=folder)
        assert (ran.status, ran.out) == (2, "")
        assert "In standard input, line 4:" in ran.err

    def test_where_it_is_closed_the_plan_is_empty(self, folder: Path) -> None:
        ran = subprocess.run(
            ["sh", "-c", 'exec "$@" <&-', "sh", *command(["check", "-"])],
            capture_output=True,
            text=True,
            env=environment_with({}),
            cwd=folder,
        )
        assert (ran.returncode, ran.stdout) == (2, "")
        assert "the file is empty" in ran.stderr


class TestDay:
    AGREED = FLAT + "agreed:\n  waste-fall: {at: dishwasher, reason: low sill, by: householder, until: 2027-06-30}\n"

    def test_a_plan_is_judged_as_of_the_day_given(self, here: Here, write: Write) -> None:
        write("plan.yaml", self.AGREED)
        assert here("check", "plan.yaml", "--on", "2027-06-30").status == 0
        assert here("check", "plan.yaml", "--on", "2027-07-01").status == 1

    def test_the_day_stands_in_the_report(self, here: Here, write: Write) -> None:
        ran = here("check", write("plan.yaml", PUMP_HOUSE), "--on", "2028-02-29")
        assert "29 February 2028" in ran.out

    @pytest.mark.parametrize("day", ["2027-13-01", "2027-02-29", "1 March", "01/03/2027", "tomorrow", ""])
    def test_what_is_no_day_is_refused_with_one_that_is(self, here: Here, write: Write, day: str) -> None:
        ran = here("check", write("plan.yaml", PUMP_HOUSE), "--on", day)
        assert (ran.status, ran.out) == (2, "")
        assert "2026-06-01" in ran.err


class TestWhatFails:
    """`--fail-on` names the mildest severity that makes a plan not ready when it is *not met*."""

    @pytest.mark.parametrize("fail_on", ["stop", "put right", "improve", "note"])
    @pytest.mark.parametrize("severity", ["put right", "improve", "note"])
    def test_a_rule_that_is_not_met_fails_from_its_severity_on(
        self, here: Here, write: Write, severity: str, fail_on: str
    ) -> None:
        order = ["stop", "put right", "improve", "note"]
        write("plan.yaml", PUMP_HOUSE)
        ran = here("check", "plan.yaml", "--rules", write("own.yaml", own_rule(severity)), "--fail-on", fail_on)
        assert ran.status == (1 if order.index(severity) <= order.index(fail_on) else 0)

    @pytest.mark.parametrize("fail_on", ["stop", "put right", "improve", "note"])
    def test_a_stop_that_is_not_known_fails_whatever_is_said(self, here: Here, write: Write, fail_on: str) -> None:
        write("plan.yaml", PUMP_HOUSE.replace(" at 25 mm/m", ""))
        book = write("own.yaml", own_rule("stop"))
        ran = here("check", "plan.yaml", "--rules", book, "--fail-on", fail_on)
        assert ran.status == 1

    @pytest.mark.parametrize("fail_on", ["stop", "put right", "improve", "note"])
    def test_anything_milder_that_is_not_known_never_fails(self, here: Here, write: Write, fail_on: str) -> None:
        write("plan.yaml", PUMP_HOUSE.replace(" at 25 mm/m", ""))
        assert here("check", "plan.yaml", "--fail-on", fail_on).status == 0

    def test_without_it_what_is_to_be_put_right_fails(self, here: Here, write: Write) -> None:
        write("plan.yaml", PUMP_HOUSE)
        assert here("check", "plan.yaml", "--rules", write("a.yaml", own_rule("put right"))).status == 1
        assert here("check", "plan.yaml", "--rules", write("b.yaml", own_rule("improve"))).status == 0


class TestBooks:
    def test_a_book_given_adds_its_rules(self, here: Here, write: Write) -> None:
        ran = here("check", write("plan.yaml", PUMP_HOUSE), "--rules", write("own.yaml", own_rule()), "--on", ON)
        assert "A steeper waste" in ran.out
        assert "House rules" in ran.out

    def test_a_folder_of_books_is_given_whole(self, here: Here, write: Write) -> None:
        write("plan.yaml", PUMP_HOUSE)
        write("books/a.yaml", own_rule("put right"))
        write("books/b.yaml", own_rule().replace("steeper-waste", "steepest-waste").replace("House", "Other"))
        ran = here("check", "plan.yaml", "--rules", "books", "--form", "json")
        assert {point["rule"] for point in json.loads(ran.out)["points"]} == {"steeper-waste", "steepest-waste"}

    def test_a_book_given_may_withdraw_a_rule_and_the_report_says_which_and_why(self, here: Here, write: Write) -> None:
        write("plan.yaml", FLAT)
        book = "book: {title: Pumped, covers: everywhere}\nrules:\n  waste-fall: {withdraws: The waste is pumped.}\n"
        ran = here("check", "plan.yaml", "--rules", write("pumped.yaml", book), "--on", ON)
        assert ran.status == 0
        assert "waste-fall" in ran.out
        assert "The waste is pumped." in " ".join(ran.out.split())

    def test_a_book_for_another_country_changes_nothing(self, here: Here, write: Write) -> None:
        write("plan.yaml", PUMP_HOUSE)
        book = own_rule("put right").replace("covers: everywhere", "covers: AU")
        assert here("check", "plan.yaml", "--rules", write("au.yaml", book)).status == 0

    def test_of_two_books_the_more_special_may_change_the_other(self, here: Here, write: Write) -> None:
        write("plan.yaml", PUMP_HOUSE)
        write("one.yaml", own_rule("improve"))
        changed = own_rule("put right").replace("title: A steeper", "replaces: we mean it\n    title: A steeper")
        write("two.yaml", changed.replace("everywhere", "GB"))
        assert here("check", "plan.yaml", "--rules", "one.yaml", "--rules", "two.yaml").status == 1
        assert here("check", "plan.yaml", "--rules", "one.yaml").status == 0


class TestForMachines:
    def test_the_report_is_json_and_nothing_else(self, here: Here, write: Write) -> None:
        ran = here("check", write("plan.yaml", FLAT), "--form", "json", "--on", ON)
        report = json.loads(ran.out)
        assert ran.status == 1
        assert (report["ready"], report["on"]) == (False, ON)

    def test_a_plan_that_cannot_be_read_makes_no_json(self, here: Here, write: Write) -> None:
        ran = here("check", write("plan.yaml", "dryfit: 1\nwals: none\n"), "--form", "json")
        assert (ran.status, ran.out) == (2, "")
        assert "wals" in ran.err

    def test_of_two_plans_the_one_that_can_be_read_is_reported(self, here: Here, write: Write) -> None:
        write("bad.yaml", "dryfit: 1\nwals: none\n")
        ran = here("check", "bad.yaml", write("plan.yaml", FLAT), "--form", "json")
        assert ran.status == 2
        (report,) = json.loads(ran.out)
        assert report["ready"] is False


class TestWordsOfTheCommandLine:
    def test_help_shows_how_each_command_is_called(self, here: Here) -> None:
        ran = here("--help")
        assert ran.status == 0
        for example in ("dryfit check kitchen.yaml", "dryfit show B3 plan/", "dryfit rules"):
            assert example in ran.out
        assert "Exit status: 0 ready, 1 not ready, 2" in ran.out

    @pytest.mark.parametrize("command", ["check", "show", "rules"])
    def test_every_command_has_help(self, here: Here, command: str) -> None:
        ran = here(command, "--help")
        assert ran.status == 0
        assert f"dryfit {command}" in ran.out

    @pytest.mark.parametrize(
        ("words", "said"),
        [
            ((), "COMMAND"),
            (("chekc", "plan.yaml"), "chekc"),
            (("check",), "PLAN"),
            (("check", "plan.yaml", "--form", "jsn"), "jsn"),
            (("check", "plan.yaml", "--fail-on", "stopp"), "stopp"),
            (("check", "plan.yaml", "--rules"), "--rules"),
            (("check", "plan.yaml", "--quiet"), "--quiet"),
            (("show", "B1"), "PLAN"),
            (("show", "B1", "plan.yaml", "more.yaml"), "more.yaml"),
            (("rules", "--country"), "--country"),
        ],
    )
    def test_wrong_words_are_refused_by_name_and_nothing_is_judged(
        self, here: Here, write: Write, words: tuple[str, ...], said: str
    ) -> None:
        write("plan.yaml", PUMP_HOUSE)
        ran = here(*words)
        assert (ran.status, ran.out) == (2, "")
        assert said in ran.err


class TestTerminal:
    def on_a_terminal(self, folder: Path, **environment: str) -> str:
        leader, follower = pty.openpty()
        ran = subprocess.run(
            command(["check", "plan.yaml", "--on", ON]),
            stdout=follower,
            stderr=subprocess.PIPE,
            cwd=folder,
            env={name: value for name, value in environment_with(environment).items() if value != "unset"},
        )
        os.close(follower)
        said = b""
        while True:
            try:
                part = os.read(leader, 65536)
            except OSError:  # all that was written is read
                break
            if not part:
                break
            said += part
        os.close(leader)
        assert (ran.returncode, ran.stderr) == (1, b"")
        return said.decode().replace("\r\n", "\n")

    @pytest.fixture(autouse=True)
    def plan(self, write: Write) -> None:
        write("plan.yaml", FLAT)

    def test_the_verdict_and_the_severities_stand_out(self, folder: Path) -> None:
        said = self.on_a_terminal(folder, TERM="xterm", NO_COLOR="unset")
        assert f"{ESCAPE}1mNOT READY.{ESCAPE}0m" in said

    @pytest.mark.parametrize("environment", [{"NO_COLOR": "1"}, {"TERM": "dumb", "NO_COLOR": "unset"}])
    def test_not_where_somebody_wants_it_plain(self, folder: Path, environment: dict[str, str]) -> None:
        assert ESCAPE not in self.on_a_terminal(folder, **{"TERM": "xterm", **environment})

    def test_an_empty_no_color_asks_for_nothing(self, folder: Path) -> None:
        """no-color.org: `NO_COLOR` counts where it is present and not an empty string (from memory)."""
        assert ESCAPE in self.on_a_terminal(folder, TERM="xterm", NO_COLOR="")

    def test_through_a_pipe_the_same_is_said_without(self, folder: Path) -> None:
        piped = dryfit("check", "plan.yaml", "--on", ON, folder=folder).out
        shown = self.on_a_terminal(folder, TERM="xterm", NO_COLOR="unset")
        assert ESCAPE not in piped
        for sequence in ("0", "1", "36", "1;35"):
            shown = shown.replace(f"{ESCAPE}{sequence}m", "")
        assert shown == piped


class TestStreams:
    def shell(self, line: str, *words: str) -> subprocess.CompletedProcess[str]:
        plan = str(DEMO / "weavers-row")
        return subprocess.run(
            ["bash", "-c", line, "bash", *command([*words, plan])],
            capture_output=True,
            text=True,
            env=environment_with({}),
        )

    @pytest.mark.parametrize("words", [("check",), ("check", "--form", "json"), ("show", "B1")])
    def test_a_reader_who_leaves_early_is_no_fault(self, words: tuple[str, ...]) -> None:
        ran = self.shell('"$@" | head -n 1; exit ${PIPESTATUS[0]}', *words)
        assert len(ran.stdout.splitlines()) == 1
        assert ran.stderr == ""

    @pytest.mark.parametrize("form", ["text", "json"])
    def test_a_report_nobody_could_read_is_no_pass(self, write: Write, form: str) -> None:
        reading, writing = os.pipe()
        os.close(reading)
        words = ["check", str(write("plan.yaml", PUMP_HOUSE)), "--on", ON, "--form", form]
        ran = subprocess.run(command(words), stdout=writing, stderr=subprocess.PIPE, env=environment_with({}))
        os.close(writing)
        assert (ran.returncode, ran.stderr) == (2, b"")

    @pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
    @pytest.mark.parametrize("words", [("check",), ("check", "--form", "json"), ("show", "B1")])
    def test_a_full_disk_is_said_in_words(self, words: tuple[str, ...]) -> None:
        ran = self.shell('"$@" > /dev/full', *words)
        assert ran.returncode == 2
        assert ran.stderr == "What there is to say cannot be written: No space left on device.\n"

    @pytest.mark.parametrize("closed", [">&-", "2>&-", "<&-", "<&- >&- 2>&-"])
    def test_closed_streams_change_nothing_of_the_status(self, closed: str) -> None:
        ran = self.shell(f'"$@" {closed}', "check", "--on", ON)
        assert ran.returncode == 1
        assert ran.stderr == ""


class TestCaches:
    """Nothing that is kept from one run to the next decides anything, nor where nothing can be kept."""

    @pytest.mark.parametrize("place", ["/proc/nowhere", "/dev/null", "no/absolute/path", ""])
    def test_where_nothing_can_be_kept_the_report_is_the_same(self, write: Write, folder: Path, place: str) -> None:
        write("plan.yaml", FLAT)
        kept = dryfit("check", "plan.yaml", "--on", ON, folder=folder)
        ran = dryfit(
            "check", "plan.yaml", "--on", ON, folder=folder, environment={"XDG_CACHE_HOME": place, "HOME": "/proc"}
        )
        assert (ran.status, ran.out, ran.err) == (1, kept.out, "")

    def test_the_second_run_says_what_the_first_said(self, write: Write, folder: Path) -> None:
        write("plan.yaml", FLAT)
        first, second = (dryfit("check", "plan.yaml", "--on", ON, folder=folder) for _ in range(2))
        assert (first.status, first.out) == (second.status, second.out)

    def test_a_book_that_changes_is_read_anew(self, here: Here, write: Write) -> None:
        write("plan.yaml", PUMP_HOUSE)
        found = []
        for severity in ("improve", "put right", "improve"):
            found.append(here("check", "plan.yaml", "--rules", write("own.yaml", own_rule(severity))).status)
        assert found == [0, 1, 0]
