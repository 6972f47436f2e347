"""The form of the page of one hole: each field goes out as the contract names it, each fault stands at its field."""

from __future__ import annotations

import json

import pytest
import requests
from page import ASKED, ask_everything, fill, find, ready, request_as, specify, until
from selenium.webdriver.common.by import By
from selenium.webdriver.support.ui import Select


@pytest.mark.parametrize(
    ("field", "fields"),
    [
        ("thread", {"thread": "M6x1.13", "depth": "10"}),
        ("depth", {"thread": "M6", "depth": "deep"}),
        ("depth", {"thread": "M6"}),
        ("finish", {"thread": "M6", "depth": "10", "finish": "gold leaf 9"}),
        ("depth", {"thread": "M6", "depth": "10 kg"}),
    ],
)
def test_a_fault_stands_at_its_field(browser, service_url, field, fields):
    specify(browser, service_url, **fields)
    until(browser, lambda: find(browser, f"#{field}-fault").text)
    wrong = find(browser, f"#{field}")
    assert wrong.get_attribute("aria-invalid") == "true"
    assert browser.switch_to.active_element.get_attribute("id") == field
    assert f"{field}-fault" in wrong.get_attribute("aria-describedby")
    assert not find(browser, "#result").is_displayed()
    assert find(browser, "#refused").is_displayed()
    assert "/problems/" in find(browser, "#refused a").get_attribute("href")


def test_what_was_meant_is_one_click_away(browser, service_url):
    specify(browser, service_url, thread="1/4", depth="0.5")
    until(browser, lambda: find(browser, "#thread-fault button")).click()
    assert "1/4-" in ready(browser)


def test_every_field_goes_out_as_the_contract_names_it(browser, service_url):
    ask_everything(browser, service_url)
    ready(browser)
    assert json.loads(request_as(browser, "JSON")) == ASKED
    shown = {one.get_attribute("data-pointer") for one in browser.find_elements(By.CSS_SELECTOR, "#ask [data-pointer]")}
    assert {f"/machine/{name}" for name in ASKED["machine"]} < shown


def test_a_mean_oversize_alone_goes_out_as_a_length(browser, service_url):
    browser.get(service_url + "/")
    find(browser, ".more > summary").click()
    fill(browser, thread="M8", depth="16", oversize="0.05 mm")
    find(browser, "#ask button[type=submit]").click()
    ready(browser)
    assert json.loads(request_as(browser, "JSON"))["machine"] == {"drill_oversize": "0.05 mm"}


def test_whatever_the_contract_lists_can_be_chosen(browser, service_url):
    """The first of each list leaves it to the service; ``left`` is what that then means, where it is one word."""
    browser.get(service_url + "/")
    schemas = requests.get(f"{service_url}/openapi.json", timeout=20).json()["components"]["schemas"]
    properties = schemas["HoleSpecRequestBody"]["properties"]
    for field, name, left in (
        ("objective", "objective", "chart"),
        ("edition", "edition", ""),
        ("tap-limits", "tap_limits", ""),
    ):
        options = f"return [...document.getElementById('{field}').options].map((one) => one.value)"
        choices = schemas[properties[name]["anyOf"][0]["$ref"].rpartition("/")[2]]["enum"]
        assert {*browser.execute_script(options), left} == {"", *choices}


#: What no field takes; some are asked for only beside another.
WRONG = {
    "access": "deep",
    "clearance": "0.1 in",
    "limit": "3 kg",
    "drills": "27/64, zz",
    "speed": "fast",
    "torque": "3 kg",
    "power": "0",
    "oversize": "3 kg",
    "deviation": "wide",
    "percent": "900",
    "point": "10",
}
BESIDE = {"clearance": {"access": "2"}, "deviation": {"oversize": "0.002"}}


def test_a_fault_opens_the_part_that_it_stands_in(browser, service_url):
    browser.get(service_url + "/")
    fill(browser, thread="1/2-13 UNC-2B", depth="1")
    browser.execute_script("for (const name of ['thread', 'depth']) window[name].defaultValue = window[name].value")
    more = find(browser, ".more")
    fold = "arguments[0].open = arguments[1]"
    for field, wrong in WRONG.items():
        browser.execute_script("document.getElementById('ask').reset()")
        browser.execute_script(fold, more, True)
        fill(browser, **{field: wrong, **BESIDE.get(field, {})})
        browser.execute_script(fold, more, False)
        find(browser, "#ask button[type=submit]").click()
        until(browser, lambda field=field: find(browser, f"#{field}-fault").text)
        assert find(browser, f"#{field}").is_displayed()
        assert browser.switch_to.active_element.get_attribute("id") == field


def test_faults_between_two_fields_stand_at_one_of_them(browser, service_url):
    """A deviation without its mean is asked for at the mean; an edition of a metric thread stands at the edition."""
    browser.get(service_url + "/")
    find(browser, ".more > summary").click()
    fill(browser, thread="1/2-13", depth="1", deviation="0.001")
    find(browser, "#ask button[type=submit]").click()
    until(browser, lambda: find(browser, "#oversize-fault").text)
    fill(browser, thread="M8", deviation="")
    Select(find(browser, "#edition")).select_by_value("1989")
    find(browser, "#ask button[type=submit]").click()
    assert "Unified" in until(browser, lambda: find(browser, "#edition-fault").text)
    assert find(browser, "#oversize-fault").text == ""


def test_every_field_has_a_name_and_a_place_for_its_fault(browser, service_url):
    browser.get(service_url + "/")
    find(browser, ".more > summary").click()
    fields = browser.find_elements(By.CSS_SELECTOR, "#ask [data-pointer]")
    assert len(fields) > 20
    for field in fields:
        name = field.get_attribute("id")
        assert find(browser, f"label[for={name}]").is_displayed()
        for described in field.get_attribute("aria-describedby").split():
            find(browser, f"#{described}")
        assert f"{name}-fault" in field.get_attribute("aria-describedby").split()
