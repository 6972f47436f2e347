"""The machine sheet as the browser prints it: one page of A4 and of Letter, the section true, the operations whole."""

from __future__ import annotations

import base64
import io
import re
from xml.etree import ElementTree

import pytest
import requests
from page import find, ready
from printed_lines import lines_mm

INCH_MM = 25.4
PAPERS = {"A4": (210 / INCH_MM, 297 / INCH_MM), "Letter": (8.5, 11)}
PLATED = {
    "thread": "1/2-13 UNC-2B",
    "hole": {"type": "blind", "full_thread_depth": 1, "thickness": 1.6},
    "material": "4140",
    "finish": "ASTM B633 Fe/Zn 8",
}
#: As links: a long routing, plated, for review, infeasible, taper pipe, insert, large and thread-milled, galvanized.
HOLES = (
    "thread=1-8+UNC-3B&type=blind&depth=2.5&counterbore=1.6&counterbore-depth=0.4&material=4340+at+46+HRC"
    "&finish=ASTM+B633+Fe/Zn+5&ident=KRP-5003-H8",
    "thread=1/2-13+UNC-2B&type=blind&depth=1&thickness=1.6&material=4140&finish=ASTM+B633+Fe/Zn+8&ident=KRP-4105-D1",
    "thread=M10&type=blind&depth=20&material=4140+45+HRC",
    "thread=%234-40+UNC-2B&type=blind&depth=0.5&material=304&finish=ASTM+B633+Fe/Zn+12",
    "thread=1/4-18+NPT&type=blind&material=A36",
    "thread=1/4-20+UNC+STI&type=blind&depth=0.4&material=6061-T6",
    "thread=2-4.5+UNC-2B&type=blind&depth=3&material=A36",
    "thread=3/8-16+UNC-2B&type=through&thickness=0.75&material=A36&finish=ASTM+A153",
)


def pages(browser, paper):
    pypdf = pytest.importorskip("pypdf")
    wide, high = PAPERS[paper]
    asked = {"paperWidth": wide, "paperHeight": high, "preferCSSPageSize": False, "printBackground": False}
    made = browser.execute_cdp_cmd("Page.printToPDF", {**asked, **dict.fromkeys(MARGINS, 0.4)})
    return pypdf.PdfReader(io.BytesIO(base64.b64decode(made["data"]))).pages


MARGINS = ("marginTop", "marginBottom", "marginLeft", "marginRight")


@pytest.mark.parametrize("paper", PAPERS)
def test_every_sheet_is_one_page_with_all_that_the_machine_needs(browser, service_url, paper):
    for query in HOLES if paper == "A4" else HOLES[:3]:  # the other one is wider and not as high
        browser.get(f"{service_url}/?{query}")
        ready(browser)
        operations = find(browser, "#operations").text
        printed = pages(browser, paper)
        assert len(printed) == 1, query
        said = re.sub(r"\s+", "", printed[0].extract_text())
        spec_id = re.search(r"Specification (\w+)", find(browser, "#named").text)[1]
        for words in (spec_id, "Drill", "Gauge", "Limits", "govern", *operations.split("\n")[3:]):
            assert re.sub(r"\s+", "", words) in said, (query, words)
    assert ("KRP-4105-D1" in said) == (query == HOLES[1])  # each sheet its own hole


def test_the_section_is_true_on_paper(browser, service_url):
    """Drilled depth and full thread of 1/2-13, 1 in deep, measured in the PDF, times the scale that it states."""
    answer = requests.post(f"{service_url}/v1/hole-specs", json=PLATED, headers={"Accept": "image/svg+xml"}, timeout=10)
    scale = float(ElementTree.fromstring(answer.text).get("data-scale"))
    depths = requests.post(f"{service_url}/v1/hole-specs", json=PLATED, timeout=10).json()["depths"]
    browser.get(f"{service_url}/?{HOLES[1]}")
    ready(browser)
    for paper in PAPERS:
        drawn = lines_mm(pages(browser, paper)[0])
        for name in ("full_thread_depth", "drill_depth", "drill_tip_depth", "countersink_diameter"):
            wanted = depths[name] * INCH_MM * scale
            assert any(one == pytest.approx(wanted, abs=0.1) for one in drawn), (paper, name)
