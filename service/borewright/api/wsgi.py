"""The application that a WSGI server loads: settings from the environment, read once."""

import os

from .application import create_app
from .keys import KeysError
from .settings import SettingsError, from_environment

try:
    app = create_app(from_environment(os.environ))
except (SettingsError, KeysError) as error:
    raise SystemExit(f"Borewright cannot start: {error}") from None
