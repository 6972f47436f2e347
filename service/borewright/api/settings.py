"""Settings: one frozen dataclass, read once from ``BOREWRIGHT_*`` variables of the environment."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, fields
from ipaddress import ip_address
from typing import Any, NamedTuple

from borewright.core.errors import nearest

PREFIX = "BOREWRIGHT_"
#: Variables of the command line client, which may share an environment with the service.
CLIENT_PREFIX = "BOREWRIGHT_CLIENT_"

#: A host in small letters; the usual port of a scheme is not written.
_ORIGIN = re.compile(r"https?://(?:[a-z0-9.-]+|\[[0-9a-f:.]+\])(?::[0-9]{1,5})?")


class SettingsError(Exception):
    """The environment holds settings that cannot be used; the text names each of them."""


class SettingRow(NamedTuple):
    """A setting as the README lists it."""

    variable: str
    default: str
    meaning: str


def _setting(default: object, read: Callable[[str], object], meaning: str) -> Any:
    return field(default=default, metadata={"read": read, "meaning": meaning})


def _whole(least: int, most: int) -> Callable[[str], int]:
    def read(text: str) -> int:
        if not re.fullmatch(r"[0-9]{1,12}", text) or not least <= int(text) <= most:
            raise ValueError(f"a whole number from {least} to {most}")
        return int(text)

    return read


def _word(*words: str) -> Callable[[str], str]:
    def read(text: str) -> str:
        if text not in words:
            raise ValueError("one of " + ", ".join(words))
        return text

    return read


def _text(text: str) -> str:
    return text


def _flag(text: str) -> bool:
    if text not in ("true", "false"):
        raise ValueError("true or false")
    return text == "true"


def _is_loopback(bind: str) -> bool:
    host = bind.rpartition(":")[0].strip("[]")
    if bind.startswith("unix:") or host == "localhost":
        return True
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return False


def _address(text: str) -> str:
    host, _, port = text.rpartition(":")
    if text.startswith("unix:/") or (host and re.fullmatch(r"[0-9]{1,5}", port) and int(port) < 65536):
        return text
    raise ValueError("HOST:PORT or unix:/PATH")


def _origins(text: str) -> tuple[str, ...]:
    origins = tuple(text.split())
    if not all(_ORIGIN.fullmatch(origin) for origin in origins):
        raise ValueError("origins as a browser writes them, https://HOST[:PORT] each, with blanks between")
    return origins


@dataclass(frozen=True, slots=True)
class Settings:
    """What a deployment may change."""

    bind: str = _setting("127.0.0.1:8080", _address, "address the service listens on, HOST:PORT or unix:/PATH")
    workers: int = _setting(2, _whole(1, 256), "worker processes; one a processor core")
    threads: int = _setting(4, _whole(1, 256), "threads a worker, for connections that wait")
    timeout_s: int = _setting(30, _whole(1, 3600), "seconds after which a worker that hangs is replaced")
    read_timeout_s: int = _setting(
        60,
        _whole(1, 3600),
        "seconds that a request may keep a thread waiting for the next bytes of its body, or for room to send",
    )
    graceful_timeout_s: int = _setting(20, _whole(0, 3600), "seconds that running requests get when the service stops")
    keepalive_s: int = _setting(15, _whole(0, 3600), "seconds an idle connection is kept open")
    max_body_bytes: int = _setting(1_048_576, _whole(1024, 1_073_741_824), "largest request body in bytes")
    max_json_depth: int = _setting(32, _whole(4, 200), "deepest nesting of objects and lists in a request body")
    max_batch_items: int = _setting(1000, _whole(1, 1_000_000), "most items of a batch that is one JSON document")
    max_batch_bytes: int = _setting(
        16_777_216,
        _whole(1024, 4_294_967_296),
        "largest batch that is one document, list of holes of a part or of measurements, in bytes after inflation",
    )
    max_stream_bytes: int = _setting(
        0, _whole(0, 999_999_999_999), "largest batch as NDJSON or CSV, in bytes after inflation; 0 = no limit"
    )
    max_stream_items: int = _setting(
        0, _whole(0, 999_999_999_999), "most items of a batch as NDJSON or CSV; 0 = no limit"
    )
    max_cpu_ms: int = _setting(
        500,
        _whole(10, 3_600_000),
        "milliseconds of processor time of a request; each item of a batch or hole of a part adds a twenty-fifth of it",
    )
    max_waiting_bytes: int = _setting(
        1_073_741_824,
        _whole(0, 999_999_999_999),
        "most bytes of an upload that wait in a temporary file while its sender reads no answers; 0 = none",
    )
    response_cache_bytes: int = _setting(
        16_777_216,
        _whole(0, 4_294_967_296),
        "bytes of answers that a worker keeps, with their questions, for the same hole with any id; 0 = none",
    )
    shared_answers_bytes: int = _setting(
        4_194_304,
        _whole(0, 4_294_967_296),
        "bytes of new answers to single requests that all workers share; 0 = none",
    )
    api_keys_file: str = _setting("", _text, "file of API keys, a line name:sha256 each; empty = none are asked for")
    cors_origins: tuple[str, ...] = _setting(
        (), _origins, "origins of other web pages that may ask, https://HOST[:PORT] each, with blanks between"
    )
    allow_open: bool = _setting(False, _flag, "true = may listen beyond loopback without API keys")
    max_concurrency: int = _setting(0, _whole(0, 100_000), "most requests that a worker runs at once; 0 = its threads")
    log_level: str = _setting(
        "info", _word("debug", "info", "warning", "error", "critical"), "least severity that is logged"
    )


def from_environment(environment: Mapping[str, str]) -> Settings:
    """The settings of ``environment``.

    Raises: SettingsError for a variable with our prefix that is no setting, and for a value that cannot be used; all
    faults are named at once.
    """
    known = {PREFIX + setting.name.upper(): setting for setting in fields(Settings)}
    given: dict[str, Any] = {}
    faults: list[str] = []
    for variable, text in environment.items():
        if not variable.startswith(PREFIX) or variable.startswith(CLIENT_PREFIX):
            continue
        setting = known.get(variable)
        if setting is None:
            faults.append(f"{variable} is no setting{_meant(variable, known)}")
            continue
        try:
            given[setting.name] = setting.metadata["read"](text)
        except ValueError as error:
            faults.append(f"{variable} needs {error}, not {text[:80]!r}")
    if faults:
        raise SettingsError("; ".join(faults))
    settings = Settings(**given)
    check_open(settings, settings.bind)
    return settings


#: Names that other services have for a setting.
_OTHERWISE = {
    "PORT": "bind", "HOST": "bind", "ADDRESS": "bind", "LISTEN": "bind", "API_KEY": "api_keys_file",
    "API_KEYS": "api_keys_file", "KEY": "api_keys_file", "LOGLEVEL": "log_level", "PROCESSES": "workers",
}  # fmt: skip


def _meant(variable: str, known: Mapping[str, Any]) -> str:
    """The setting that was probably meant, with an example of what it takes."""
    name = variable.removeprefix(PREFIX)
    near = nearest(name, [setting.removeprefix(PREFIX) for setting in known], most=1)
    meant = _OTHERWISE.get(name.upper(), near[0].lower() if near else "")
    if not meant:
        return f"; the settings are {', '.join(known)}"
    setting = known[PREFIX + meant.upper()]
    return f"; did you mean {PREFIX}{meant.upper()} ({setting.metadata['meaning']})?"


def check_open(settings: Settings, *addresses: str) -> None:
    """Refuse to listen to others where nobody asks them for keys.

    Raises: SettingsError for an address beyond loopback, unless there are keys, or ``allow_open`` says so.
    """
    if settings.api_keys_file or settings.allow_open:
        return
    for address in addresses:
        if not _is_loopback(address):
            raise SettingsError(
                f"the address {address} is open to others: set BOREWRIGHT_API_KEYS_FILE, or say"
                " BOREWRIGHT_ALLOW_OPEN=true"
            )


def _shown(default: object) -> str:
    if isinstance(default, tuple):
        return " ".join(default)
    return str(default).lower() if isinstance(default, bool) else str(default)


def describe() -> tuple[SettingRow, ...]:
    """Every setting with its default and meaning, for the README."""
    return tuple(
        SettingRow(
            PREFIX + setting.name.upper(),
            _shown(setting.default),
            setting.metadata["meaning"],
        )
        for setting in fields(Settings)
    )
