"""What the tests of the pages share: finding, filling, waiting, and the rules of accessibility."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from selenium.webdriver.common.by import By
from selenium.webdriver.support.ui import WebDriverWait

WAIT_SECONDS = 15
AXE = Path(sys.prefix) / "node" / "node_modules" / "axe-core" / "axe.min.js"


def until(browser, condition):
    return WebDriverWait(browser, WAIT_SECONDS).until(lambda _: condition())


def find(browser, selector):
    return browser.find_element(By.CSS_SELECTOR, selector)


def fill(browser, **fields):
    for name, text in fields.items():
        field = find(browser, f"#{name}")
        field.clear()
        field.send_keys(text)


def specify(browser, url, **fields):
    browser.get(url + "/")
    fill(browser, **fields)
    find(browser, "button[type=submit]").click()


def ready(browser):
    until(browser, lambda: find(browser, "#result").is_displayed())
    return find(browser, "#result").text


def violations(browser, context="document"):
    if not AXE.is_file():
        pytest.skip(f"NO ACCESSIBILITY RULES: axe-core is not at {AXE}; `bash tests/run` puts it there")
    browser.execute_script(AXE.read_text(encoding="utf-8"))
    found = browser.execute_async_script(f"axe.run({context}).then(arguments[arguments.length - 1])")
    assert found["passes"]
    return [(one["id"], [node["html"] for node in one["nodes"]]) for one in found["violations"]]
