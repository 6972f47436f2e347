"""The `borewright` command as a user runs it: the program as its script runs it, the real service."""

from __future__ import annotations

import json
import os
import re
import subprocess

import pytest
from borewright_client import RequestRefused

SPEC = ("spec", "3/8-16 UNC-2B", "--blind", "0.75", "--material", "4140", "--finish", "ASTM B633 Fe/Zn 8")
COLOUR = re.compile(r"\x1b\[[0-9;]*m")


def test_spec_for_people(borewright):
    text = borewright("spec", "1/2-13 UNC-2B", "--blind", "3/4 in", "--finish", "ASTM B633 Fe/Zn 5", "--id", "KRP-1")
    assert text.startswith("KRP-1  1/2-13 UNC-2B: ready\nASTM B633")
    assert "27/64" in text
    assert "0.75" in text


@pytest.mark.parametrize(
    "section",
    [
        "Limits of size", "Finish", "Drill", "Why this drill", "Tap", "Depths from the entry face", "Cutting data",
        "Torque of the tap", "Strength", "Acceptance to expect", "Gauges", "Operations", "Assumed", "Cautions",
    ],
)  # fmt: skip
def test_every_part_of_a_specification_has_its_section(shown_spec, section):
    assert re.search(rf"^{section}\b", shown_spec, re.MULTILINE)


@pytest.fixture(scope="module")
def shown_spec(service_url):
    from borewright_client.cli import main

    with pytest.MonkeyPatch.context() as patch:
        lines: list[str] = []
        patch.setattr("builtins.print", lambda text, **_: lines.append(text))
        assert main([*SPEC, "--full", "--screw-grade", "5", "--screw-class", "2A", "--url", service_url]) == 0
    return "\n".join(lines)


@pytest.mark.parametrize(
    ("name", "figures"),
    [
        ("finished pitch diameter", ["0.3344", "0.3401"]),  # ASME B1.1, 3/8-16 UNC-2B
        ("finished minor diameter", ["0.3070", "0.3210"]),  # the same
        ("to tap pitch diameter", ["0.3362", "0.3401"]),  # less four times the 0.00045 in of the coat
    ],
)
def test_limits_stand_under_each_other_with_their_digits(shown_spec, name, figures):
    line = next(line for line in shown_spec.splitlines() if line.startswith(f"  {name}  "))
    assert line.split()[-2:] == figures


def test_no_line_is_wider_than_the_sheet(shown_spec):
    assert max(map(len, shown_spec.splitlines())) <= 100


@pytest.mark.parametrize(
    "thread",
    ["M8x1.25-6H", "1/4-18 NPT", "G 1/4", "1/2-10 ACME-2G", "Tr 20x4", "1/4-20 STI", "1/4 BSW", "M12x1.5 LH"],
)  # fmt: skip
def test_every_kind_of_thread_has_a_sheet_and_a_row(borewright, thread):
    hole = ("spec", thread, "--blind", "15 mm", "--material", "6061-T6")
    sheet, row = borewright(*hole), borewright(*hole, "--csv")
    assert "Operations " in sheet
    assert len(row.splitlines()) == 2
    assert "Limits of size" in borewright("thread", thread)


def test_spec_as_json(borewright):
    reply = json.loads(borewright("spec", "M8", "--through", "12", "--json", "--explain"))
    assert reply["drill"]["recommended"]["label"] == "6.8 mm"
    assert reply["derivation"]


def test_the_shops_own_oversize_is_asked_with(borewright):
    """A 6.8 mm drill that cuts 0.05 mm over makes 6.85 mm; M8-6H bears 6.912 mm, 6.2 deviations of 0.01 mm more."""
    drilled = ("spec", "M8", "--through", "12", "--json", "--drill-oversize", "0.05 mm")
    mean, both = (json.loads(borewright(*drilled, *more)) for more in ((), ("--drill-deviation", "0.01 mm")))
    for reply in (mean, both):
        assert reply["drill"]["recommended"]["expected_hole_diameter"] == 6.85
    assert both["drill"]["recommended"]["acceptance"] > 0.9999
    assert both["spec_id"] != mean["spec_id"]
    assert "/machine/drill_oversize/mean" in borewright(
        "spec", "M8", "--blind", "9", "--drill-deviation", "0.01", code=1
    )


def test_edition_and_tap_limits_are_asked_with(borewright):
    older = json.loads(borewright("spec", "1/2-13 UNC-2B", "--blind", "0.75", "--json", "--edition", "1989"))
    assert "1989" in older["thread"]["standard"]["edition"]
    ground = json.loads(borewright("spec", "M8", "--blind", "16", "--json", "--tap-limits", "metric_d"))
    assert ground["tap"]["recommended"]["limit"]["label"] == "D5"


@pytest.mark.parametrize(
    ("arguments", "expected"),
    [
        (("thread", "M8"), "M8x1.25-6H"),
        (("thread", "1/2-13 UNC-2B", "--units", "metric"), "lengths in mm"),
        (("drill", "1/4-20 UNC-2B"), "#7, drill"),
        (("allowance", "1/4-28 UNF-2B", "ASTM B633 Fe/Zn 5"), "before finish pitch diameter"),
        (("tap", "1/2-13 UNC-2B", "--material", "4140", "--hardness", "28 HRC"), "1/2-13 NC"),
        (("tap", "--decode", "1/2-13 NC HSS G H3"), "class 2B"),
        (("tap", "M8", "--tap-limits", "metric_d"), "limit D5"),
        (("tap", "M8"), "limit ISO 2"),
        (("tap", "#4-40 UNC-2B", "--finish", "MIL-A-8625 Type III"), "To decide"),
        (("allowance", "#4-40 UNC-2B", "MIL-A-8625 Type III"), "limit H11, pitch diameter"),
        (("allowance", "M8", "ASTM B633 Fe/Zn 5", "--tap-limits", "metric_d"), "D5"),
        (("note", "4X Ø6.8 ↧20\nM8X1.25-6H ↧16 SEE NOTE 3"), "full thread depth  16 mm"),
        (("note", "1/4 TAP THRU", "--units", "inch"), "(1/4-20 UNC /\n  1/4-28 UNF"),
        (
            ("note", "1/4-20 UNC THRU", "--general", "ALL THREADS CLASS 3B", "--thickness", "0.5"),
            "1/4-20 UNC-3B, ready",
        ),
        (
            ("rework", "3/8-16 UNC-2B", "--blind", "0.75", "--found", "stripped", "--edge-distance", "0.5"),
            "the drill may run off by    0.0027 in",
        ),
        (("rework", "M3", "--blind", "6", "--found", "broken_tap", "--below", "--csv"), ",spark_erosion,rework,false,"),
        (("note", "M6 ↧12", "--csv"), "M6x1,1,blind,12,"),
        (("catalog", "thread-systems"), "ASME B1.1"),
        (("catalog", "drills"), "27/64"),
    ],
)
def test_each_command_prints_text(borewright, arguments, expected):
    assert expected in borewright(*arguments)


@pytest.mark.parametrize(
    ("name", "start"), [("section.svg", b"<svg"), ("section.pdf", b"%PDF-"), ("section.PNG", b"\x89PNG")]
)
def test_a_drawing_goes_into_a_file(borewright, tmp_path, name, start):
    borewright("spec", "M8", "--blind", "16", "--drawing", tmp_path / name)
    assert (tmp_path / name).read_bytes().startswith(start)


def test_a_drawing_of_another_kind_is_told(borewright, tmp_path):
    assert ".svg, .pdf, .png" in borewright("spec", "M8", "--blind", "16", "--drawing", tmp_path / "a.tiff", code=2)
    assert not (tmp_path / "a.tiff").exists()


def test_refusal_names_the_field_and_what_is_meant(borewright):
    said = borewright("thread", "1/2-14 UNC", code=1)
    assert "/thread: " in said
    assert "It can be 1/2-13 UNC, 1/2-14 NPT, G 1/2, " in said


def test_every_fault_names_its_option(borewright):
    hole = ("spec", "1/4-20 UMC", "--blind", "foo", "--finish", "zinc", "--hardness", "hard")
    said = borewright(*hole, code=1)
    for option in ("THREAD /thread: ", "--blind /hole/full_thread_depth: ", "--finish /finish: ", "--hardness /mat"):
        assert f"\n  {option}" in said
    assert "It can be 1/4-20 UNC, 1/4-28 UNF, " in borewright("thread", "1/4", code=1)
    assert "--least-acceptance /least_acceptance: " in borewright(
        "plan", "-", "--least-acceptance", "2", code=1, fed='{"thread": "M8"}\n'
    )


def test_a_key_that_is_missing_is_named_by_its_variable():
    from borewright_client.cli.command import _refusal

    assert "BOREWRIGHT_CLIENT_KEY" in _refusal(RequestRefused(401, {"code": "key_missing_or_unknown"}))


@pytest.mark.parametrize(
    ("typed", "inches"),
    [
        ("1/2", 0.5),
        ("1-1/4", 1.25),
        ("0.5 inch", 0.5),
        ("12.7 MM", 0.5),
        ("1 1/4 Inches", 1.25),
        ("25.4 millimeters", 1),
    ],
)
def test_sizes_as_people_write_them(typed, inches):
    """25.4 mm are an inch; a fraction is in inches, whatever the thread."""
    from borewright.contract.fields import units
    from borewright_client.cli.fields import figure

    read = units.read(figure(typed), "length")
    assert float(read.value) / {"in": 1, "mm": 25.4}[read.unit] == inches


def test_units_in_any_spelling(borewright):
    for word in ("mm", "Metric", "millimetre"):
        assert "lengths in mm" in borewright("thread", "1/2-13 UNC-2B", "--units", word)


def test_a_request_from_standard_input_to_which_options_add(borewright):
    asked = '{"thread": "M8", "hole": {"type": "through", "thickness": 12}}'
    shown = json.loads(borewright("spec", "-", "--material", "6061-T6", "--json", fed=asked))
    assert (shown["thread"]["designation"], shown["depths"]["full_thread_depth"]) == ("M8x1.25-6H", 12)
    assert "6061-T6" in shown["material"]["name"]


def test_refusal_says_what_is_allowed(borewright):
    assert "Allowed: Fe/Zn 5 SC1, " in borewright("allowance", "M8", "ASTM B633 Fe/Zn 99", code=1)


def test_no_service_is_told(borewright):
    assert "no connection" in borewright("thread", "M8", code=3, url="http://127.0.0.1:9")


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (("spec", "M8"), "--blind"),
        (("spec", "M8", "--blind", "9", "--through", "9"), "not allowed with"),
        (("thread", "M8", "--json", "--csv"), "not allowed with"),
        (("catalog", "pears"), "tap-limits"),
        (("spec", "M8", "--blnd", "9"), "--blind"),
        (("spce", "M8"), "'spec'"),
        (("spec", "-", "--blind", "9"), "standard input is not JSON"),
        ((), "COMMAND"),
    ],
)
def test_wrong_use_is_told(borewright, arguments, told):
    assert told in borewright(*arguments, code=2)


AUDIT = ("audit", "3/8-16 UNC-2B", "--blind", "0.5 in", "--material", "4140", "--drill", "5/16")


def test_audit_for_people(borewright):
    text = borewright(*AUDIT, "--tap", "3/8-24 NF HSS G H3", code=4)
    assert text.startswith("3/8-16 UNC-2B: reject\n")
    assert "error: tap pitch differs" in text
    assert "expected  3/8-16 UNC-2B" in text


def test_audit_as_json(borewright):
    plan = ("--tap", "3/8-16 NC HSS G H5", "--tap-chamfer", "plug", "--drill-depth", "0.55", "--spindle-speed", "9000")
    reply = json.loads(borewright(*AUDIT, *plan, "--order", "tap, drill", "--json", code=4))
    assert reply["verdict"] == "reject"
    codes = {finding["code"] for finding in reply["findings"]}
    assert codes >= {"tap_chamfer_no_room", "drill_speed_too_high", "operations_out_of_order"}


def test_a_plan_that_holds_ends_with_0(borewright):
    assert "reject" not in borewright(
        "audit", "M8", "--through", "12", "--drill", "6.7 mm", "--tap", "M8x1.25 HSS G D5"
    )


@pytest.mark.parametrize(
    "command", ["spec", "thread", "drill", "allowance", "tap", "note", "rework", "audit", "batch", "catalog"]
)
def test_help_has_examples_that_the_command_understands(borewright, command):
    from borewright_client.cli.program import GROUP

    said = borewright(command, "--help")
    assert "exit codes:" in said
    examples = re.findall(r"^  borewright (.*)$", said, re.MULTILINE)
    assert len(examples) >= 2
    for example in examples:
        name, *words = [bare or quoted for quoted, bare in re.findall(r'"([^"]*)"|(\S+)', example)]
        assert GROUP.commands[name].make_context(name, words)


def test_help_tells_codes_and_variables(borewright):
    said = borewright("--help")
    for told in ("BOREWRIGHT_CLIENT_URL", "BOREWRIGHT_CLIENT_KEY", "NO_COLOR", "  4    audit"):
        assert told in said


def test_colours_on_a_terminal_and_the_same_words(on_terminal, ran, command):
    shown, piped = on_terminal(command, *SPEC), ran(*SPEC)
    assert shown.code == 0
    assert "\x1b[33m" in shown.out  # cautions
    assert COLOUR.sub("", shown.out) == piped.out
    assert "\x1b" not in piped.out


@pytest.mark.parametrize("arguments", [("thread", "M8", "--json"), ("thread", "M8x1,3")])
def test_the_installed_script_is_that_command(command, ran, service_url, arguments):
    settings = {**os.environ, "BOREWRIGHT_CLIENT_URL": service_url}
    done = subprocess.run([command, *arguments], capture_output=True, text=True, env=settings, check=False)
    assert (done.returncode, done.stdout, done.stderr) == ran(*arguments)


@pytest.mark.parametrize("setting", [{"NO_COLOR": "1"}, {"TERM": "dumb"}])
def test_no_colours_where_nobody_wants_them(on_terminal, command, setting):
    assert "\x1b" not in on_terminal(command, *SPEC, **setting).out


def test_an_empty_no_color_says_nothing(on_terminal, command):
    assert "\x1b[1m" in on_terminal(command, *SPEC, NO_COLOR="").out


def test_a_refusal_is_red_on_a_terminal(on_terminal, command):
    done = on_terminal(command, "thread", "1/2-14 UNC")
    assert done.code == 1
    assert done.out.startswith("\x1b[31mrefused")


def test_lines_fit_a_narrow_terminal(on_terminal, command):
    shown = COLOUR.sub("", on_terminal(command, "tap", "--decode", "1/2-13 NC HSS G H3", columns=60).out)
    assert max(map(len, shown.splitlines())) <= 60


def test_a_reader_that_has_enough_is_no_fault(service_url, command):
    pipe = f"'{command}' catalog thread-systems | head -1"
    environment = {**os.environ, "BOREWRIGHT_CLIENT_URL": service_url}
    done = subprocess.run(
        ["bash", "-o", "pipefail", "-c", pipe], capture_output=True, text=True, env=environment, check=False
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == "unified\n"


def test_least_torque_stands_beside_the_chart(borewright):
    """27/64: FED-STD-H28/2B (1991) Table II.A.1. What is taken never costs more torque than the chart's drill."""
    asked = ("1/2-13 UNC-2B", "--blind", "0.75", "--material", "4140", "--screw-grade", "SAE J429 grade 8")
    table = borewright("spec", *asked, "--objective", "least_torque", "--full").partition("\nLeast torque")[2]
    assert re.search(r"^  drill +27/64 ", table, re.MULTILINE)
    by_chart, taken = re.search(r"^  torque to tap +([0-9.]+) +([0-9.]+) +lbf\*in$", table, re.MULTILINE).groups()
    assert float(taken) <= float(by_chart)
    assert "Least torque" not in borewright("spec", *asked, "--full")


@pytest.mark.parametrize("typed", ["nan", "inf", "1e3", "1_000"])
def test_what_only_looks_like_a_number_goes_to_the_service_as_text(borewright, typed):
    """Python reads all of these as numbers; the service names the field."""
    assert "/hole/full_thread_depth" in borewright("spec", "M8", "--blind", typed, code=1)


STEERING = "KRP-1\x1b[2J\x9b31m\u202e\r"


@pytest.mark.parametrize("form", [(), ("--json",)])
def test_nothing_printed_steers_the_terminal(borewright, form):
    printed = borewright("spec", "M8", "--through", "12", "--id", STEERING, *form)
    assert "KRP-1\\u001b[2J\\u009b31m\\u202e\\r" in printed.replace("\\u000d", "\\r")
    assert not set("\x1b\x9b\u202e\r") & set(printed)
    if form:
        assert json.loads(printed)["id"] == STEERING


def test_nothing_of_a_refusal_steers_the_terminal(borewright):
    assert not set("\x1b\x9b") & set(borewright("thread", "M8\x1b[2J\x9b", code=1))
