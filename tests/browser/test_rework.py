"""The page of holes that went wrong in a real browser: what was found, the ways with who decides, a hole opened."""

from __future__ import annotations

from page import find, ready, until, violations


def ask(browser, service_url, condition, **fields):
    browser.get(service_url + "/rework")
    find(browser, f"#condition option[value={condition}]").click()
    for name, value in fields.items():
        find(browser, f"#{name}").send_keys(value)
    find(browser, "button[type=submit]").click()
    until(browser, lambda: find(browser, "#result").is_displayed() or find(browser, "#refused").is_displayed())
    return find(browser, "main").text


def test_ways_are_shown_and_the_hole_of_one_opened(browser, service_url):
    said = ask(
        browser, service_url, "stripped", thread="3/8-16 UNC-2B", depth="0.75", material="6061-T6", edge_distance="0.5"
    )
    assert "Repair: insert in the same place, 3/8-16 UNC-2B STI" in said
    assert "Needs leave: material review board" in said
    find(browser, ".way details summary").click()
    figures = find(browser, ".way details").text
    assert "0.3831 in" in figures  # 0.375 + 0.130 / 16
    assert "0.0027 in" in figures  # (0.3885 - 0.3831) / 2
    assert violations(browser) == []
    find(browser, ".way a").click()
    assert "3/8-16 UNC-2B STI" in ready(browser)


def test_what_contradicts_itself_is_said_at_its_field(browser, service_url):
    said = ask(browser, service_url, "go_does_not_enter", thread="3/8-16", depth="0.75", pitch_diameter="0.3410")
    assert "GO would enter a pitch diameter of 0.341 in" in said
    assert find(browser, "#pitch_diameter").get_attribute("aria-invalid") == "true"
