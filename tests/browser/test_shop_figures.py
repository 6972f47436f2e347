"""The page of what a shop measured in a real browser: the example fitted, its picture, a list that is refused."""

from __future__ import annotations

import csv
from pathlib import Path

import openpyxl
from page import find, until, violations

MEASURED = Path(__file__).parents[2] / "service" / "demo" / "measurements.csv"


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


def test_a_workbook_goes_as_it_is(browser, service_url, tmp_path):
    """A file goes before what is pasted; who types again means the text."""
    with MEASURED.open(encoding="utf-8", newline="") as rows:
        book = openpyxl.Workbook()
        for row in csv.reader(rows):
            book.active.append(row)
    sheet = tmp_path / "measurements.xlsx"
    book.save(sheet)
    browser.get(service_url + "/shop-figures")
    find(browser, "#file").send_keys(str(sheet))
    find(browser, "button[type=submit]").click()
    until(browser, lambda: find(browser, "#result").is_displayed())
    assert "in 30 pieces" in find(browser, "main").text
    find(browser, "#list").send_keys("kind")
    assert find(browser, "#file").get_attribute("value") == ""
    assert violations(browser) == []
