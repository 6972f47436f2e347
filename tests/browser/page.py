"""What the tests of the pages share: finding, filling, waiting, the whole form, and the rules of accessibility."""

from __future__ import annotations

import sys
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import urlencode

import pytest
from selenium.common.exceptions import StaleElementReferenceException
from selenium.webdriver.common.by import By
from selenium.webdriver.support.ui import Select, WebDriverWait

WAIT_SECONDS = 15
#: How often a page is looked at; half a second, the usual, is longer than most of what is waited for.
LOOK_SECONDS = 0.05
AXE = Path(sys.prefix) / "node" / "node_modules" / "axe-core" / "axe.min.js"

#: Every text field of the form, every choice, and the request that goes out.
EVERYTHING = {
    "thread": "1/2-13 UNC-2B",
    "depth": "1",
    "thickness": "1.6",
    "material": "4140",
    "finish": "ASTM B633 Fe/Zn 8",
    "ident": "KRP-4105-D1",
    "percent": "70",
    "point": "135",
    "access": "2 in",
    "clearance": "1.5",
    "limit": "1.45",
    "screw-class": "2A",
    "screw-grade": "SAE J429 grade 8",
    "drills": "27/64, 10.8 mm",
    "taps": "H7,H8",
    "speed": "3000",
    "torque": "45 N*m",
    "power": "5",
    "oversize": "0.002",
    "deviation": "0.02 mm",
}
CHOSEN = {
    "units": "inch",
    "objective": "least_torque",
    "edition": "1989",
    "tap-limits": "inch_h",
    "holder": "floating",
}
ASKED = {
    "id": "KRP-4105-D1",
    "thread": "1/2-13 UNC-2B",
    "hole": {
        "type": "blind",
        "full_thread_depth": 1,
        "thickness": 1.6,
        "drill_depth_limit": 1.45,
        "point_angle": 135,
        "access_depth": "2 in",
        "clearance_diameter": 1.5,
    },
    "material": "4140",
    "finish": "ASTM B633 Fe/Zn 8",
    "unit_system": "inch",
    "objective": "least_torque",
    "edition": "1989",
    "tap_limits": "inch_h",
    "percent_thread": 70,
    "mating_screw": {"class": "2A", "grade": "SAE J429 grade 8"},
    "stock": {"drills": ["27/64", "10.8 mm"], "taps": ["H7", "H8"]},
    "machine": {
        "max_spindle_speed": 3000,
        "max_torque": "45 N*m",
        "max_power": 5,
        "drill_oversize": {"mean": 0.002, "standard_deviation": "0.02 mm"},
        "tapping": "floating",
    },
}


def until(browser, condition):
    """What the condition gives as soon as it is true; an element that the page has exchanged is looked for again."""
    wait = WebDriverWait(browser, WAIT_SECONDS, LOOK_SECONDS, ignored_exceptions=[StaleElementReferenceException])
    return wait.until(lambda _: condition())


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


def unfold(browser):
    """Open every part of the answer that is folded."""
    browser.execute_script("document.querySelectorAll('#result details').forEach((one) => { one.open = true; })")


def request_as(browser, form):
    unfold(browser)
    Select(find(browser, "#copy-form")).select_by_visible_text(form)
    return find(browser, "#copy-text").text


def open_everything(browser, url):
    """The answer to every field, asked by the link of its page, all of it unfolded."""
    browser.get(f"{url}/?{urlencode({'type': 'blind', **EVERYTHING, **CHOSEN})}")
    ready(browser)
    unfold(browser)


def ask_everything(browser, url):
    """Every field typed and chosen by hand."""
    browser.get(url + "/")
    find(browser, ".more > summary").click()
    fill(browser, **EVERYTHING)
    for name, value in CHOSEN.items():
        Select(find(browser, f"#{name}")).select_by_value(value)
    find(browser, "#ask button[type=submit]").click()


@contextmanager
def screen(browser, width, height, *, mobile=False, scheme="light", media=""):
    """Another screen and preference of colours, or paper (``media`` print), for a while."""
    size = {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": mobile}
    browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", size)
    browser.execute_cdp_cmd("Emulation.setTouchEmulationEnabled", {"enabled": mobile})
    prefers = [
        {"name": "prefers-color-scheme", "value": scheme},
        {"name": "prefers-reduced-motion", "value": "reduce"},  # else colours of a page that is open change by and by
    ]
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": prefers, "media": media})
    try:
        yield
    finally:
        browser.execute_cdp_cmd("Emulation.clearDeviceMetricsOverride", {})
        browser.execute_cdp_cmd("Emulation.setTouchEmulationEnabled", {"enabled": False})
        browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": [], "media": ""})


#: Of what is made alike again and again, rows and entries, the first few are looked at.
THINNED = """
for (const place of document.querySelectorAll("tbody, ul, ol, dl.fields, dl.figures"))
  [...place.children].slice(6).forEach((one) => { if (!one.contains(document.activeElement)) one.remove(); });
"""
#: Of what the rules find, how many of them passed, and each that is broken with the places where it is.
TOLD = """
axe.run(%s, %s).then(({ passes, violations }) => arguments[arguments.length - 1]({
  passes: passes.length,
  violations: violations.map((one) => [one.id, one.nodes.map((node) => node.html)]),
}));
"""
#: The lines of an element as they are seen, words in folded parts and drawings left out, each with where it ends.
SEEN = """
const lines = [], words = [], walk = document.createTreeWalker(arguments[0], NodeFilter.SHOW_TEXT);
while (walk.nextNode()) {
  const node = walk.currentNode;
  if (node.parentElement.closest("svg, details:not([open]) > :not(summary)")) continue;
  for (const word of node.data.matchAll(/[^ \\n]+/g)) {
    const range = document.createRange();
    range.setStart(node, word.index);
    range.setEnd(node, word.index + word[0].length);
    const box = range.getBoundingClientRect();
    if (box.height) words.push([Math.round(box.bottom), box.left, word[0]]);
  }
}
words.sort((one, other) => one[0] - other[0] || one[1] - other[1]);
for (const [bottom, , word] of words) {
  const last = lines.at(-1);
  if (last && bottom - last[0] < 6) last[1] += ` ${word}`;
  else lines.push([bottom, word]);
}
return lines;
"""


def seen_lines(browser, selector="#result"):
    """Pairs of where a line ends, in pixels from the top, and its words."""
    return browser.execute_script(SEEN, find(browser, selector))


def violations(browser, context="document"):
    """Rules of WCAG 2.2 AA that the page breaks, each with where.

    It is thinned out, so nothing else may be asked of it afterwards.
    """
    if not AXE.is_file():
        pytest.skip(f"NO ACCESSIBILITY RULES: axe-core is not at {AXE}; `bash tests/run` puts it there")
    browser.execute_script(THINNED)
    if not browser.execute_script("return 'axe' in window"):
        browser.execute_script(AXE.read_text(encoding="utf-8"))
    # The size of targets is WCAG 2.2 AA, which axe leaves out unless it is asked for.
    rules = "{resultTypes: ['violations'], rules: {'target-size': {enabled: true}}}"
    found = browser.execute_async_script(TOLD % (context, rules))
    assert found["passes"]
    return found["violations"]
