"""Puts the code of a changed module into the functions of the loaded one: who imported them keeps them and sees it."""

from __future__ import annotations

import gc
import inspect
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from types import CodeType, FunctionType

#: File, qualified name and first line of what a function is made of.
Place = tuple[str, str, int]


def place(code: CodeType) -> Place:
    """Where the code of a function stands."""
    return code.co_filename, code.co_qualname, code.co_firstlineno


def functions_below(folder: str) -> Mapping[Place, Sequence[FunctionType]]:
    """Every function that lives, by the place of its code: closures made several times, and those inside of caches."""
    found: defaultdict[Place, list[FunctionType]] = defaultdict(list)
    for one in gc.get_objects():
        if isinstance(one, FunctionType) and one.__code__.co_filename.startswith(folder):
            found[place(one.__code__)].append(one)
    return found


class ImportedOnly(Exception):
    """The change is in what runs when the module is imported: a constant, a default, the body of a class."""


def changed_codes(before: str, after: str, file: str) -> list[tuple[CodeType, CodeType]]:
    """Old and new code of each function that differs.

    Raises: ImportedOnly where what a module or the body of a class does itself differs, or functions came or went.
    """
    old_codes, new_codes = (list(_codes(compile(text, file, "exec"))) for text in (before, after))
    if len(old_codes) != len(new_codes):
        raise ImportedOnly
    differing = [(old, new) for old, new in zip(old_codes, new_codes, strict=True) if old != new]
    functions = [(old, new) for old, new in differing if new.co_flags & inspect.CO_OPTIMIZED]
    if any(_own(old) != _own(new) for old, new in differing if not new.co_flags & inspect.CO_OPTIMIZED):
        raise ImportedOnly
    return functions


def living(
    codes: Sequence[tuple[CodeType, CodeType]], functions: Mapping[Place, Sequence[FunctionType]]
) -> list[tuple[FunctionType, CodeType]]:
    """The functions that are made of an old code, each with its new one."""
    pairs = ((function, old, new) for old, new in codes for function in functions.get(place(old), ()))
    return [(function, new) for function, old, new in pairs if function.__code__ == old]


def swap(codes: Sequence[tuple[CodeType, CodeType]], functions: Mapping[Place, Sequence[FunctionType]]) -> None:
    """Give each function that lives its new code."""
    for function, new in living(codes, functions):
        function.__code__ = new


def _codes(code: CodeType) -> Iterator[CodeType]:
    yield code
    for constant in code.co_consts:
        if isinstance(constant, CodeType):
            yield from _codes(constant)


def _own(code: CodeType) -> tuple[object, ...]:
    constants = tuple(place(one) if isinstance(one, CodeType) else (type(one), one) for one in code.co_consts)
    return code.co_code, code.co_names, constants
