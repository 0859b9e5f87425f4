"""The working of a figure as a line that can be followed with a pencil."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from validator.measures.rows import Figure, Known, Row
from validator.measures.tracing import Step, at_this_end, trace
from validator.reporting.printing import Printer

MOST_TERMS = 9


class Working(NamedTuple):
    """One line of working: what is worked out, how, and what comes out; `below` are the lines of its parts."""

    label: str
    sum: str
    result: str
    below: tuple[Working, ...] = ()
    pointers: tuple[str, ...] = ()

    def flat(self) -> Iterator[tuple[int, Working]]:
        """The lines from the top down with their depth; what several of them rest on stands once, below the first."""
        yield from self._flat(0, set())

    def _flat(self, depth: int, told: set[tuple[str, str, str]]) -> Iterator[tuple[int, Working]]:
        line = self.label, self.sum, self.result
        if depth and line in told:
            return
        told.add(line)
        yield depth, self
        for part in self.below:
            yield from part._flat(depth + 1, told)


def work_out(row: Row, name: str, printer: Printer, *, depth: int = 8) -> Working | None:
    """The working of a figure or field of a row, down to what the plan says; None where something is missing."""
    step, seen = trace(row, name)
    if seen.missing or not isinstance(step, Step):
        return None
    label = step.label or name
    below: list[Working] = []
    if depth > 0:
        for source in _sources(step):
            origin = at_this_end(source)
            if origin is not None:
                part = work_out(*origin, printer, depth=depth - 1)
                if part is not None and part.sum:
                    below.append(_called(part, source.label))
    return Working(
        printer.text(label),
        _sum(step, printer) if step.operands else "",
        printer.value(step.value, step.dimension),
        tuple(below),
        tuple(dict.fromkeys(source.pointer for source in _sources(step))),
    )


def datum(row: Row, name: str, printer: Printer) -> str:
    """From where a figure is measured, in words: `from pan supports`; empty where it says nothing."""
    figure = row.figures.get(name)
    if not isinstance(figure, Figure) or not figure.start:
        return ""
    return printer.text(f"from {figure.start} to {figure.end}")


def pointers(working: Working) -> Iterator[str]:
    """Where in the plan the values of a working stand, nearest first."""
    for _, line in working.flat():
        yield from line.pointers


def _called(working: Working, label: str) -> Working:
    return Working(label or working.label, working.sum, working.result, working.below, working.pointers)


def _sources(step: Step) -> Iterator[Known]:
    for leaf in step.leaves():
        if leaf.source is not None:
            yield leaf.source


def _sum(step: Step, printer: Printer) -> str:
    return _shown(Step(step.value, step.dimension, "", step.sign, step.operands), printer)


def _shown(step: Step, printer: Printer) -> str:
    if step.sign in ("+", "−"):
        terms = [term for term in _terms(step, "+") if term[1].value or term[1].operands] or _terms(step, "+")
        if len(terms) > MOST_TERMS:
            terms = _terms(step, "+", named=True)
        if len(terms) > MOST_TERMS:
            return f"{printer.value(step.value, step.dimension)} ({len(terms)} parts)"
        shown = " ".join(f"{sign} {_factor(term, printer)}" for sign, term in terms)
        return shown.removeprefix("+ ")
    if step.sign in ("×", "÷"):
        first, *others = step.operands
        divided = step.sign == "÷"
        factors = [_factor(first, printer), *(_factor(other, printer, divides=divided) for other in others)]
        return f" {step.sign} ".join(factors)
    if len(step.operands) == 1 and step.sign in ("least of", "most of"):
        return _factor(step.operands[0], printer)
    if step.operands:
        return f"{step.sign} ({', '.join(_shown(operand, printer) for operand in step.operands)})"
    return f"{printer.value(step.value, step.dimension)} {printer.text(step.label)}".strip()


def _terms(step: Step, sign: str, *, named: bool = False) -> list[tuple[str, Step]]:
    """The terms of a sum with their signs, sums inside sums opened up; where `named`, only those without a name."""
    if step.sign not in ("+", "−") or not step.operands:
        return [(sign, step)]
    if named and step.label:
        return [(sign, Step(step.value, step.dimension, step.label))]
    first, *others = step.operands
    found = _terms(first, sign, named=named)
    turned = sign if step.sign == "+" else _turned(sign)
    for operand in others:
        found += _terms(operand, turned, named=named)
    return found


def _turned(sign: str) -> str:
    return "−" if sign == "+" else "+"


def _factor(step: Step, printer: Printer, *, divides: bool = False) -> str:
    """A step inside another: a labelled product by its name, an unlabelled sum in brackets, and a product that divides
    as well.
    """
    if step.label and step.operands and step.sign not in ("+", "−"):
        return f"{printer.value(step.value, step.dimension)} {printer.text(step.label)}"
    shown = _shown(step, printer)
    bracketed = ("+", "−", "×", "÷") if divides else ("+", "−")
    return f"({shown})" if step.sign in bracketed and len(step.operands) > 1 else shown
