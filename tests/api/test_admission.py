"""Keys, limits, logs and figures: who may ask, and what is told of it."""

from __future__ import annotations

import base64
import hashlib
import hmac
import json
import logging
import subprocess
import sys

import pytest
import requests
from borewright.api import create_app, keys
from borewright.api.door.access_log import JsonFormatter
from borewright.api.settings import Settings, SettingsError, from_environment

HOLE = {"thread": "M8", "hole": {"type": "through", "thickness": 12}}
STRONG = "kestrel-ridge-pumps-0123456789-abcdef"


def basic(text: str) -> str:
    return "Basic " + base64.b64encode(text.encode()).decode()


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
    assert {"Basic", "Bearer"} <= set(refused.headers["WWW-Authenticate"].split())
    assert client.get("/health/ready").status_code == 200
    for headers, status in (
        ({"Authorization": f"Bearer {first}"}, 200),
        ({"X-Api-Key": first}, 200),
        ({"X-Api-Key": second}, 401),
        ({"X-Api-Key": first[:-1]}, 401),
        ({"Authorization": f"Basic {first}"}, 401),
        ({"Authorization": basic(f"anybody:{first}")}, 200),
        ({"Authorization": basic(f"anybody:{second}")}, 401),
        ({"Authorization": basic(first)}, 401),
        ({"Authorization": "Basic ***"}, 401),
        ({"Authorization": "Basic /w=="}, 401),
    ):
        assert client.get("/v1/version", headers=headers).status_code == status
    file.write_text(first_line + second_line + "\n")
    assert client.get("/v1/version", headers={"X-Api-Key": second}).status_code == 200
    file.write_text("nonsense, half written\n" + second_line)
    assert client.get("/v1/version", headers={"X-Api-Key": second}).status_code == 200
    assert client.get("/v1/version", headers={"X-Api-Key": first}).status_code == 401, "it was removed"
    file.write_text("nonsense, half written\n")
    assert client.get("/v1/version", headers={"X-Api-Key": second}).status_code == 401
    file.write_text(second_line)
    assert client.get("/v1/version", headers={"X-Api-Key": first}).status_code == 401


@pytest.mark.parametrize("content", ["", "name:12\n", "# none\n"])
def test_files_of_keys_that_cannot_be_used(tmp_path, content):
    (tmp_path / "keys").write_text(content)
    with pytest.raises(keys.KeysError):
        keys.Keys(str(tmp_path / "keys"))
    with pytest.raises(keys.KeysError):
        keys.Keys(str(tmp_path / "none"))


def hashed(key: str, name: str = "own") -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "borewright.api.keys", name, "--stdin"]
    return subprocess.run(command, input=key + "\n", capture_output=True, text=True, check=False)


def test_a_key_of_ones_own_is_hashed():
    # SHA-256: FIPS 180-2, example of two blocks.
    done = hashed("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")
    assert done.stdout == "own:248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1\n"


@pytest.mark.parametrize(
    "weak",
    ["", "kestrel-ridge-0123456789abcdefg", "kestrel" * 6, "é" * 40, "two words 0123456789 abcdefghijk", STRONG * 16],
)
def test_weak_keys_are_refused(weak):
    done = hashed(weak)
    assert (done.returncode, done.stdout) == (2, "")
    assert "32 to 512 printable ASCII characters" in done.stderr


def test_names_that_would_break_the_file_are_refused():
    done = hashed(STRONG, "a:b")
    assert (done.returncode, done.stdout) == (2, "")
    assert "a name has" in done.stderr


def test_keys_that_are_made_have_32_random_bytes(capsys):
    found = {made(capsys, "routing")[0] for _ in range(50)}
    assert len(found) == 50
    assert {len(base64.urlsafe_b64decode(key + "=")) for key in found} == {32}


def test_a_short_key_is_nobodys_whatever_the_file_says(tmp_path):
    short, long = STRONG[:31], STRONG[:32]
    for key, name in ((short, None), (long, "planner")):
        (tmp_path / "keys").write_text(f"planner:{hashlib.sha256(key.encode()).hexdigest()}\n")
        assert keys.Keys(str(tmp_path / "keys")).name_of(key) == name


def test_every_known_key_is_compared_wherever_the_right_one_stands(tmp_path, monkeypatch):
    given = [STRONG + str(number) for number in range(5)]
    (tmp_path / "keys").write_text("".join(keys.line_of(f"caller{n}", key) + "\n" for n, key in enumerate(given)))
    known = keys.Keys(str(tmp_path / "keys"))
    compared: list[str] = []
    compare = hmac.compare_digest
    monkeypatch.setattr(hmac, "compare_digest", lambda a, b: compared.append(b) or compare(a, b))
    for key, name in (*((key, f"caller{n}") for n, key in enumerate(given)), (STRONG + "9", None)):
        compared.clear()
        assert known.name_of(key) == name
        assert len(compared) == 5


def test_a_file_that_becomes_useless_is_told_once_and_without_secrets(tmp_path, caplog):
    file = tmp_path / "keys"
    file.write_text(keys.line_of("routing", STRONG))
    known = keys.Keys(str(file))
    for content in ("", STRONG):
        file.write_text(content)
        for _ in range(3):
            assert known.name_of(STRONG) is None
    file.unlink()
    for _ in range(3):
        assert known.name_of(STRONG) is None
    assert sum("cannot be read" in record.getMessage() for record in caplog.records) == 1
    assert STRONG not in caplog.text
    file.write_text(keys.line_of("routing", STRONG))
    assert known.name_of(STRONG) == "routing"


def test_what_an_editor_leaves_in_a_file_of_keys_spoils_nothing(tmp_path):
    line = keys.line_of("routing", STRONG).encode()
    for content in (b"\xef\xbb\xbf" + line, line + b"\r\n# callers\r\n", b"\xff\xfe\n" + line + b"\n"):
        (tmp_path / "keys").write_bytes(content)
        assert keys.Keys(str(tmp_path / "keys")).name_of(STRONG) == "routing"


@pytest.mark.parametrize("path", ["/v1/version", "/v1/threads?thread=M8", "/v1/catalog/drills", "/problems", "/"])
def test_nothing_that_needs_a_key_stays_in_a_cache_of_others(tmp_path, client, path):
    (tmp_path / "keys").write_text(keys.line_of("routing", STRONG))
    locked = create_app(Settings(api_keys_file=str(tmp_path / "keys"))).test_client()
    assert client.get(path).headers["Cache-Control"].startswith("public, ")
    for headers, status in (({"X-Api-Key": STRONG}, 200), ({}, 401)):
        answer = locked.get(path, headers=headers)
        assert answer.status_code == status
        assert "public" not in answer.headers["Cache-Control"]


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


def test_a_text_with_half_a_pair_is_logged_as_json():
    record = logging.makeLogRecord({"name": "x", "levelname": "INFO", "msg": "a \ud800\n{} %s", "args": ("\udfff",)})
    line = JsonFormatter().format(record)
    assert json.loads(line)["message"] == "a \ud800\n{} \udfff"
    assert "\n" not in line
