"""The answer stands on the first screen, whatever the screen; the address opens the hole again."""

from __future__ import annotations

import re

import pytest
import requests
from page import fill, find, ready, screen, seen_lines, specify, until, violations
from selenium.webdriver.common.by import By
from selenium.webdriver.support.ui import Select

PLATED = "thread=1/2-13+UNC-2B&type=blind&depth=1&thickness=1.6&material=4140&finish=ASTM+B633+Fe/Zn+8"
#: Plated, infeasible, taper pipe, hard, large, galvanized.
HOLES = (
    PLATED,
    "thread=%234-40+UNC-2B&type=blind&depth=0.5&material=304&finish=ASTM+B633+Fe/Zn+12",
    "thread=1/4-18+NPT&type=blind&material=A36",
    "thread=M10&type=blind&depth=20&material=4140+45+HRC",
    "thread=2-4.5+UNC-2B&type=blind&depth=3&material=A36",
    "thread=3/8-16+UNC-2B&type=through&thickness=0.75&material=A36&finish=ASTM+A153",
)
SCREENS = {"desk": (1280, 800, False), "phone": (390, 844, True)}


def bottom(browser, selector):
    return browser.execute_script(f"return document.querySelector('{selector}').getBoundingClientRect().bottom")


@pytest.mark.parametrize("name", SCREENS)
def test_the_answer_is_found_at_a_glance(browser, service_url, name):
    """Drill, depth, tap, speed, gauge and what to decide in the first twelve lines, the section on the first screen."""
    width, height, mobile = SCREENS[name]
    with screen(browser, width, height, mobile=mobile):
        for query in HOLES:
            browser.get(f"{service_url}/?{query}")
            ready(browser)
            assert browser.execute_script("return scrollY") == 0
            assert bottom(browser, "dl.card") <= height
            assert bottom(browser, "#section svg") <= height, query
            assert browser.execute_script("return document.documentElement.scrollWidth") <= width
            found_within(browser, 12)
            browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": "print"})
            if name == "desk":
                found_within(browser, 12)
            browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": ""})


def found_within(browser, count):
    """Each entry of the card begins, and what is to be decided stands, within so many lines."""
    lines = [words for _, words in seen_lines(browser)[:count]]
    for entry in ("Drill", "Tap", "Depth", "Speed", "Gauge"):
        assert any(re.match(rf"{entry} \S", line) for line in lines), (entry, lines)
    for decision in browser.find_elements(By.CSS_SELECTOR, "#decide li")[:1]:
        assert any(decision.text[:20] in line for line in lines), (decision.text, lines)


def test_the_page_is_no_longer_than_three_screens(browser, service_url):
    """Before the details were folded this hole took 6,620 pixels."""
    with screen(browser, 1280, 800):
        browser.get(f"{service_url}/?{PLATED}")
        ready(browser)
        assert browser.execute_script("return document.documentElement.scrollHeight") < 2400


def test_what_is_touched_is_large_enough(browser, service_url):
    """44 pixels (WCAG 2.2, target size enhanced) for whatever a finger presses; links in a sentence are exempt."""
    with screen(browser, 390, 844, mobile=True):
        browser.get(f"{service_url}/?{PLATED}")
        ready(browser)
        find(browser, "#asking > summary").click()
        pressed = "button, summary, select, input[type=text], .pick, nav a"
        sizes = {
            one.get_attribute("outerHTML")[:60]: one.size["height"]
            for one in browser.find_elements(By.CSS_SELECTOR, pressed)
            if one.is_displayed()
        }
        assert len(sizes) > 15
        assert {name: high for name, high in sizes.items() if high < 44} == {}


def test_the_address_opens_the_hole_again(browser, service_url):
    """Sent, reloaded, gone back to and opened elsewhere, with every kind of field; the title names the hole."""
    specify(browser, service_url, thread="M8", depth="16")
    assert "M8" in ready(browser)
    assert browser.title.startswith("M8")
    first = browser.current_url
    find(browser, ".more > summary").click()
    fill(browser, thread="M10", ident="KRP-7 & 8", drills="8.5 mm, 8.6 mm")
    Select(find(browser, "#objective")).select_by_value("least_torque")
    find(browser, "#ask button[type=submit]").click()
    until(browser, lambda: "M10" in browser.title)
    second = browser.current_url
    browser.refresh()
    assert "M10" in ready(browser)
    assert find(browser, "#drills").get_attribute("value") == "8.5 mm, 8.6 mm"
    assert find(browser, "#ident").get_attribute("value") == "KRP-7 & 8"
    assert find(browser, "#objective").get_attribute("value") == "least_torque"
    browser.back()
    until(browser, lambda: browser.title.startswith("M8"))
    assert browser.current_url == first
    assert find(browser, "#ident").get_attribute("value") == ""
    browser.get("about:blank")
    browser.get(second)
    assert "KRP-7 & 8" in ready(browser)
    browser.get(f"{first}&finsh=ASTM+B633+Fe/Zn+8")  # without its finish it would be another hole
    until(browser, lambda: "finsh" in find(browser, "#refused").text)
    assert find(browser, "#thread").get_attribute("value") == "M8"
    assert not find(browser, "#result").is_displayed()


def test_the_colours_follow_the_preference(browser, service_url):
    grounds = set()
    for scheme in ("light", "dark"):
        with screen(browser, 1100, 1400, scheme=scheme):
            browser.get(f"{service_url}/?{PLATED}")
            ready(browser)
            grounds.add(browser.execute_script("return getComputedStyle(document.documentElement).backgroundColor"))
    assert len(grounds) == 2


def test_the_code_of_a_link_is_made_of_this_service_alone(service_url):
    def code(address):
        return requests.get(f"{service_url}/link.svg", {"address": address}, timeout=10)

    made = code(f"{service_url}/?{PLATED}")
    assert made.status_code == 200
    assert made.headers["Content-Type"].startswith("image/svg+xml")
    assert code("https://elsewhere.example/?thread=M8").status_code == 404
    assert code(f"javascript:{service_url}").status_code == 404
    assert code("http://[").status_code == 404
    assert code(f"{service_url}/?thread={'8' * 1300}").status_code == 414


def test_holes_stand_side_by_side(browser, service_url):
    """The other class and the hole without its finish beside that of the page; the address opens all three again."""
    browser.get(f"{service_url}/?{PLATED}")
    ready(browser)
    for words in ("Without the finish", "Class 3B"):
        find(browser, "#result").find_elements(By.CSS_SELECTOR, "#compare[open]") or find(
            browser, "#compare > summary"
        ).click()
        until(browser, lambda words=words: press(browser, words))
    until(browser, lambda: len(browser.find_elements(By.CSS_SELECTOR, "#compare thead th")) == 4)
    browser.refresh()
    ready(browser)
    until(browser, lambda: len(browser.find_elements(By.CSS_SELECTOR, "#compare thead th")) == 4)
    said = find(browser, "#compare").text
    for words in ("Finish: none", "Thread callout: 1/2-13 UNC-3B", "0.4518 to 0.4565", "0.4500 to 0.4565"):
        assert words in said  # ASME B1.1: 1/2-13 UNC-2B has a pitch diameter of 0.4500 to 0.4565 in
    assert violations(browser) == []
    browser.find_elements(By.CSS_SELECTOR, "#compare thead button")[0].click()
    until(browser, lambda: len(browser.find_elements(By.CSS_SELECTOR, "#compare thead th")) == 3)


def press(browser, words):
    found = [one for one in browser.find_elements(By.CSS_SELECTOR, "#compare button") if one.text == words]
    for one in found:
        one.click()
    return bool(found)
