"""The API reference in a real browser: an operation is tried by keyboard, refusals and pictures are shown."""

from __future__ import annotations

import json

from page import find, until
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.ui import Select


def sent(browser):
    """The answer on the page as soon as it is there."""
    until(browser, lambda: find(browser, "#status").text not in ("", "Working …"))
    return find(browser, "#result")


def test_an_operation_is_found_and_tried_by_keyboard(browser, service_url):
    """1/2-13 UNC, the example: its basic pitch diameter is 0.4500 in (ASME B1.1)."""
    browser.get(service_url + "/docs")
    link = find(browser, "a[href='/docs/resolveThread']")
    link.send_keys(Keys.ENTER)
    until(browser, lambda: browser.find_elements(By.ID, "try"))
    find(browser, "#try button[type=submit]").send_keys(Keys.ENTER)
    shown = sent(browser)
    assert "200" in shown.text
    assert browser.switch_to.active_element == shown
    reply = json.loads(shown.find_element(By.TAG_NAME, "pre").text)
    assert reply["basic"]["pitch_diameter"] == 0.45


def test_refusals_options_and_pictures_are_shown(browser, service_url):
    browser.get(service_url + "/docs/createHoleSpec")
    Select(find(browser, "#example")).select_by_visible_text("metric through")
    assert '"M20"' in find(browser, "#body").get_attribute("value")
    find(browser, "#try summary").send_keys(Keys.ENTER)
    Select(find(browser, "#p-detail")).select_by_visible_text("routing")
    find(browser, "#try button[type=submit]").click()
    assert '"headline"' in sent(browser).text
    assert '"sources"' not in find(browser, "#result").text
    find(browser, "#result summary").click()
    assert "/v1/hole-specs?detail=routing" in find(browser, "#result details pre").text
    Select(find(browser, "#accept")).select_by_visible_text("image/svg+xml")
    find(browser, "#try button[type=submit]").click()
    drawn = "return document.querySelector('#result img')?.naturalWidth"
    until(browser, lambda: (browser.execute_script(drawn) or 0) > 200)
    Select(find(browser, "#accept")).select_by_visible_text("application/json")
    find(browser, "#body").clear()
    find(browser, "#body").send_keys('{"thread": "1/4"}')
    find(browser, "#try button[type=submit]").click()
    assert until(browser, lambda: "callout_ambiguous" in find(browser, "#result").text)
