"""Settings: read once from the environment, everything wrong is named at once."""

from __future__ import annotations

from dataclasses import FrozenInstanceError, fields
from pathlib import Path

import pytest
from borewright.api.settings import PREFIX, Settings, SettingsError, describe, from_environment

ROOT = Path(__file__).parent.parent.parent


def test_defaults_listen_on_loopback():
    assert from_environment({}) == Settings()
    assert Settings().bind == "127.0.0.1:8080"


def test_values_are_read():
    read = from_environment(
        {
            "BOREWRIGHT_BIND": "[::1]:90",
            "BOREWRIGHT_WORKERS": "4",
            "BOREWRIGHT_LOG_LEVEL": "warning",
            "HOME": "/x",
        }
    )
    assert (read.bind, read.workers, read.log_level) == ("[::1]:90", 4, "warning")


@pytest.mark.parametrize("bind", ["[::1]:8080", "unix:/run/borewright.sock", "service:80"])
def test_addresses(bind):
    assert from_environment({"BOREWRIGHT_BIND": bind, "BOREWRIGHT_ALLOW_OPEN": "true"}).bind == bind


@pytest.mark.parametrize(
    ("variable", "value"),
    [
        ("BIND", "8080"),
        ("BIND", "localhost:99999"),
        ("BIND", ":8080"),
        ("WORKERS", "0"),
        ("WORKERS", "two"),
        ("WORKERS", "2.0"),
        ("WORKERS", "٢"),
        ("MAX_BODY_BYTES", "-1"),
        ("MAX_JSON_DEPTH", "100000"),
        ("LOG_LEVEL", "loud"),
        ("THREADS", ""),
    ],
)
def test_wrong_value(variable, value):
    with pytest.raises(SettingsError, match=f"BOREWRIGHT_{variable} needs"):
        from_environment({f"BOREWRIGHT_{variable}": value})


def test_unknown_variable_names_the_nearest():
    with pytest.raises(SettingsError, match="BOREWRIGHT_WORKER is no setting; did you mean BOREWRIGHT_WORKERS"):
        from_environment({"BOREWRIGHT_WORKER": "2"})


def test_names_that_other_services_have_are_known():
    with pytest.raises(SettingsError, match=r"BOREWRIGHT_PORT is no setting; did you mean BOREWRIGHT_BIND \(address"):
        from_environment({"BOREWRIGHT_PORT": "8080"})
    with pytest.raises(SettingsError, match="BOREWRIGHT_ZZZZ is no setting; the settings are BOREWRIGHT_BIND"):
        from_environment({"BOREWRIGHT_ZZZZ": "1"})


def test_variables_of_the_client_are_not_ours():
    assert from_environment({"BOREWRIGHT_CLIENT_URL": "http://127.0.0.1:8080"}) == Settings()


def test_all_faults_are_named_at_once():
    with pytest.raises(SettingsError) as caught:
        from_environment({"BOREWRIGHT_WORKERS": "x", "BOREWRIGHT_THREADS": "y", "BOREWRIGHT_PORT": "1"})
    assert all(name in str(caught.value) for name in ("WORKERS", "THREADS", "PORT"))


def test_settings_cannot_be_changed():
    with pytest.raises(FrozenInstanceError):
        Settings().workers = 5  # type: ignore[misc]


def test_every_setting_is_described_in_the_readme():
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    assert len(describe()) == len(fields(Settings))
    for row in describe():
        assert row.variable.startswith(PREFIX)
        assert row.meaning
        assert f"`{row.variable}`" in readme, f"{row.variable} (default {row.default}): {row.meaning}"
        assert f"`{row.default}`" in readme
