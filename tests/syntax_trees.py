"""Modules of the project as syntax trees: each is parsed once in a process, whichever tests look at it."""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path


@cache
def nodes(path: Path) -> tuple[ast.AST, ...]:
    """Every node of a module, the module first; they are shared, so nobody changes them."""
    return tuple(ast.walk(ast.parse(path.read_text(encoding="utf-8"))))


def module(path: Path) -> ast.Module:
    """A module as a tree."""
    tree = nodes(path)[0]
    assert isinstance(tree, ast.Module)
    return tree
