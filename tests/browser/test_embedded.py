"""The element in a page of other software: a real browser, a page from another origin, the real service."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread

import pytest
import requests
from page import find, ready, screen, until, violations

DEMO = Path(__file__).parent.parent.parent / "service" / "demo"
KEY = "key-of-the-routing-page-of-kestrel-ridge-pumps"
HEADLINE = "return arguments[0].shadowRoot.querySelector('dl').textContent"


class Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *_):
        pass


@pytest.fixture(scope="module")
def pages(tmp_path_factory) -> Iterator[tuple[Path, str]]:
    """A folder of web pages and the origin that serves it."""
    folder = tmp_path_factory.mktemp("pages")
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(folder)))
    Thread(target=server.serve_forever, daemon=True).start()
    yield folder, f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
    server.server_close()


@pytest.fixture(scope="module")
def keyed(pages, processes, tmp_path_factory) -> Iterator[str]:
    """A service that asks for keys and lists the origin of the pages."""
    file = tmp_path_factory.mktemp("keys") / "keys"
    file.write_text(f"routing:{hashlib.sha256(KEY.encode()).hexdigest()}\n", "ascii")
    port = processes.free_port()
    service = processes.start(
        port, BOREWRIGHT_CORS_ORIGINS=f"https://erp.kestrel.invalid {pages[1]}", BOREWRIGHT_API_KEYS_FILE=str(file)
    )
    yield f"http://127.0.0.1:{port}"
    processes.stop(service)


def opened(browser, pages, service: str, page: str) -> list:
    """The elements of a page as soon as each has asked and shows what came of it."""
    folder, origin = pages
    for name in ("routing_page.html", "routing_page.js"):
        text = (DEMO / name).read_text("utf-8").replace("http://127.0.0.1:8080", service)
        (folder / name).write_text(text, "utf-8")
    (folder / "page.html").write_text(page or (folder / "routing_page.html").read_text("utf-8"), "utf-8")
    browser.get(f"{origin}/page.html")
    holes = browser.find_elements("css selector", "borewright-hole")
    shown = "return arguments[0].shadowRoot?.querySelector('h3') !== null && arguments[0].shadowRoot !== null"
    until(browser, lambda: all(browser.execute_script(shown, hole) for hole in holes))
    return holes


def told(browser, hole) -> str:
    return browser.execute_script("return arguments[0].shadowRoot.textContent", hole)


WITH_KEY = """<!doctype html><html lang="en"><title>KRP</title><link rel="icon" href="data:,">
<body style="color: rgb(10, 60, 10); font-family: serif">
<script src="{service}/embed.js"></script>
<borewright-hole needs-key thread="M8" type="blind" depth="16" material="4140"></borewright-hole>
<script>
window.events = [];
const heard = (event) => events.push([event.type, event.detail]);
for (const name of ["specified", "refused"]) document.addEventListener(name, heard);
document.querySelector("borewright-hole").key = "{key}";
</script></body></html>"""


def test_a_page_with_a_key_shows_the_hole_in_its_own_type(browser, pages, keyed):
    (hole,) = opened(browser, pages, keyed, WITH_KEY.format(service=keyed, key=KEY))
    reply = requests.post(
        f"{keyed}/v1/hole-specs",
        json={"thread": "M8", "hole": {"type": "blind", "full_thread_depth": 16}, "material": "4140"},
        headers={"X-Api-Key": KEY},
        timeout=10,
    ).json()
    for words in reply["headline"].values():
        assert words in told(browser, hole)
    until(browser, lambda: browser.execute_script("return events.length"))
    ((name, detail),) = browser.execute_script("return events")
    assert (name, detail["spec_id"]) == ("specified", reply["spec_id"])
    inherited = "return getComputedStyle(arguments[0].shadowRoot.querySelector('dd')).color"
    assert browser.execute_script(inherited, hole) == "rgb(10, 60, 10)"
    assert KEY not in browser.execute_script("return arguments[0].outerHTML + arguments[0].shadowRoot.innerHTML", hole)


def test_a_changed_attribute_asks_again_and_a_fault_is_told(browser, pages, keyed):
    (hole,) = opened(browser, pages, keyed, WITH_KEY.format(service=keyed, key=KEY))
    before = browser.execute_script(HEADLINE, hole)
    browser.execute_script("arguments[0].setAttribute('thread', 'M10')", hole)
    until(browser, lambda: "M10" in told(browser, hole) and browser.execute_script(HEADLINE, hole) != before)
    browser.execute_script("arguments[0].setAttribute('thread', 'M10<b>')", hole)
    until(browser, lambda: browser.execute_script("return events.at(-1)[0]") == "refused")
    assert browser.execute_script("return events.at(-1)[1].errors[0].pointer") == "/thread"
    assert browser.execute_script("return arguments[0].shadowRoot.querySelector('b')", hole) is None


def test_a_person_gives_a_key_once(browser, keyed):
    """The browser's own question for name and password opens the page and all that it asks for."""
    browser.get(keyed.replace("http://", f"http://planner:{KEY}@"))
    browser.get(f"{keyed}/?thread=M8&type=blind&depth=12+mm")
    assert "6.8 mm" in ready(browser)
    assert find(browser, "#result svg").is_displayed()


def test_the_page_of_the_demo_tells_both_holes(browser, pages, processes):
    port = processes.free_port()
    service = processes.start(port, BOREWRIGHT_CORS_ORIGINS=pages[1])
    try:
        opened(browser, pages, f"http://127.0.0.1:{port}", "")
        state = browser.find_element("id", "state")
        until(browser, lambda: "KRP-4105-P1: ready" in state.text)
        assert "KRP-4105-D1: " in state.text
        for scheme in ("light", "dark"):
            with screen(browser, 1280, 900, scheme=scheme):
                assert violations(browser) == []
    finally:
        processes.stop(service)


def test_an_origin_that_is_not_listed_reads_nothing(chromium, pages, service_url):
    (hole,) = opened(chromium, pages, service_url, WITH_KEY.format(service=service_url, key=KEY))
    assert "The service did not answer" in told(chromium, hole)
    assert "drill" not in told(chromium, hole).casefold()
    chromium.get_log("browser")  # the browser tells that it kept the reply from the page


PREFLIGHT = {"Access-Control-Request-Method": "POST", "Access-Control-Request-Headers": "authorization,content-type"}


def test_a_preflight_needs_no_key_and_says_what_may_be_sent(pages, keyed):
    """Fetch standard, CORS-preflight: no credentials; each header named, for `*` does not cover Authorization."""
    answer = requests.options(f"{keyed}/v1/hole-specs", headers={"Origin": pages[1], **PREFLIGHT}, timeout=10)
    assert answer.ok
    assert answer.headers["Access-Control-Allow-Origin"] == pages[1]
    assert {"Authorization", "Content-Type"} <= set(answer.headers["Access-Control-Allow-Headers"].split(", "))
    assert "POST" in answer.headers["Access-Control-Allow-Methods"]
    assert "Origin" in answer.headers["Vary"]
    assert "Access-Control-Allow-Credentials" not in answer.headers


@pytest.mark.parametrize("origin", ["https://elsewhere.invalid", "null", "{listed}.elsewhere.invalid", "*"])
def test_other_origins_get_no_header_that_lets_them_read(pages, keyed, origin):
    origin = origin.replace("{listed}", pages[1])
    for answer in (
        requests.options(f"{keyed}/v1/hole-specs", headers={"Origin": origin, **PREFLIGHT}, timeout=10),
        requests.get(f"{keyed}/v1/version", headers={"Origin": origin, "X-Api-Key": KEY}, timeout=10),
        requests.post(f"{keyed}/v1/hole-specs", data="{}", headers={"Origin": origin}, timeout=10),
    ):
        assert not [name for name in answer.headers if name.casefold().startswith("access-control")]
        assert "Origin" in answer.headers["Vary"]


def test_a_refusal_can_be_read_by_a_listed_page(pages, keyed):
    answer = requests.post(f"{keyed}/v1/hole-specs", json={}, headers={"Origin": pages[1]}, timeout=10)
    assert (answer.status_code, answer.headers["Access-Control-Allow-Origin"]) == (401, pages[1])


def test_without_origins_nothing_is_said_of_them(service_url, pages):
    answer = requests.get(f"{service_url}/v1/version", headers={"Origin": pages[1]}, timeout=10)
    assert answer.headers["Vary"] == "Accept, Accept-Encoding"
    assert not [name for name in answer.headers if name.casefold().startswith("access-control")]
