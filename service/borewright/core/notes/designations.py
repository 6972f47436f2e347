"""Where a thread designation stands in a note, and how far it reaches; the house's reader judges what it means."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from borewright.core import callout
from borewright.core.caches import cached
from borewright.core.callout.text import number
from borewright.core.errors import BorewrightError, Fault
from borewright.core.model import ThreadCallout, Unit
from borewright.core.practice import figure
from borewright.core.standards.metric.sizes import coarse_pitch, pitches_for

_NUMBER = r"(?:[0-9]{1,3}(?:[.,][0-9]{1,4})?|[.,][0-9]{1,4})"
_FRACTION = r"[0-9]{1,2}/(?:64|32|16|8|4|2)(?![0-9])"
_INCH_SIZE = (
    rf"(?:(?:\#|NO\.?)\s?[0-9]{{1,2}}|[0-9]{{1,2}}[-\s]{_FRACTION}|{_FRACTION}|[0-9]?[.,][0-9]{{2,4}}|[0-9]{{1,2}}(?:\sOD)?)"
    r"(?:\s?\(\s?\.[0-9]{3,4}\s?\)|\s?(?:IN(?![A-Z])\.?|\"))?"
)
_TPI = r"[0-9]{1,2}(?:[.,](?:25|5|75|625|875)|\s1/2)?(?![0-9/]|[.,][0-9])"
_UNIFIED = r"(?:(?:4|6|8|12|16|20|28|32)[-\s]?)?UN(?:JC|JF|JEF|JS|J|C|F|EF|S|M|R[CF]?)?|N(?:C|F|EF|S)"
_INCH_SERIES = (
    rf"(?:{_UNIFIED}|USS|SAE|A?NPTF?|NPS[CFMI]|BSP[PTF]?|BSW|BSF|WHIT(?:WORTH)?|STUB[-\s]?ACME|ACME|PT)(?![A-Z])"
)
_INSERT = r"(?:[-\s]{1,2}STI(?![A-Z]))?"
_INCH_CLASS = (
    r"(?:\s?[-\s]\s?(?:CLASS\s|CL\.?\s)?(?P<class>[1-5][ABGC](?:/[1-3][AB])?|(?<=-)[123])(?![0-9A-Z/.%])"
    r"|\s\((?:CLOSE|MEDIUM|FREE|NORMAL)\))?"
)
_NO_MORE = r"(?!(?!x\s?[0-9.,])[0-9A-Za-z])"
_METRIC_CLASS = rf"(?:\s?[-\s]\s?(?P<class>(?:[3-9][A-Ha-h]){{1,2}}(?:/(?:[3-9][a-h]){{1,2}})?){_NO_MORE})?"
_IGNORE = re.IGNORECASE
#: A smaller number after x, in diameters, is no depth: it is a pitch, be there one or not.
_LEAST_DEPTH = figure("note_least_depth_share")

_WITH_PITCH = re.compile(
    rf"(?:(?:USS|SAE)\s)?(?P<size>{_INCH_SIZE})(?:(?P<dash>-)|\s?-\s?|\s){_TPI}"
    rf"(?:[-\s]{{0,2}}(?P<series>{_INCH_SERIES}))?{_INSERT}{_INCH_CLASS}{_INSERT}",
    _IGNORE,
)
_WITHOUT_PITCH = re.compile(
    rf"(?P<size>{_INCH_SIZE})[-\s]{{0,2}}(?P<series>{_INCH_SERIES}|BA(?![A-Z])){_INSERT}{_INCH_CLASS}{_INSERT}", _IGNORE
)
_METRIC = re.compile(
    rf"(?P<head>(?:EG\s?)?M[JF]?)\s?(?P<size>{_NUMBER})"
    rf"(?P<pitch>\s?x\s?(?:PH\s?{_NUMBER}\s?P\s?)?(?P<after>{_NUMBER})|-(?P<dashed>{_NUMBER})(?![A-Za-z0-9]))?",
    _IGNORE,
)
_PITCH_WORD = "(?i:FINE|FEIN(?:GEWINDE)?|PAS FIN|PASSO FINE|PASO FINO|COARSE|REGELGEWINDE)"
_METRIC_TAIL = re.compile(
    rf"(?:\s?[-\s]\s?(?P<fine>{_PITCH_WORD})(?![A-Za-z]))?(?P<insert>{_INSERT}){_METRIC_CLASS}{_INSERT}"
)
_PIPE = re.compile(
    rf"(?P<head>G|RC|RP|PT|PF|PS|W)\s?(?P<size>[0-9]{{1,2}}[-\s]{_FRACTION}|{_FRACTION}|[1-6](?![0-9]|[.,][0-9]))"
    r"(?:\s?(?P<class>[AB])(?![A-Z0-9]))?"
    rf"|(?P<american>A?NPTF?|NPS[CFMI])\s?-?(?:[0-9]{{1,2}}[-\s]{_FRACTION}|{_FRACTION}|[1-9](?![0-9]|[.,][0-9]))(?:-{_TPI})?",
    _IGNORE,
)
_TRAPEZOIDAL = re.compile(rf"TR\s?{_NUMBER}\s?x\s?{_NUMBER}(?:\s?-\s?[7-9][HE](?![A-Z0-9]))?", _IGNORE)
#: What a designation may begin with.
STARTS = frozenset("0123456789.#,MGRPWTNEBmgrpwtneb")
#: Of threads whose standards are in millimetres.
_METRIC_SIGNS = ("M", "EG", "TR", "G", "R")
_OLD_NAMES = {"USS": "UNC", "SAE": "UNF"}
#: Refusals that mean: this is a thread, but not one that can be taken as it is.
_ASKED_BACK = frozenset({
    "callout_ambiguous", "thread_pitch_unknown", "thread_series_mismatch", "thread_size_unknown",
    "thread_class_unknown", "thread_class_external", "thread_cell_undefined", "thread_data_missing",
    "thread_system_unknown", "callout_has_depth",
})  # fmt: skip


@dataclass(frozen=True, slots=True)
class Designation:
    """A thread as a note names it: ``text`` for the reader of callouts, what it read, or why it did not."""

    text: str
    end: int
    callout: ThreadCallout | None
    fault: Fault | None
    metric: bool
    stated_class: str | None
    assumptions: tuple[str, ...]

    @property
    def unit(self) -> Unit:
        """That of its standard, in which the lengths beside it are meant, also where no such thread is read."""
        if self.callout is not None:
            return self.callout.unit
        return "mm" if self.text.upper().startswith(_METRIC_SIGNS) else "in"


def designation_at(text: str, place: int) -> Designation | None:
    """The designation that begins at a place of a plain copy, None where none does.

    Returns: what the house's reader made of the text, or why it did not read it.
    Source: forms of ASME Y14.6 and ISO 6410-1 as the reference notes list them.
    """
    if text[place] not in STARTS:
        return None
    sign = text[place].upper()
    if sign in "ME" and (found := _METRIC.match(text, place)):
        return _metric(text, found)
    if sign == "T" and (found := _TRAPEZOIDAL.match(text, place)):
        return _judged(found[0], found.end())
    if sign in "GRPWAN" and (found := _PIPE.match(text, place)):
        return _judged(found[0], found.end(), stated_class=found["class"])
    found = _WITH_PITCH.match(text, place) or _WITHOUT_PITCH.match(text, place)
    return _inch(found) if found else None


def _metric(text: str, found: re.Match[str]) -> Designation | None:
    """A metric thread. The number after x is its pitch where ISO 261 lists it, else a depth that follows."""
    end = _end_of_pitch(text, found)
    tail = _METRIC_TAIL.match(text, end)
    words = text[found.start() : end].upper().replace("X", "x").replace("\n", " ")
    if tail is None:  # every part of it may be missing
        return None
    if tail["fine"]:
        words += " coarse" if tail["fine"][0] in "CRcr" else " fine"
    stated = tail["class"]
    assumptions: tuple[str, ...] = ()
    if stated and found["head"].islower():
        assumptions = (f"class {stated} in a note of small letters is read as {stated.upper()}",)
        stated = stated.upper()
    insert = " STI" if "STI" in tail[0].upper() else ""
    words += insert + (f"-{stated}" if stated else "")
    return _judged(words, tail.end(), metric=True, stated_class=stated, assumptions=assumptions)


def _end_of_pitch(text: str, found: re.Match[str]) -> int:
    """Where size and pitch end: a class after the number after x makes that number a pitch too, listed or not."""
    if not found["pitch"]:
        return found.end("size")
    written = number(found["after"] or found["dashed"])
    if found["head"].upper().endswith("J"):
        listed = _read(f"MJ{found['size']}x{written}")[0] is not None
    else:
        listed = _is_pitch(number(found["size"]), written, dashed=bool(found["dashed"]))
    tail = _METRIC_TAIL.match(text, found.end())
    with_class = found["after"] and tail is not None and tail["class"]
    return found.end() if listed or with_class else found.end("size")


def _is_pitch(diameter: Decimal, value: Decimal, *, dashed: bool) -> bool:
    listed = pitches_for(diameter)
    coarse = coarse_pitch(diameter)
    if value in listed or dashed:
        return value in listed
    return (coarse is not None and value < coarse) or value < _LEAST_DEPTH * diameter


def _inch(found: re.Match[str]) -> Designation | None:
    text, assumptions = " ".join(found[0].split()), []
    for old, new in _OLD_NAMES.items():
        if re.search(rf"(?<![A-Z]){old}(?![A-Z])", text, _IGNORE):
            text = re.sub(rf"(?<![A-Z]){old}(?![A-Z])\s?", "", text, flags=_IGNORE).strip(" -") + f" {new}"
            assumptions.append(f"{old} is the older name of {new}")
    stated = found["class"]
    if stated is not None and stated.isdigit():
        text = f"{text}B"
        assumptions.append(f"class {stated} without a letter is read as {stated}B: the thread is that of a hole")
        stated = f"{stated}B"
    read = _judged(text, found.end(), stated_class=stated, assumptions=tuple(assumptions))
    has_series = found["series"] is not None
    if read is None or (read.callout is None and not has_series and not stated):
        return None
    spaced = "dash" in found.groupdict() and not found["dash"]
    return None if spaced and not has_series and not stated else read


def _judged(
    text: str,
    end: int,
    *,
    metric: bool = False,
    stated_class: str | None = None,
    assumptions: tuple[str, ...] = (),
) -> Designation | None:
    plain = " ".join(text.split())
    read, fault = _read(plain)
    if fault is not None and fault.code not in _ASKED_BACK:
        return None
    return Designation(plain, end, read, fault, metric, stated_class, assumptions)


@cached(512)
def _read(text: str) -> tuple[ThreadCallout | None, Fault | None]:
    """What the house's reader makes of a text, or why it refuses it."""
    try:
        return callout.read(text), None
    except BorewrightError as error:
        fault, *_ = error.faults
        return None, fault
