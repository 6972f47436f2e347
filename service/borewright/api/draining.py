"""Whether this process is stopping: it then takes no new requests, so that balancers and clients go elsewhere."""

from __future__ import annotations

from threading import Event

#: Seconds after which a client asks again; a restart takes less.
RETRY_AFTER_SECONDS = 2

STOPPING = Event()
