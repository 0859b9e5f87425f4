"""Whether a plan is ready: per stage of the work, and as a whole.

Ready means that no *stop* and no *put right* is not met and no *stop* is not known, for the stage and those before it.
"""

from __future__ import annotations

from typing import NamedTuple

from validator.judging.apply import Judgement
from validator.judging.outcomes import Outcome, Result
from validator.judging.rules import SEVERITIES, Severity


class StageVerdict(NamedTuple):
    """One stage: `blocking` stands in its way, `open` is not known but does not, `earlier` stages come first.

    Without a country nobody knows what the national rules would say of it.
    """

    stage: str
    question: str
    blocking: tuple[Outcome, ...]
    open: tuple[Outcome, ...]
    earlier: tuple[str, ...]
    country_missing: bool = False

    @property
    def ready(self) -> bool:
        return not self.blocking and not self.earlier and not self.country_missing


def blocks(outcome: Outcome, fail_on: Severity = "put right") -> bool:
    """Whether an outcome makes the plan not ready. `fail_on` is the mildest severity that does when *not met*."""
    if outcome.result is Result.NOT_MET:
        return SEVERITIES.index(outcome.rule.severity) <= SEVERITIES.index(fail_on)
    return outcome.result is Result.NOT_KNOWN and outcome.rule.severity == "stop"


def stage_verdicts(judgement: Judgement, fail_on: Severity = "put right") -> list[StageVerdict]:
    """A verdict for each stage, in the order of the work."""
    verdicts: list[StageVerdict] = []
    for stage, question in judgement.site.library.stages.items():
        of_stage = [outcome for outcome in judgement.outcomes if outcome.rule.before == stage]
        verdicts.append(
            StageVerdict(
                stage,
                question,
                tuple(outcome for outcome in of_stage if blocks(outcome, fail_on)),
                tuple(
                    outcome
                    for outcome in of_stage
                    if outcome.result is Result.NOT_KNOWN and not blocks(outcome, fail_on)
                ),
                tuple(verdict.stage for verdict in verdicts if verdict.blocking),
                judgement.books.country_missing,
            )
        )
    return verdicts


def ready(judgement: Judgement, fail_on: Severity = "put right") -> bool:
    """Whether the whole plan is ready. A plan that names no country is not: its national rules are not known."""
    return not judgement.books.country_missing and not any(blocks(outcome, fail_on) for outcome in judgement.outcomes)
