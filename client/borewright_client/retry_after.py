"""How long a service asks to wait: whatever it says, within bounds."""

from __future__ import annotations

import math
import time
from email.utils import mktime_tz, parsedate_tz

from urllib3.util.retry import Retry

#: Whoever says more, or a date long gone or far off, has a clock or a setting that is wrong.
LONGEST_SECONDS = 60.0


def seconds(said: str | None) -> float | None:
    """Seconds of a ``Retry-After``: a number or a date of HTTP; None where there is none that can be read."""
    if said is None:
        return None
    try:
        found = float(said)
    except ValueError:
        date = parsedate_tz(said)
        if date is None:
            return None
        try:
            found = mktime_tz(date) - time.time()
        except (ValueError, OverflowError):
            return None
    return None if math.isnan(found) else min(max(found, 0.0), LONGEST_SECONDS)


class BoundedRetry(Retry):
    """urllib3's, which would wait for hours, and fail on what it cannot read."""

    def parse_retry_after(self, retry_after: str) -> float:
        """Seconds to wait; 0 leaves it to the backoff."""
        return seconds(retry_after) or 0.0
