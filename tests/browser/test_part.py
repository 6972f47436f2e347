"""The page of a part in a real browser: pasted holes, the picture of tools by holes, the time, the sheet, a refusal."""

from __future__ import annotations

import json
import re

import pytest
from page import find, screen, until, violations
from selenium.webdriver.common.by import By
from test_printed_sheet import pages

#: Two classes of one size that one tap serves, a hole alone in its size, and one that no reader understands.
HOLES = (
    "id,thread,hole.type,hole.full_thread_depth,hole.thickness,count\n"
    "C1,1/4-20 UNC-2B,blind,0.5,,8\n"
    "C2,1/4-20 UNC-3B,blind,0.375,,4\n"
    "F1,3/8-16 UNC-2B,through,,0.75,2\n"
    "X1,3/8-xx,through,,0.75,1\n"
)


def rows(browser, selector):
    found = browser.find_elements(By.CSS_SELECTOR, f"{selector} tbody tr")
    return {row.find_element(By.CSS_SELECTOR, "th").text: row for row in found}


def paste(browser, what):
    browser.execute_script("arguments[0].value = arguments[1]", find(browser, "#holes"), json.dumps(what))


def planned(browser):
    browser.execute_script("document.getElementById('result').hidden = true")
    find(browser, "#ask button[type=submit]").click()
    until(browser, lambda: find(browser, "#result").is_displayed() or find(browser, "#refused").is_displayed())


def test_a_part_is_planned_shown_and_printed(browser, service_url, tmp_path):
    browser.get(service_url + "/part")
    (tmp_path / "part.csv").write_text(HOLES, encoding="utf-8")
    find(browser, "#file").send_keys(str(tmp_path / "part.csv"))
    find(browser, "#part").send_keys("KRP-5120")
    planned(browser)
    said = find(browser, "#result").text
    assert said.startswith("KRP-5120")
    assert "Not planned" in said.split("Which tool")[0]  # what is left open stands before the plan
    served = rows(browser, ".served")
    taps = {name: len(row.find_elements(By.CSS_SELECTOR, "td svg")) for name, row in served.items() if "-20 NC" in name}
    assert list(taps.values()) == [2]  # one tap for both holes
    assert len(find(browser, ".served").find_elements(By.CSS_SELECTOR, ".other")) >= 1
    bars = browser.find_elements(By.CSS_SELECTOR, ".time rect")
    assert sum(float(bar.get_attribute("width")) for bar in bars) == pytest.approx(400, abs=0.5)
    with screen(browser, 360, 900, scheme="dark"):
        assert violations(browser) == []
        assert browser.execute_script("return document.documentElement.scrollWidth") <= 360
    printed = "".join(page.extract_text() for page in pages(browser, "A4"))
    printed = re.sub(r"\s+", "", printed)
    for words in ("KRP-5120", "Which tool serves which hole", "Where the time goes", "Gauges", "govern"):
        assert words.replace(" ", "") in printed, words
    assert "Planapart" not in printed


def test_a_caution_names_its_holes(browser, service_url):
    """Only the hole in hard steel breaks its tap; what holds for every hole names none."""
    hard = {"id": "H1", "thread": "1/4-20 UNC-2B", "hole": {"type": "blind", "full_thread_depth": 0.5}}
    holes = [{**hard, "material": {"name": "4140", "hardness": "45 HRC"}}, {**hard, "id": "S1", "material": "6061-T6"}]
    browser.get(service_url + "/part")
    paste(browser, holes)
    planned(browser)
    breaks = [line for line in find(browser, "#result").text.splitlines() if "The tap may break" in line]
    assert [line.rpartition("(")[2] for line in breaks] == ["H1)"]


def test_json_is_taken_as_a_list_or_a_whole_request_and_a_fault_stands_at_its_field(browser, service_url):
    browser.get(service_url + "/part")
    hole = {"id": "F1", "thread": "3/8-16 UNC-2B", "hole": {"type": "through", "thickness": 0.75}}
    paste(browser, [hole])
    find(browser, "#lot_size").send_keys("many")
    planned(browser)
    assert find(browser, "#lot_size").get_attribute("aria-invalid") == "true"
    find(browser, "#lot_size").clear()
    whole = {"stock": {"drills": ["#7"]}, "holes": [hole]}
    for pasted, lacking in (([hole], False), (whole, True)):
        paste(browser, pasted)
        planned(browser)
        assert "5/16 twist drill" in rows(browser, ".served")
        assert ("5/16 twist drill: not in stock, for F1" in find(browser, "#result").text) is lacking
