"""The page of one hole in a real browser: fill, submit, read, see the fault at its field; accessible and printable."""

from __future__ import annotations

import base64
import json

import requests
from page import ASKED, find, open_everything, ready, request_as, specify, until
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys


def test_a_hole_from_callout_to_specification(browser, service_url):
    specify(
        browser,
        service_url,
        thread="1/2-13 UNC-2B",
        depth="1",
        thickness="1.6",
        material="4140",
        finish="ASTM B633 Fe/Zn 8",
    )
    said = ready(browser)
    for figure in ("27/64", "0.4219", "0.4518 to 0.4565", "0.4500 to 0.4565", "1.269", "H7", "Operations", "Cautions"):
        assert figure in said
    assert browser.switch_to.active_element.get_attribute("id") == "result"
    assert "1/2-13 UNC-2B" in find(browser, "#status").text


def test_the_section_is_drawn(browser, service_url):
    specify(browser, service_url, thread="M8", depth="16")
    ready(browser)
    drawing = find(browser, "#section svg")
    assert drawing.size["width"] > 300
    assert drawing.size["height"] > 200
    assert "M8" in drawing.get_attribute("innerHTML")


def test_a_through_hole_by_keyboard_alone(browser, service_url):
    browser.get(service_url + "/")
    find(browser, "#thread").send_keys("M6", Keys.TAB, Keys.ARROW_RIGHT, Keys.TAB, Keys.TAB, "10", Keys.ENTER)
    assert "M6" in ready(browser)
    assert json.loads(request_as(browser, "JSON"))["hole"] == {"type": "through", "thickness": 10}


def test_markup_in_a_field_stays_text(browser, service_url):
    specify(browser, service_url, thread="<img src=x onerror=alert(1)>", depth="1")
    until(browser, lambda: find(browser, "#thread-fault").text)
    assert browser.find_elements(By.CSS_SELECTOR, "main img") == []


def test_the_request_to_copy_is_the_one_that_was_asked(browser, service_url):
    specify(browser, service_url, thread="#10-24", depth="3/8 in")
    said = ready(browser)
    asked = json.loads(request_as(browser, "JSON"))
    reply = requests.post(f"{service_url}/v1/hole-specs", json=asked, timeout=10).json()
    assert reply["spec_id"] in said
    assert f"{service_url}/v1/hole-specs" in request_as(browser, "curl")
    scope = {}
    exec(request_as(browser, "Python"), scope)
    assert scope["spec"]["spec_id"] == reply["spec_id"]


def test_every_figure_has_its_derivation(browser, service_url):
    specify(browser, service_url, thread="M8", depth="16")
    ready(browser)
    find(browser, "#derivation summary").click()
    assert len(browser.find_elements(By.CSS_SELECTOR, "#derivation tbody tr")) > 10


def test_the_whole_reply_is_on_the_page(browser, service_url):
    open_everything(browser, service_url)
    said = find(browser, "#result").text
    reply = requests.post(f"{service_url}/v1/hole-specs", json=ASKED, timeout=10).json()
    torque = reply["cutting_data"]["tap"]["torque"]
    reach = reply["reach"]
    figures = [
        f"{torque['value']} ({torque['low']} to {torque['high']}) lbf*in",
        f"{reach['tap_reach']} in",
        f"{reach['drill_reach']} in",
        f"{reply['strength']['screw_tensile_force']} lbf",
        f"{reply['strength']['required_length']} in",
        f"{round(reply['acceptance']['both'] * 100, 2):g} %",
        f"{reply['depths']['drill_tip_depth']} in",
        reply["gauging"]["acceptance"][0],
        reply["drill"]["alternatives"][0]["label"],
        *reply["drill"]["recommended"]["reasons"],
        *(one["text"] for one in reply["cautions"]),
        *(one["text"] for one in reply["operations"]),
        *reply["assumptions"],
    ]
    assert [figure for figure in figures if figure not in said] == []
    assert len(browser.find_elements(By.CSS_SELECTOR, "#derivation tbody tr")) == len(
        requests.post(f"{service_url}/v1/hole-specs?explain=true", json=ASKED, timeout=10).json()["derivation"]
    )


def test_the_print_is_the_machine_sheet(browser, service_url):
    specify(browser, service_url, thread="M8", depth="16")
    ready(browser)
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": "print"})
    try:
        assert not find(browser, "#ask").is_displayed()
        assert not find(browser, "#derivation").is_displayed()
        assert find(browser, "#section").is_displayed()
        said = find(browser, "body").text
        assert "Operations" in said
        assert "The drawing, the standards it calls up and local codes govern" in said
    finally:
        browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": ""})
    assert base64.b64decode(browser.execute_cdp_cmd("Page.printToPDF", {})["data"]).startswith(b"%PDF")
