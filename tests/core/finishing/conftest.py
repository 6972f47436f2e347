"""Puts `allowances`, what the tests of finishes share, where they find it."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
