"""Made-up plain data as plans have it, for tests that write and read it in several syntaxes."""

from __future__ import annotations

import tomllib
from typing import Any

from hypothesis import strategies as st

from validator.plan.documents import Document
from validator.plan.names import fold
from validator.plan.pointers import join

names = st.text("abcXYZ _-/~é%&#'\"{:5.=", min_size=1, max_size=8).filter(lambda name: fold(name) != "")
values = st.text(
    st.characters(exclude_categories=("Cs", "Cc", "Co", "Cn"), exclude_characters="\u2028\u2029\ufeff")
) | st.sampled_from(["two\nlines\n", "a 'quote'", 'a "quote"', "back\\slash", "'''", '"""', ""])
plain = st.recursive(
    values | st.integers().map(str) | st.sampled_from(["no", "~", "12:30", "0o17", "<<", "&a", "*a", "true", "null"]),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(names, inner, max_size=4),
    max_leaves=12,
)
plans = st.dictionaries(names, plain, min_size=1, max_size=4)


def has_one_name_twice(data: Any) -> bool:
    if isinstance(data, dict):
        return len({fold(name) for name in data}) < len(data) or any(map(has_one_name_twice, data.values()))
    return isinstance(data, list) and any(map(has_one_name_twice, data))


def scalars(data: Any, pointer: str = "") -> list[tuple[str, Any]]:
    """Every text in the data with its pointer."""
    if isinstance(data, dict):
        return [found for name, value in data.items() for found in scalars(value, join(pointer, name))]
    if isinstance(data, list):
        return [found for at, value in enumerate(data) for found in scalars(value, join(pointer, at))]
    return [(pointer, data)]


def as_texts(data: Any, document: Document | None = None, pointer: str = "") -> Any:
    """The data with everything that is no text, list or group as it is written in the document; checked one by one."""
    if isinstance(data, dict):
        return {name: as_texts(value, document, join(pointer, name)) for name, value in data.items()}
    if isinstance(data, list):
        return [as_texts(value, document, join(pointer, at)) for at, value in enumerate(data)]
    if isinstance(data, str) or document is None:
        return data
    written = document.written(pointer)
    assert tomllib.loads(f"value = {written}") == {"value": data}
    return written
