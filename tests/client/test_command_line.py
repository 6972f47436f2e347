"""The `borewright` command as a user runs it: the installed program, the real service."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

COMMAND = Path(sys.executable).with_name("borewright")


@pytest.fixture
def borewright(service_url):
    def run(*arguments: str, code: int = 0, url: str = service_url) -> str:
        done = subprocess.run(
            [COMMAND, *arguments], capture_output=True, text=True, env={"BOREWRIGHT_CLIENT_URL": url}, check=False
        )
        assert done.returncode == code, done.stderr
        return done.stdout if code == 0 else done.stderr

    return run


def test_spec_for_people(borewright):
    text = borewright("spec", "1/2-13 UNC-2B", "--blind", "3/4 in", "--finish", "ASTM B633 Fe/Zn 5")
    assert "27/64" in text
    assert "ASME B1.1" in text
    assert "0.75" in text


def test_spec_as_json(borewright):
    reply = json.loads(borewright("spec", "M8", "--through", "12", "--json", "--explain"))
    assert reply["drill"]["recommended"]["label"] == "6.8 mm"
    assert reply["derivation"]


@pytest.mark.parametrize(
    ("arguments", "expected"),
    [
        (("thread", "M8"), "M8x1.25-6H"),
        (("thread", "1/2-13 UNC-2B", "--units", "metric"), "12.7 min"),
        (("drill", "1/4-20 UNC-2B"), "#7"),
        (("allowance", "1/4-28 UNF-2B", "ASTM B633 Fe/Zn 5"), "before finish pitch diameter"),
        (("tap", "1/2-13 UNC-2B"), "1/2-13 NC"),
        (("tap", "--decode", "1/2-13 NC HSS G H3"), "holds"),
    ],
)
def test_each_command_prints_text(borewright, arguments, expected):
    assert expected in borewright(*arguments)


def test_refusal_names_the_field(borewright):
    assert "/thread" in borewright("thread", "1/2-14 UNC", code=1)


def test_no_service_is_told(borewright):
    assert "no connection" in borewright("thread", "M8", code=3, url="http://127.0.0.1:9")


def test_wrong_use_is_told(borewright):
    assert "--blind" in borewright("spec", "M8", code=2)


AUDIT = ("audit", "3/8-16 UNC-2B", "--blind", "0.5 in", "--material", "4140", "--drill", "5/16")


def test_audit_for_people(borewright):
    text = borewright(*AUDIT, "--tap", "3/8-24 NF HSS G H3")
    assert "reject" in text
    assert "tap_pitch_differs" in text
    assert "expected 3/8-16 UNC-2B" in text


def test_audit_as_json(borewright):
    plan = ("--tap", "3/8-16 NC HSS G H5", "--tap-chamfer", "plug", "--drill-depth", "0.55", "--spindle-speed", "9000")
    reply = json.loads(borewright(*AUDIT, *plan, "--order", "tap, drill", "--json"))
    assert reply["verdict"] == "reject"
    codes = {finding["code"] for finding in reply["findings"]}
    assert codes >= {"tap_chamfer_no_room", "drill_speed_too_high", "operations_out_of_order"}
