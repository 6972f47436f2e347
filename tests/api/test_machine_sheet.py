"""The service's own PDF: the sheet for the machine on one page, read and measured with another library."""

from __future__ import annotations

import io
import json
import re
from urllib.parse import parse_qsl, urlsplit
from xml.etree import ElementTree

import pytest
from printed_lines import lines_mm

pypdf = pytest.importorskip("pypdf")
pytest.importorskip("cairosvg")

INCH_MM = 25.4
#: Width and height in millimetres, of ISO 216 and of ANSI/ASME Y14.1.
PAPERS = {"a4": (210, 297), "letter": (215.9, 279.4)}
PLATED = {
    "id": "KRP-4105-D1",
    "thread": "1/2-13 UNC-2B",
    "hole": {"type": "blind", "full_thread_depth": 1, "thickness": 1.6},
    "material": "4140",
    "finish": "ASTM B633 Fe/Zn 8",
}
SMALL = {
    "thread": "#4-40 UNC-2B",
    "hole": {"type": "blind", "full_thread_depth": 0.5},
    "material": "304",
    "finish": "ASTM B633 Fe/Zn 12",
}
#: Plated, infeasible, hard, taper pipe, insert, large and milled, galvanized, with an id that fills the page.
HOLES = (
    PLATED,
    SMALL,
    {"thread": "M10", "hole": {"type": "blind", "full_thread_depth": 20}, "material": "4140 45 HRC"},
    {"thread": "1/4-18 NPT", "hole": {"type": "blind"}, "material": "A36"},
    {"thread": "1/4-20 UNC STI", "hole": {"type": "blind", "full_thread_depth": 0.4}, "material": "6061-T6"},
    {"thread": "2-4.5 UNC-2B", "hole": {"type": "blind", "full_thread_depth": 3}, "material": "A36"},
    {"thread": "3/8-16 UNC-2B", "hole": {"type": "through", "thickness": 0.75}, "finish": "ASTM A153"},
    {**SMALL, "id": "<K&R>\x07" + "W" * 190},
)
#: The answer to each request for a page, which several tests read.
PAGES = {}


def asked(client, body, media_type, query=""):
    answer = client.post(f"/v1/hole-specs{query}", json=body, headers={"Accept": media_type})
    assert (answer.status_code, answer.mimetype) == (200, media_type)
    return answer.get_data()


def page_of(client, body, paper="a4"):
    wanted = json.dumps([body, paper])
    if wanted not in PAGES:
        PAGES[wanted] = asked(client, body, "application/pdf", f"?paper={paper}")
    (page,) = pypdf.PdfReader(io.BytesIO(PAGES[wanted])).pages
    return page


def joined(words):
    return re.sub(r"\s+", "", words)


def words_and_lowest_mm(page):
    """What a page says, and how far above the lower edge of the paper the lowest words stand."""
    heights = []
    words = page.extract_text(
        visitor_text=lambda text, place, at, *_: heights.append(place[3] * at[5] + place[5]) if text.strip() else None
    )
    return words, min(heights) / 72 * INCH_MM


def test_every_sheet_is_one_page_with_all_that_the_machine_needs(client):
    for body in HOLES:
        reply = client.post("/v1/hole-specs", json=body).get_json()
        for paper, size_mm in PAPERS.items() if body == PLATED else [("letter", PAPERS["letter"])]:  # the lower one
            page = page_of(client, body, paper)
            found_mm = [float(length) / 72 * INCH_MM for length in (page.mediabox.width, page.mediabox.height)]
            assert found_mm == pytest.approx(size_mm, abs=0.1)
            words, lowest_mm = words_and_lowest_mm(page)
            said = joined(words)
            wanted = [
                *reply["headline"].values(),
                *(one["text"] for part in ("review", "operations", "cautions") for one in reply[part]),
                reply["spec_id"],
                reply["notice"],
                body.get("id", "").replace("\x07", "\ufffd"),
            ]
            assert lowest_mm > 5
            assert [text for text in wanted if joined(text) not in said] == [], body


def test_the_section_is_true_on_paper(client):
    """Drilled depth and full thread of 1/2-13, 1 in deep, measured in the PDF, times the scale that it states."""
    scale = float(ElementTree.fromstring(asked(client, PLATED, "image/svg+xml")).get("data-scale"))
    depths = client.post("/v1/hole-specs", json=PLATED).get_json()["depths"]
    for paper in PAPERS:
        page = page_of(client, PLATED, paper)
        assert f"Scale {scale:g}:1" in page.extract_text()
        drawn = lines_mm(page)
        for name in ("full_thread_depth", "drill_depth", "drill_tip_depth", "countersink_diameter"):
            wanted = depths[name] * INCH_MM * scale
            assert any(one == pytest.approx(wanted, abs=0.1) for one in drawn), (paper, name)


def test_limits_are_printed_as_the_standard_does(client):
    """ASME B1.1: the pitch diameter of 1/2-13 UNC-2B is 0.4500 to 0.4565 in."""
    said = page_of(client, PLATED).extract_text()
    assert "0.4500 to 0.4565" in said
    assert "gauged after tapping" in said


def test_the_link_opens_the_same_hole(client):
    """Every field that the page has; none where the request holds more than the page can ask for."""
    said = joined(page_of(client, PLATED).extract_text())
    query = dict(parse_qsl(urlsplit(re.search(r"http://localhost/\S+", said)[0]).query))
    assert query == {
        "ident": "KRP-4105-D1",
        "thread": "1/2-13 UNC-2B",
        "type": "blind",
        "depth": "1",
        "thickness": "1.6",
        "material": "4140",
        "finish": "ASTM B633 Fe/Zn 8",
    }
    for more in ({"length_of_engagement": 1}, {"thread": {"system": "unified", "size": "1/2", "threads_per_inch": 13}}):
        assert "localhost" not in page_of(client, {**PLATED, **more}).extract_text()


def test_the_same_request_gives_the_same_bytes_and_inches_go_on_letter(client):
    made = asked(client, PLATED, "application/pdf")
    assert made == asked(client, PLATED, "application/pdf", "?paper=letter")
    metric = {"thread": "M8", "hole": {"type": "blind", "full_thread_depth": 16}}
    assert asked(client, metric, "application/pdf") == asked(client, metric, "application/pdf", "?paper=a4")
    assert "1/2-13 UNC-2B" in pypdf.PdfReader(io.BytesIO(made)).metadata.title
    refused = client.post("/v1/hole-specs?paper=a3", json=metric, headers={"Accept": "application/pdf"})
    assert refused.get_json()["errors"][0]["allowed"] == ["a4", "letter"]
