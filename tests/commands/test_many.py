"""Many plans at once: from the command line with processes, and from Python on any executor."""

from __future__ import annotations

import json
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from datetime import date
from multiprocessing import get_context
from pathlib import Path

import pytest

from validator import check
from validator.commands.main import main

DEMOS = Path(__file__).parent.parent.parent / "plans_demo"
READY, FAULTY = str(DEMOS / "tern-cottage"), str(DEMOS / "weavers-row")
DAY = date(2027, 1, 15)


@pytest.fixture
def broken(tmp_path: Path) -> str:
    plan = tmp_path / "broken.yaml"
    plan.write_text("dryfit: 1\nwals: none\n", "utf-8")
    return str(plan)


def test_from_python_each_plan_comes_back_in_order_with_its_status(broken: str) -> None:
    checked = check([FAULTY, broken, READY], on=DAY)
    assert [(one.path, one.status) for one in checked] == [(FAULTY, 1), (broken, 2), (READY, 0)]
    assert checked[0].report["ready"] is False
    assert checked[1].report is None
    assert "wals" in checked[1].problems


def test_threads_and_processes_say_the_same_as_no_executor() -> None:
    alone = check([FAULTY, READY, FAULTY], on=DAY)
    with ThreadPoolExecutor(2) as threads:
        assert check([FAULTY, READY, FAULTY], on=DAY, executor=threads) == alone
    with ProcessPoolExecutor(2, get_context("spawn")) as processes:
        assert check([FAULTY, READY, FAULTY], on=DAY, executor=processes) == alone


@pytest.mark.filterwarnings("ignore")
def test_a_clusters_executor_judges_plans() -> None:
    """On a local cluster of `distributed`, a general-purpose engine."""
    distributed = pytest.importorskip("distributed")
    with (
        distributed.LocalCluster(n_workers=2, threads_per_worker=1, processes=False, dashboard_address=None) as cluster,
        distributed.Client(cluster) as client,
    ):
        assert [one.status for one in check([FAULTY, READY], on=DAY, executor=client.get_executor())] == [1, 0]


def test_jobs_change_nothing_in_what_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    words = ["check", FAULTY, READY, "--on", "2027-01-15"]
    assert main(words) == 1
    alone = capsys.readouterr().out
    assert main([*words, "--jobs", "2"]) == 1
    assert capsys.readouterr().out == alone


def test_several_plans_end_in_a_summary_and_the_worst_status(broken: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", READY, broken, FAULTY, "--on", "2027-01-15"]) == 2
    said = capsys.readouterr().out.splitlines()[-5:]
    assert said[0] == "3 PLANS"
    assert [line.split()[-1] for line in said[1:4]] == [READY, broken, FAULTY]
    assert said[4] == "1 ready, 1 not ready, 1 cannot be read"


def test_several_plans_as_json_are_a_list(capsys: pytest.CaptureFixture[str]) -> None:
    main(["check", READY, FAULTY, "--on", "2027-01-15", "--form", "json", "--jobs", "2"])
    assert [report["ready"] for report in json.loads(capsys.readouterr().out)] == [True, False]


def test_one_plan_has_no_summary(capsys: pytest.CaptureFixture[str]) -> None:
    main(["check", READY, "--on", "2027-01-15"])
    assert "PLANS" not in capsys.readouterr().out
