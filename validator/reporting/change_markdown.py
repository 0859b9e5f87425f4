"""What a change of a plan brought, cured and moved, as Markdown: a comment that says only what the change did."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from validator.judging.apply import Judgement
from validator.judging.rules import Severity
from validator.reporting.change_words import ANSWERED, ASKED, BROUGHT, CURED, MOVED, ChangeWords, Since
from validator.reporting.changes import Changes
from validator.reporting.lines import day
from validator.reporting.markdown import PlanReport, items, word
from validator.reporting.markdown_room import Block, Part, under
from validator.reporting.markdown_text import plain, table
from validator.reporting.points import put_together
from validator.reporting.printing import Printer
from validator.reporting.summary import NO_COUNTRY, STANDING_SENTENCE


def part(changes: Changes, now: Judgement, since: Since, on: date, fail_on: Severity) -> Part:
    """The report of one change, as a part of a comment."""
    words = ChangeWords(changes, now, put_together(now), Printer(now.site), since, fail_on, unit=True)
    title = plain(now.site.plan.project.title or now.site.plan.files[0])
    blocks = tuple(_blocks(words, changes, PlanReport(now, on, fail_on)))
    head = "\n\n".join(_head(words, changes, since, on, title))
    foot = f"{words.as_before}\n\n**{words.whole_plan}** {STANDING_SENTENCE}"
    return Part(title, not changes.blocks(fail_on), words.verdict, words.in_numbers, head, blocks, foot)


def _head(words: ChangeWords, changes: Changes, since: Since, on: date, title: str) -> Iterator[str]:
    yield f"## {words.verdict}: {title}"
    if words.in_numbers:
        yield words.in_numbers
    if words.unreadable_then:
        yield plain(words.unreadable_then)
    if changes.country_lost:
        yield NO_COUNTRY
    yield f"{day(on)}. Since: {plain(since.revision)} `{since.commit[:9]}`."


def _blocks(words: ChangeWords, changes: Changes, report: PlanReport) -> Iterator[Block]:
    brought = [Block("point", "\n".join([report.point(point), *items("was", was)])) for point, was in words.brought()]
    yield from under(BROUGHT, brought)
    yield from under(ASKED, [Block("errand", report.errand(errand)) for errand in changes.asked])
    rows = [
        [plain(cell) for cell in (word(m.severity), m.about, m.have, m.need, f"{m.out} {m.short}".strip())]
        for m in words.moved()
    ]
    if rows:
        yield from under(MOVED, [Block("note", "\n".join(table(("", "what", "have", "need", ""), rows)))])
    cured = ["\n".join(line for became, said in words.cured() for line in items(became, said))]
    yield from under(CURED, [Block("note", text) for text in cured if text])
    answered = ["\n".join(f"- {plain(said)}" for said in words.answered())]
    yield from under(ANSWERED, [Block("note", text) for text in answered if text])
