"""The page of hole notes in a real browser: paste, see what was read and what was not, open a hole."""

from __future__ import annotations

from page import find, ready, until, violations


def read(browser, service_url, note, **fields):
    browser.get(service_url + "/note")
    find(browser, "#note").send_keys(note)
    for name, value in fields.items():
        find(browser, f"#{name}").send_keys(value)
    find(browser, "button[type=submit]").click()
    until(browser, lambda: find(browser, "#result").is_displayed())
    return find(browser, "#result").text


def test_a_note_is_read_shown_and_its_hole_opened(browser, service_url):
    note = "4X Ø6.8 ↧20\nM8X1.25-6H ↧16 SEE NOTE 3"
    said = read(browser, service_url, note, material="6061-T6")
    for text in ("Hole 1: M8x1.25-6H", "16 mm", "6.8 mm", "20 mm", "Not understood"):
        assert text in said
    assert find(browser, ".marked .unread").text == "SEE NOTE 3"
    assert "null" not in said
    assert browser.switch_to.active_element.get_attribute("id") == "result"
    find(browser, "article a").click()
    assert "M8x1.25-6H" in ready(browser)
    assert find(browser, "#material").get_attribute("value") == "6061-T6"


def test_what_the_note_states_comes_with_its_hole(browser, service_url):
    read(browser, service_url, "Ø.257 ↧1.00\n5/16-18 UNC-2B ↧.75\n⌴ Ø.50 ↧.25")
    find(browser, "article a").click()
    assert "Counterbore" in ready(browser)
    stated = {"stated-drill": "0.257 in", "drill-depth": "1", "counterbore": "0.5", "counterbore-depth": "0.25"}
    assert {name: find(browser, f"#{name}").get_attribute("value") for name in stated} == stated


def test_the_rules_are_listed(browser, service_url):
    browser.get(service_url + "/note")
    assert len(browser.find_elements("css selector", ".rules tbody tr")) > 100


def test_questions_come_first_and_nothing_of_the_note_is_markup(browser, service_url):
    said = read(browser, service_url, "1/4 TAP THRU\n<b>M6</b> ↧12 TYP", general="DEBURR")
    assert "To answer before the holes go on" in said
    assert "1/4-20 UNC / 1/4-28 UNF" in said
    assert browser.execute_script("return document.querySelectorAll('#result b').length") == 0
    assert violations(browser) == []
