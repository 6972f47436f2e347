"""The API reference in a real browser, and what both pages may load."""

from __future__ import annotations

import pytest
import requests
from page import find, until, violations
from selenium.webdriver.common.by import By


def operation(browser, name):
    """The part of the reference that tells of an operation, opened."""
    part = until(browser, lambda: browser.find_elements(By.CSS_SELECTOR, f"[id$='-{name}'].opblock"))[0]
    part.find_element(By.CSS_SELECTOR, "button.opblock-summary-control").click()
    return part


def press(browser, part, selector):
    until(browser, lambda: part.find_elements(By.CSS_SELECTOR, selector))
    button = part.find_element(By.CSS_SELECTOR, selector)
    browser.execute_script("arguments[0].scrollIntoView({block: 'center'})", button)
    button.click()


def test_the_reference_lists_every_operation(browser, service_url):
    browser.get(service_url + "/docs")
    paths = requests.get(f"{service_url}/openapi.json", timeout=10).json()["paths"]
    wanted = {operation["operationId"] for methods in paths.values() for operation in methods.values()}
    shown = until(browser, lambda: browser.find_elements(By.CSS_SELECTOR, "#reference .opblock"))
    assert {one.get_attribute("id").rpartition("-")[2] for one in shown} == wanted
    assert "From a thread callout to the complete specification" in find(browser, "#reference .info").text


def test_the_reference_sends_a_request(browser, service_url):
    browser.get(service_url + "/docs")
    part = operation(browser, "resolveThread")
    press(browser, part, ".try-out button")
    press(browser, part, "button.execute")
    status = until(browser, lambda: part.find_elements(By.CSS_SELECTOR, ".live-responses-table .response-col_status"))
    assert "200" in [one.text for one in status]
    assert '"designation": "1/2-13 UNC-2B"' in part.find_element(By.CSS_SELECTOR, ".live-responses-table").text


def test_the_reference_takes_nothing_from_elsewhere(browser, service_url):
    browser.get(service_url + "/docs")
    until(browser, lambda: browser.find_elements(By.CSS_SELECTOR, "#reference .opblock"))
    taken = browser.execute_script("return performance.getEntriesByType('resource').map((one) => one.name)")
    assert f"{service_url}/page/swagger-ui-bundle.js" in taken
    assert [address for address in taken if not address.startswith(f"{service_url}/")] == []
    assert violations(browser, "{exclude: ['#reference']}") == []  # what the viewer draws is the viewer's


@pytest.mark.parametrize("path", ["/", "/docs"])
def test_nothing_from_outside_and_nothing_inline(service_url, path):
    answer = requests.get(service_url + path, headers={"Accept": "text/html"}, timeout=10)
    assert answer.headers["Content-Type"].startswith("text/html")
    policy = answer.headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    assert "http" not in answer.text.replace("<!doctype html>", "")
    assert "style=" not in answer.text
    assert requests.get(service_url + "/page/none.css", timeout=10).status_code == 404
    assert requests.get(service_url + path, headers={"Accept": "image/png"}, timeout=10).status_code == 406
