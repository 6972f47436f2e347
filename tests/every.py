"""One test for the rows of a table: it goes through all of them and names each one that fails.

Thousands of rows as tests of their own take longer to hand out and to report than to be tried.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable, Iterable, Sequence
from functools import wraps
from typing import Any

#: After so many failures the rest of the rows would tell nothing new.
_ENOUGH = 20


def every(
    names: str | Sequence[str],
    rows: Iterable[Any] | Callable[[], Iterable[Any]],
    *,
    ids: Callable[[Any], Any] | None = None,
) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """Try a test with every one of ``rows``, as ``pytest.mark.parametrize`` does, but as a single test.

    Args: ``names`` of its arguments that a row fills; ``rows`` themselves, or what gives them when the test runs;
        ``ids`` names a value where it fails; the others are fixtures.
    """
    filled = [name.strip() for name in names.split(",")] if isinstance(names, str) else list(names)
    read = rows if callable(rows) else None
    given = [] if callable(rows) else [tuple(row) if len(filled) > 1 else (row,) for row in rows]

    def decorated(test: Callable[..., None]) -> Callable[..., None]:
        signature = inspect.signature(test)

        @wraps(test)
        def of_every_row(**fixtures: Any) -> None:
            table = given if read is None else [tuple(row) if len(filled) > 1 else (row,) for row in read()]
            assert table, "no rows to try"
            failed: list[str] = []
            for row in table:
                try:
                    test(**dict(zip(filled, row, strict=True)), **fixtures)
                except Exception as error:
                    failed.append(f"{', '.join(str(ids(cell) if ids else cell) for cell in row)}: {error!r}")
                    if len(failed) == _ENOUGH:
                        break
            assert not failed, "\n".join([f"rows of {len(table)} that fail:", *failed])

        del of_every_row.__wrapped__  # type: ignore[attr-defined]
        kept = [one for name, one in signature.parameters.items() if name not in filled]
        of_every_row.__signature__ = signature.replace(parameters=kept)  # type: ignore[attr-defined]
        return of_every_row

    return decorated
