"""The application that a WSGI server loads: settings from the environment, read once."""

import os

from .application import create_app
from .settings import from_environment

app = create_app(from_environment(os.environ))
