"""A real browser: Debian's Chromium without a screen, driven by its own chromedriver."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

FLAGS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
)


def pytest_collection_modifyitems(items):
    missing = [program for program in ("chromium", "chromedriver") if shutil.which(program) is None]
    if not missing:
        return
    reason = f"NO BROWSER TESTS: {' and '.join(missing)} missing; install Debian's chromium and chromium-driver"
    here = Path(__file__).parent
    for item in items:
        if here in item.path.parents:
            item.add_marker(pytest.mark.skip(reason=reason))


sys.path.insert(0, str(Path(__file__).parent))  # `page`, what the tests of the pages share


@pytest.fixture(scope="session")
def chromium(tmp_path_factory) -> Iterator[object]:
    from selenium import webdriver
    from selenium.webdriver.chrome.service import Service

    options = webdriver.ChromeOptions()
    options.binary_location = shutil.which("chromium")
    for flag in (*FLAGS, f"--user-data-dir={tmp_path_factory.mktemp('chromium')}", "--window-size=1100,1400"):
        options.add_argument(flag)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL"})
    service = Service(shutil.which("chromedriver"), log_output=os.devnull)
    driver = webdriver.Chrome(options=options, service=service)
    yield driver
    driver.quit()


@pytest.fixture
def browser(chromium, service_url):
    """The browser with next to an empty page; at the end nothing may stand in its console as an error.

    The page is one of the service: for one of no site, and again for the next, the browser would start a process each.
    """
    chromium.set_window_size(1100, 1400)
    chromium.get(f"{service_url}/health/live")
    chromium.get_log("browser")
    yield chromium
    expected = ("422",)  # the browser itself logs every refused request
    assert [
        entry["message"]
        for entry in chromium.get_log("browser")
        if entry["level"] == "SEVERE" and not any(code in entry["message"] for code in expected)
    ] == []
