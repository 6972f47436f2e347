"""A drawing is asked for by Accept or in the query."""

from __future__ import annotations

import io
from xml.etree import ElementTree

import pytest
from borewright.contract.writers import drawing

HOLE = {"thread": "M8", "hole": {"type": "blind", "full_thread_depth": 16}}


def test_by_accept_and_by_query(client):
    by_accept = client.post("/v1/hole-specs", json=HOLE, headers={"Accept": "image/svg+xml"})
    by_query = client.post("/v1/hole-specs?view=section", json=HOLE)
    for answer in (by_accept, by_query):
        assert answer.status_code == 200
        assert answer.mimetype == "image/svg+xml"
        assert ElementTree.fromstring(answer.get_data()).tag == "{http://www.w3.org/2000/svg}svg"
    assert by_accept.get_data() == by_query.get_data()


def test_what_a_browser_likes_best_is_still_json(client):
    answer = client.post("/v1/hole-specs", json=HOLE, headers={"Accept": "image/*;q=0.5, application/json"})
    assert answer.mimetype == "application/json"


def test_another_view_is_refused(client):
    answer = client.post("/v1/hole-specs?view=plan", json=HOLE)
    assert answer.status_code == 422
    assert answer.get_json()["errors"][0]["pointer"] == "/view"
    assert answer.get_json()["errors"][0]["allowed"] == ["section"]


def test_what_cannot_be_made_has_no_drawing(client):
    answer = client.post("/v1/hole-specs?view=section", json={**HOLE, "thread": "1/4"})
    assert answer.status_code == 422
    assert answer.mimetype == "application/problem+json"


def test_what_was_typed_cannot_break_out_of_the_drawing(client):
    answer = client.post("/v1/hole-specs?view=section", json={**HOLE, "id": "</svg><script>alert(1)</script>"})
    assert b"<script" not in answer.get_data()


PLATED = {
    "thread": "1/2-13 UNC-2B",
    "hole": {"type": "blind", "full_thread_depth": 1, "thickness": 1.6},
    "finish": "ASTM B633 Fe/Zn 8",
}


def printed(client, body, media_type, query=""):
    answer = client.post(f"/v1/hole-specs{query}", json=body, headers={"Accept": media_type})
    assert answer.status_code == 200
    assert answer.mimetype == media_type
    return answer.get_data()


def test_a_section_as_pdf_holds_the_figures_as_text_and_is_to_scale(client):
    pypdf = pytest.importorskip("pypdf")
    pytest.importorskip("cairosvg")
    made = printed(client, PLATED, "application/pdf", "?view=section")
    (page,) = pypdf.PdfReader(io.BytesIO(made)).pages
    said = page.extract_text()
    depths = client.post("/v1/hole-specs", json=PLATED).get_json()["depths"]
    for name in ("countersink_diameter", "drill_depth", "drill_tip_depth", "chamfer_length", "wall_left"):
        assert f"{depths[name]:g}" in said
    for words in ("1/2-13 UNC-2B", "drill 27/64", "1 full thread", "1.6 thick", "Scale 1:1"):
        assert words in said
    svg = ElementTree.fromstring(printed(client, PLATED, "image/svg+xml"))
    paper_mm = [float(length) / 72 * 25.4 for length in (page.mediabox.width, page.mediabox.height)]
    assert paper_mm == pytest.approx([float(svg.get(side).removesuffix("mm")) for side in ("width", "height")], abs=0.1)
    assert "1/2-13 UNC-2B" in pypdf.PdfReader(io.BytesIO(made)).metadata.title
    assert made == printed(client, PLATED, "application/pdf", "?view=section")


def test_a_png_has_the_size_of_the_sheet(client):
    pytest.importorskip("cairosvg")
    made = printed(client, HOLE, "image/png")
    assert made.startswith(b"\x89PNG\r\n\x1a\n")
    svg = ElementTree.fromstring(printed(client, HOLE, "image/svg+xml"))
    pixels = [int.from_bytes(made[at : at + 4], "big") for at in (16, 20)]
    paper = [float(svg.get(side).removesuffix("mm")) for side in ("width", "height")]
    assert pixels == pytest.approx([length / 25.4 * 96 * 2 for length in paper], abs=1)


def test_without_the_cairo_library_the_refusal_names_what_is_made(client, monkeypatch):
    pytest.importorskip("cairosvg")

    def no_library():
        raise OSError("no library called cairo was found")

    monkeypatch.setitem(drawing.printed.__globals__, "_surfaces", no_library)
    answer = client.post("/v1/hole-specs", json=HOLE, headers={"Accept": "application/pdf"})
    assert answer.status_code == 406
    fault = answer.get_json()["errors"][0]
    assert fault["code"] == "media_type_not_acceptable"
    assert fault["allowed"] == ["application/json", "application/xml", "image/svg+xml", "image/vnd.dxf"]
    assert "image/svg+xml" in fault["detail"]


def test_without_the_extra_nothing_printed_is_offered(monkeypatch):
    for offers in (drawing.media_types, drawing.printed_types):
        monkeypatch.setitem(offers.__globals__, "find_spec", lambda name: None)
    assert drawing.media_types() == ()


def test_a_dxf_opened_again_measures_as_the_reply(client):
    """Model space is the hole in true size: wide contour, roots and axis, each on its layer of ISO 128."""
    ezdxf = pytest.importorskip("ezdxf")
    made = printed(client, PLATED, "image/vnd.dxf")
    opened = ezdxf.read(io.StringIO(made.decode()))
    assert opened.audit().has_errors is False
    assert opened.header["$INSUNITS"] == 1  # inches
    model = opened.modelspace()
    reply = client.post("/v1/hole-specs", json=PLATED).get_json()
    depths = reply["depths"]

    def points(layer):
        return [list(line.get_points("xy")) for line in model.query(f'LWPOLYLINE[layer=="{layer}"]')]

    contour = max(points("01.2 visible edges"), key=len)
    drilled, sunk = reply["drill"]["recommended"]["diameter"], depths["countersink_diameter"]
    assert contour[0] == pytest.approx((-sunk / 2, 0), abs=1e-6)
    assert contour[-2] == pytest.approx((-drilled / 2, -depths["drill_depth"]), abs=1e-6)
    assert contour[-1] == pytest.approx((0, -depths["drill_tip_depth"]), abs=1e-6)
    roots = [line for line in points("01.1 thread roots") if line[0][0] == line[-1][0]]
    assert sorted(line[0][0] for line in roots) == pytest.approx([-0.25, 0.25])  # half of the basic 0.5 in
    assert [line[-1][1] for line in roots] == pytest.approx([-depths["full_thread_depth"]] * 2)
    assert all(x == pytest.approx(0) for line in points("04.1 centre lines") for x, _ in line)
    assert len(model.query("HATCH")) == 2
    layers = {entity.dxf.layer for entity in model}
    assert layers == {layer.dxf.name for layer in opened.layers if layer.dxf.name not in {"0", "Defpoints"}}
    assert "1/2-13 UNC-2B" in {text.dxf.text for text in model.query("TEXT")}
    assert made == printed(client, PLATED, "image/vnd.dxf")
