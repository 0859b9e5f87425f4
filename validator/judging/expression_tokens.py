"""Cutting the text of an expression into tokens, and holding it to the grammar, before anything else looks at it.

Everything the language does not have is refused here with the place and what to write instead.
"""

from __future__ import annotations

import re
import unicodedata
from typing import Literal, NamedTuple

from validator.judging.expression_trees import BadExpression
from validator.plan.quantities import BadQuantity, literal_pattern, parse_literal

LONGEST = 400
"""Characters in one expression; the longest a rule has needed is under a hundred."""

MOST_TOKENS = 120
DEEPEST_BRACKETS = 12

Kind = Literal["quantity", "number", "word", "name", "sign"]

_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?")
_NAME = re.compile(r"[^\W\d]\w*(?:\.\w+)*")
_SIGN = re.compile(r"==|!=|<=|>=|\*\*|//|:=|&&|\|\||<>|[^\w\s]")
_NOT_IN = re.compile(r"not\s+in\b")
_GAP = re.compile(r"[ \t\r\n]*")
_RUN = re.compile(r"[\w.]+")

_BINARY = frozenset(("==", "!=", "<=", ">=", "<", ">", "+", "-", "*", "/", "and", "or", "in", "not in"))
_SIGNS = _BINARY | {"(", ")", "[", "]", ",", "not"}
_CLOSES = {")": "(", "]": "["}
_BEFORE_NOT = frozenset(("", "(", ",", "and", "or", "not"))

_WRITE_INSTEAD = {
    "=": "write == to compare",
    ":=": "nothing can be given a name here",
    "<>": "write != for «not the same»",
    "**": "there are no powers; multiply the value by itself",
    "//": "write / to divide",
    "%": "a percentage stands behind a number, as in `30 %`",
    "&": "write and",
    "&&": "write and",
    "|": "write or",
    "||": "write or",
    "!": "write not",
    "~": "write not",
    "≤": "write <=",
    "≥": "write >=",
    "≠": "write !=",
    "×": "write *",
    "·": "write *",
    "÷": "write /",
    "−": "write - for minus",
    "–": "write - for minus",
    "‘": "write straight quotes: '",
    "’": "write straight quotes: '",
    "“": "write straight quotes: '",
    "”": "write straight quotes: '",
    ".": "write a figure before and after the point, as in `0.5 mm`",
}
_STRANGE_WORDS = {
    "is": "write == to compare",
    "AND": "write and",
    "OR": "write or",
    "NOT": "write not",
    "IN": "write in",
    "true": "a yes or no stands alone, or behind not",
    "false": "a yes or no stands alone, or behind not",
    "True": "a yes or no stands alone, or behind not",
    "False": "a yes or no stands alone, or behind not",
    "None": "what is not known needs no word: it makes the rule *not known*",
    "if": "write the condition alone, with and, or, not",
    "else": "write the condition alone, with and, or, not",
    "for": "lists are worked out before a rule sees them; use a figure",
    "lambda": "a rule compares figures; it has no functions",
}


class Token(NamedTuple):
    """A piece of the text and where it starts. The text of a word is what stands between its quotes."""

    kind: Kind
    text: str
    offset: int

    @property
    def is_operand(self) -> bool:
        return self.kind != "sign"


def tokens(text: str) -> list[Token]:
    """The tokens of an expression, in an order the grammar allows. Raises BadExpression."""
    if len(text) > LONGEST:
        raise BadExpression(f"an expression may have {LONGEST} characters, and this has {len(text)}", LONGEST)
    _visible(text)
    found: list[Token] = []
    at = _gap(text, 0)
    while at < len(text):
        if len(found) == MOST_TOKENS:
            raise BadExpression(f"an expression may have {MOST_TOKENS} words and signs", at)
        token, at = _token(text, at)
        found.append(token)
        at = _gap(text, at)
    _in_order(found, len(text))
    return found


def _visible(text: str) -> None:
    for offset, letter in enumerate(text):
        if letter not in " \t\r\n" and unicodedata.category(letter)[0] in "CZ":
            raise BadExpression(f"a character that cannot be seen stands here (U+{ord(letter):04X})", offset)


def _gap(text: str, at: int) -> int:
    gap = _GAP.match(text, at)
    return gap.end() if gap else at


def _token(text: str, at: int) -> tuple[Token, int]:
    letter = text[at]
    if letter in "'\"":
        return _word(text, at)
    if number := _NUMBER.match(text, at):
        return _number(text, number)
    if name := _NOT_IN.match(text, at):
        return Token("sign", "not in", at), name.end()
    if name := _NAME.match(text, at):
        return _name(name.group(), at), name.end()
    sign = _SIGN.match(text, at)
    if sign and sign.group() in _SIGNS:
        return Token("sign", sign.group(), at), sign.end()
    raise _refusal(sign.group() if sign else letter, at)


def _word(text: str, at: int) -> tuple[Token, int]:
    end = text.find(text[at], at + 1)
    if end < 0:
        raise BadExpression("this quote is never closed", at)
    return Token("word", text[at + 1 : end], at), end + 1


def _number(text: str, number: re.Match[str]) -> tuple[Token, int]:
    at = number.start()
    quantity = literal_pattern().match(text, at)
    if quantity and quantity.end() > number.end() and not _RUN.match(text, quantity.end()):
        return Token("quantity", quantity.group(), at), quantity.end()
    if run := _RUN.match(text, number.end()):
        raise BadExpression(f"`{number.group()}{run.group()}` is neither a number nor a quantity, as `650 mm` is", at)
    return Token("number", number.group(), at), number.end()


def _name(name: str, at: int) -> Token:
    if name in _STRANGE_WORDS:
        raise _refusal(name, at)
    return Token("sign" if name in _SIGNS else "name", name, at)


def _refusal(sign: str, at: int) -> BadExpression:
    hint = _WRITE_INSTEAD.get(sign) or _STRANGE_WORDS.get(sign)
    return BadExpression(f"`{sign}` has no meaning in a rule" + (f": {hint}" if hint else ""), at)


def _no_unit(number: Token, unit: Token) -> BadExpression:
    try:
        parse_literal(f"{number.text} {unit.text}")
    except BadQuantity as problem:
        return BadExpression(problem.message, unit.offset, problem.nearest)
    return BadExpression(f"`{unit.text}` is no unit that a rule can have", unit.offset)


def _in_order(found: list[Token], end: int) -> None:
    """Hold the tokens to the grammar: operands and signs by turns, brackets closed."""
    if not found:
        raise BadExpression("there is nothing here: a condition or a figure is expected", 0)
    brackets: list[Token] = []
    before: Token | None = None
    for token in found:
        if before is None or _wants_more(before):
            _starts(token, before, brackets)
        else:
            _goes_on(token, before, brackets)
        before = token
    if before is not None and _wants_more(before):
        raise BadExpression(f"nothing stands behind `{before.text}`", before.offset)
    if brackets:
        raise BadExpression("this bracket is never closed", brackets[-1].offset)


def _wants_more(token: Token) -> bool:
    """Whether an operand is due behind this token."""
    return not token.is_operand and token.text not in _CLOSES


def _starts(token: Token, before: Token | None, brackets: list[Token]) -> None:
    """A token where an operand is due."""
    last = before.text if before else ""
    if token.is_operand or token.text == "-":
        return
    if token.text == "(" or (token.text == "[" and last in ("in", "not in")):
        brackets.append(token)
        if len(brackets) > DEEPEST_BRACKETS:
            raise BadExpression(f"brackets may stand {DEEPEST_BRACKETS} deep", token.offset)
    elif token.text == "[":
        raise BadExpression("a list in brackets can only stand behind `in`", token.offset)
    elif token.text == "not" and last not in _BEFORE_NOT:
        raise BadExpression("put brackets round what is denied: (not …)", token.offset)
    elif token.text in _CLOSES and last == "," and brackets:
        _close(token, brackets)
    elif token.text in _CLOSES and last in _CLOSES.values():
        raise BadExpression("nothing stands between these brackets", token.offset)
    elif token.text != "not":
        raise BadExpression(f"nothing stands before `{token.text}`", token.offset)


def _goes_on(token: Token, before: Token, brackets: list[Token]) -> None:
    """A token behind an operand."""
    if token.text == "(" and before.kind == "name":
        message = f"`{before.text}(…)`: nothing can be called in a rule; use a figure of the row"
        raise BadExpression(message, before.offset)
    if token.is_operand or token.text in ("(", "[", "not"):
        if before.kind == "number" and token.kind == "name":
            raise _no_unit(before, token)
        raise BadExpression(f"a sign is missing between `{before.text}` and `{token.text}`", token.offset)
    if token.text == "," and not brackets:
        raise BadExpression("no bracket is open before `,`", token.offset)
    if token.text in _CLOSES:
        _close(token, brackets)


def _close(token: Token, brackets: list[Token]) -> None:
    if not brackets or brackets[-1].text != _CLOSES[token.text]:
        raise BadExpression(f"no bracket is open that `{token.text}` closes", token.offset)
    brackets.pop()
