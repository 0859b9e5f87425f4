"""What a change of a plan brought, cured and moved, as data for machines."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from validator.judging.apply import Judgement
from validator.judging.outcomes import Outcome
from validator.judging.ready import ready
from validator.judging.rules import Severity
from validator.reporting.change_words import Since
from validator.reporting.changes import Changes, Pair
from validator.reporting.json_form import errand_data, outcome_data
from validator.reporting.printing import Printer

FORM = 1


def data(changes: Changes, now: Judgement, since: Since, on: date, fail_on: Severity) -> dict[str, Any]:
    """A change as plain data; outcomes and errands as the report of a plan has them."""
    printer, plan = Printer(now.site), now.site.plan
    before = since.judgement
    printer_before = printer if before is None else Printer(before.site)

    def outcome(found: Outcome | None, by: Printer) -> dict[str, Any] | None:
        return None if found is None else outcome_data(found, by)

    def both(pairs: Sequence[Pair]) -> list[dict[str, Any]]:
        return [{"before": outcome(pair.before, printer_before), "now": outcome(pair.now, printer)} for pair in pairs]

    return {
        "dryfit changes": FORM,
        "on": on.isoformat(),
        "plan": {
            "title": plan.project.title,
            "country": plan.project.country,
            "files": list(plan.files),
            "digest": plan.digest,
        },
        "since": {
            "revision": since.revision,
            "commit": since.commit,
            "could be read": before is not None,
            "mistakes": list(since.mistakes),
            "ready": None if before is None else ready(before, fail_on),
        },
        "ready": ready(now, fail_on),
        "brings what blocks": changes.blocks(fail_on),
        "country lost": changes.country_lost,
        "brought": both(changes.brought),
        "cured": both(changes.cured),
        "moved": both(changes.moved),
        "asked": [errand_data(errand, now, printer) for errand in changes.asked],
        "answered": [errand_data(errand, before, printer_before) for errand in changes.answered if before is not None],
        "as before": {"points": changes.unchanged_points, "errands": changes.unchanged_errands},
    }
