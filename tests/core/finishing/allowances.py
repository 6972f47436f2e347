"""What the tests of allowances share: threads and lengths to ask with, what an allowance says of them."""

from __future__ import annotations

from decimal import Decimal

from borewright.core import callout, standards
from borewright.core.model import Allowance, FinishInput, Length, LengthRange, Thread

ZINC_8 = FinishInput(text="ASTM B633 Fe/Zn 8")
HOT_DIP = FinishInput(text="hot-dip galvanized")


def resolved(text: str) -> Thread:
    return standards.resolve(callout.read(text))


def span(least: str | None, most: str | None, unit: str | None = None) -> LengthRange:
    return LengthRange(*(None if end is None else Length(Decimal(end), unit) for end in (least, most)))


def codes(allowance: Allowance) -> list[str]:
    return [caution.code for caution in allowance.notes.cautions]


def said_of(allowance: Allowance, code: str) -> str:
    return next(caution.text for caution in allowance.notes.cautions if caution.code == code)


def assumes(allowance: Allowance, *words: str) -> bool:
    return any(all(word in line for word in words) for line in allowance.notes.assumptions)
