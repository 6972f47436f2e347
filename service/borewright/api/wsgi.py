"""The application that a WSGI server loads: settings from the environment, read once."""

import os

from .application import create_app
from .keys import KeysError
from .settings import SettingsError, from_environment
from .shared_answers import among_workers

try:
    settings = from_environment(os.environ)
    app = create_app(settings, among_workers(settings.shared_answers_bytes, settings.workers))
except (SettingsError, KeysError) as error:
    raise SystemExit(f"Borewright cannot start: {error}") from None
