"""The page of what a shop measured in a real browser: the example fitted, its picture, a list that is refused."""

from __future__ import annotations

from page import find, until, violations


def test_the_example_is_fitted_and_drawn(browser, service_url):
    browser.get(service_url + "/shop-figures")
    find(browser, "#example").click()
    until(browser, lambda: find(browser, "#result").is_displayed())
    said = find(browser, "main").text
    assert "in 30 pieces" in said
    assert "in 20 pieces" in said
    assert "5/16-24 UNF-3B" in said
    picture = find(browser, ".fitted svg")
    assert picture.get_attribute("aria-label").startswith("Published 0.00447, measured 0.00145")
    dots = browser.execute_script("return arguments[0].querySelectorAll('.piece, .outside').length", picture)
    assert dots == 30
    assert violations(browser) == []


def test_a_measurement_that_cannot_be_is_said_with_its_place(browser, service_url):
    browser.get(service_url + "/shop-figures")
    find(browser, "#list").send_keys("kind,drill,measured\ndrilled_hole,5/16,0.3146\ndrilled_hole,5/16,7.95\n")
    find(browser, "button[type=submit]").click()
    until(browser, lambda: find(browser, "#refused").is_displayed())
    assert "Measurement 2" in find(browser, "#refused").text
