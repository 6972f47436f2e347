"""The version of the rules: a fingerprint of the domain's own code."""

from __future__ import annotations

import hashlib
from pathlib import Path

from borewright.core.caches import read_once

_FOLDER = Path(__file__).parent.parent


@read_once
def version() -> str:
    """Fingerprint of every module of the domain: the ``rules_version`` of a reply."""
    digest = hashlib.sha256()
    for path in sorted(_FOLDER.rglob("*.py")):
        digest.update(path.relative_to(_FOLDER).as_posix().encode())
        digest.update(path.read_bytes())
    return digest.hexdigest()[:12]
