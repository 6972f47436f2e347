"""The published documents as the service sends them: as they lie in the distribution, else made from the code.

They take seconds of processor time to make. A wheel carries those of the repository, which are held to the code by
`publish --check` and a test; where the code runs from the repository itself they are made once a process.
"""

from __future__ import annotations

from importlib.resources import files

from borewright.core.caches import read_once

#: Where the build of the wheel puts them (pyproject.toml).
_HELD = files(__package__) / "held"


@read_once
def openapi_json() -> bytes:
    """openapi/openapi.json."""
    held = _HELD / "openapi.json"
    if held.is_file():
        return held.read_bytes()
    from . import published  # slow to import

    return published.openapi_json()


@read_once
def schemas_json() -> dict[str, bytes]:
    """schemas/<name>.schema.json by name."""
    held = _HELD / "schemas"
    if held.is_dir():
        return {one.name.removesuffix(".schema.json"): one.read_bytes() for one in held.iterdir()}
    from . import published

    return published.schemas_json()
