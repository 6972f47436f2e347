"""Keys, limits, logs and figures: who may ask, and what is told of it."""

from __future__ import annotations

import json
import logging
import subprocess
import sys

import pytest
import requests
from borewright.api import create_app, keys
from borewright.api.observing import JsonFormatter
from borewright.api.settings import Settings, SettingsError, from_environment

HOLE = {"thread": "M8", "hole": {"type": "through", "thickness": 12}}


def made(capsys, name: str) -> tuple[str, str]:
    assert keys.main([name]) == 0
    shown = capsys.readouterr()
    return shown.err.rpartition(" ")[2].strip(), shown.out


def test_keys_are_asked_for_and_may_change(tmp_path, capsys):
    first, first_line = made(capsys, "routing")
    second, second_line = made(capsys, "planner")
    file = tmp_path / "keys"
    file.write_text(f"# callers\n\n{first_line}")
    client = create_app(Settings(api_keys_file=str(file))).test_client()
    refused = client.post("/v1/hole-specs", json=HOLE)
    assert (refused.status_code, refused.json["code"]) == (401, "key_missing_or_unknown")
    assert refused.headers["WWW-Authenticate"].startswith("Bearer")
    assert client.get("/health/ready").status_code == 200
    for headers, status in (
        ({"Authorization": f"Bearer {first}"}, 200),
        ({"X-Api-Key": first}, 200),
        ({"X-Api-Key": second}, 401),
        ({"X-Api-Key": first[:-1]}, 401),
        ({"Authorization": f"Basic {first}"}, 401),
    ):
        assert client.get("/v1/version", headers=headers).status_code == status
    file.write_text(first_line + second_line + "\n")
    assert client.get("/v1/version", headers={"X-Api-Key": second}).status_code == 200
    file.write_text("nonsense, half written\n")
    assert client.get("/v1/version", headers={"X-Api-Key": second}).status_code == 200
    file.write_text(second_line)
    assert client.get("/v1/version", headers={"X-Api-Key": first}).status_code == 401


@pytest.mark.parametrize("content", ["", "name:12\n", "# none\n"])
def test_files_of_keys_that_cannot_be_used(tmp_path, content):
    (tmp_path / "keys").write_text(content)
    with pytest.raises(keys.KeysError):
        keys.Keys(str(tmp_path / "keys"))
    with pytest.raises(keys.KeysError):
        keys.Keys(str(tmp_path / "none"))


def test_a_key_of_ones_own_is_hashed():
    command = [sys.executable, "-m", "borewright.api.keys", "own", "--stdin"]
    done = subprocess.run(command, input="abc\n", capture_output=True, text=True, check=True)
    # SHA-256 of "abc": FIPS 180-4, example of one block.
    assert done.stdout == "own:ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad\n"


@pytest.mark.parametrize("bind", ["0.0.0.0:80", "[::]:80", "service:80", "192.0.2.1:80"])
def test_open_addresses_need_keys_or_a_word(bind):
    with pytest.raises(SettingsError, match="BOREWRIGHT_ALLOW_OPEN"):
        from_environment({"BOREWRIGHT_BIND": bind})
    assert from_environment({"BOREWRIGHT_BIND": bind, "BOREWRIGHT_ALLOW_OPEN": "true"}).allow_open
    assert from_environment({"BOREWRIGHT_BIND": bind, "BOREWRIGHT_API_KEYS_FILE": "/etc/keys"}).bind == bind


def test_requests_at_once_are_bounded():
    client = create_app(Settings(max_concurrency=1)).test_client()
    line = json.dumps(HOLE).encode() + b"\n"
    held = client.post("/v1/hole-specs/batch", data=line, content_type="application/x-ndjson", buffered=False)
    refused = client.get("/v1/version")
    assert (refused.status_code, refused.json["code"]) == (429, "too_many_at_once")
    assert refused.headers["Retry-After"]
    held.close()
    for _ in range(3):
        assert client.get("/v1/version").status_code == 200


def test_a_request_is_a_line_of_json_without_secrets(client, caplog):
    trace = "00-4bf92f3577b34da6a3ce929d0e0e4736-00f067aa0ba902b7-01"
    with caplog.at_level(logging.INFO, logger="borewright.access"):
        answer = client.get(
            "/v1/threads?thread=M8", headers={"Traceparent": trace, "X-Api-Key": "secret", "X-Request-Id": "krp-1"}
        )
    assert answer.headers["Traceparent"] == trace
    line = JsonFormatter().format(caplog.records[-1])
    told = json.loads(line)
    assert (told["request_id"], told["route"], told["status"], told["trace"]) == ("krp-1", "/v1/threads", 200, trace)
    assert told["seconds"] >= 0
    assert "M8" not in line
    assert "secret" not in line
    assert "\n" not in line
    assert "Traceparent" not in client.get("/v1/version", headers={"Traceparent": "x"}).headers


def test_figures_are_summed_over_the_workers(service_url):
    def figure(name: str) -> float:
        text = requests.get(f"{service_url}/metrics", timeout=10).text
        return sum(float(line.split()[-1]) for line in text.splitlines() if line.startswith(name))

    name = 'borewright_requests_total{method="POST",route="/v1/taps/decode",status="200"}'
    refusals = 'borewright_refusals_total{code="route_unknown"}'
    before, refused = figure(name), figure(refusals)
    for _ in range(20):
        requests.post(f"{service_url}/v1/taps/decode", json={"marking": "1/2-13 NC HSS G H3"}, timeout=10)
        requests.get(f"{service_url}/nothing", timeout=10)
    assert figure(name) == before + 20
    assert figure(refusals) == refused + 20
    assert figure('borewright_request_seconds_bucket{le="+Inf",route="/v1/taps/decode"}') >= 20
