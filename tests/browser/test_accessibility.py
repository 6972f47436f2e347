"""The pages by the rules of WCAG 2.2 AA in both colour schemes, at 200 % of the size, without motion, by keyboard."""

from __future__ import annotations

from page import find, open_everything, ready, screen, unfold, until, violations
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys

REVIEWED = "/?thread=%234-40+UNC-2B&type=blind&depth=0.5&material=304&finish=ASTM+B633+Fe/Zn+12"
PAGES = (
    "/",
    "/note",
    "/part",
    "/rework",
    "/shop-figures",
    "/docs",
    "/docs/createHoleSpecs",
    "/problems",
    "/problems/callout_ambiguous",
    REVIEWED,
)


def opened(browser, service_url, path):
    browser.get(service_url + path)
    if path == REVIEWED:
        ready(browser)
        unfold(browser)


def broken(browser, scheme, media="screen"):
    with screen(browser, 1280 if media == "screen" else 720, 900, scheme=scheme, media=media):
        return violations(browser)


def test_every_page_keeps_the_rules_in_both_schemes_and_on_paper(browser, service_url):
    for path in PAGES:
        opened(browser, service_url, path)
        assert broken(browser, "light") == [], path
        assert broken(browser, "dark") == [], path
        # A sheet has the heading of its hole, not that of the form.
        assert [one for one in broken(browser, "dark", "print") if one[0] != "page-has-heading-one"] == [], path
    browser.get(f"{service_url}/?thread=1/4&type=blind&depth=deep")
    until(browser, lambda: browser.find_elements(By.CSS_SELECTOR, ".fault:not(:empty)"))
    assert broken(browser, "light") == broken(browser, "dark") == []


def test_the_whole_form_and_all_of_an_answer_keep_the_rules(browser, service_url):
    """Every field filled, every part unfolded, on a desk and on the narrowest phone."""
    for width, height, mobile in ((1280, 900, False), (320, 640, True)):
        with screen(browser, width, height, mobile=mobile):
            open_everything(browser, service_url)
            browser.execute_script("document.querySelectorAll('details').forEach((one) => { one.open = true; })")
            assert browser.execute_script("return document.documentElement.scrollWidth") <= width
            assert violations(browser) == []


def test_twice_the_size_and_a_phone_need_no_sideways_scrolling(browser, service_url):
    """200 % of 1280 pixels are 640 (WCAG 1.4.4), 400 % are 320 (WCAG 1.4.10)."""
    for width, height in ((640, 400), (320, 256)):
        with screen(browser, width, height):
            for path in PAGES:
                opened(browser, service_url, path)
                assert browser.execute_script("return document.documentElement.scrollWidth") <= width, path
    assert find(browser, "#section svg").size["width"] > 100


#: What the TAB key must reach, of long lists the first entries only; and where it has been, and whether that was seen.
PRESSED = "a[href], input:not([type=radio]), input:checked, select, textarea, button, summary, [tabindex='0']"
WATCHED = """
for (const place of document.querySelectorAll("ul, dl.fields"))
  [...place.children].slice(4).forEach((one) => one.remove());
window.reached = [];
window.addEventListener("focusin", ({ target }) => {
  if (window.reached.some(([one]) => one === target)) return;
  window.reached.push([target, getComputedStyle(target).outlineStyle]);
});
return [...document.querySelectorAll(arguments[0])].filter((one) => one.checkVisibility()).length;
"""
MISSED = """
const places = new Map(window.reached);
const missed = [...document.querySelectorAll(arguments[0])].filter((one) => one.checkVisibility() && !places.has(one));
const unseen = window.reached.filter(([, outline]) => outline === "none");
return [missed, unseen.map(([one]) => one)].map((found) => found.map((one) => one.outerHTML));
"""


def test_whatever_can_be_pressed_is_reached_by_the_tab_key_and_seen(browser, service_url):
    for path in PAGES[:-1]:
        browser.get(service_url + path)
        count = browser.execute_script(WATCHED, PRESSED)
        ActionChains(browser).send_keys(Keys.TAB * (count + 2)).perform()
        assert "skip" in browser.execute_script("return window.reached[0][0].className")
        assert browser.execute_script(MISSED, PRESSED) == [[], []], path


def test_the_skip_link_leads_past_the_head(browser, service_url):
    for path, target in (("/docs", "operations"), ("/docs/resolveThread", "title"), ("/problems", "problems")):
        browser.get(service_url + path)
        find(browser, ".skip").send_keys(Keys.ENTER)
        assert browser.switch_to.active_element.get_attribute("id") == target


def test_who_wants_no_motion_sees_none(browser, service_url):
    for preference, moving in (("reduce", False), ("no-preference", True)):
        feature = [{"name": "prefers-reduced-motion", "value": preference}]
        browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": feature})
        browser.get(service_url + "/")
        duration = browser.execute_script(
            "return getComputedStyle(document.querySelector('button')).transitionDuration"
        )
        assert (duration not in ("0s", "")) is moving
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": []})


def test_folded_parts_open_by_keyboard(browser, service_url):
    browser.get(f"{service_url}/?thread=M8&type=blind&depth=16")
    ready(browser)
    summary = find(browser, "#tools > summary")
    summary.send_keys(Keys.ENTER)
    assert find(browser, "#tools dl").is_displayed()
    assert browser.execute_script("return getComputedStyle(document.activeElement).outlineStyle") != "none"
