"""A plain copy of a note cut into tokens: threads, sizes with their unit and tolerance, angles, words, signs."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from borewright.core.callout.text import number
from borewright.core.model import Unit
from borewright.core.rounding import half_even, plain

from .characters import COUNTERBORE, COUNTERSINK, DEPTH, DIAMETER, SQUARE_TO
from .designations import Designation, designation_at
from .words import phrases, unspaced

_N = r"(?:[0-9]{1,12}(?:[.,][0-9]{1,12})?|[.,][0-9]{1,12})(?![0-9])"
_UNIT = r"(?: ?(?P<unit>MM|INCHES|INCH|IN)(?![A-Z])(?! LINE)|(?P<mark>\"|''))?"
_TOLERANCE = (
    rf"(?: ?± ?{_N}(?: ?MM| ?IN)?| ?\+ ?{_N} ?[/^ ] ?[-+]? ?{_N}| ?\+ ?{_N}(?! ?[x×])(?![0-9])"
    rf"| ?\( ?± ?{_N} ?\)| ?[HJ][SP]?[0-9]{{1,2}}(?![A-Z0-9]))?"
)
_DUAL = rf"(?: ?\[ ?[Ø]? ?{_N}(?: ?(?:MM|IN|\"))?(?: ?[±+-] ?{_N}){{0,2}} ?\])?"
_IGNORE = re.IGNORECASE
_MIXED = re.compile(r"([0-9]{1,2})(?:-| {1,3})([0-9]{1,2})/(2|4|8|16|32|64)(?![0-9])")
_FRACTION = re.compile(r"([0-9]{1,3})/(2|4|8|16|32|64)(?![0-9.,])")
_DECIMAL = re.compile(_N)
_AFTER_SIZE = re.compile(_UNIT + _TOLERANCE + _DUAL, _IGNORE)
_ANGLE = re.compile(r" ?(?:°|DEGREES?|DEGS?|GRAD)(?![A-Z])\.?(?: ?(?:INCL(?:UDED|USIVE)?|INC)(?![A-Z])\.?)?", _IGNORE)
_BRACKETED = re.compile(
    rf"\( ?(?:Ø ?)?({_N}|[0-9]{{1,2}}/(?:2|4|8|16|32|64)) ?(MM|IN|\")? ?(?:DIA|REF\.?)? ?\)", _IGNORE
)
_BRACKETED_LABEL = re.compile(r"\( ?(?:#|NO\.?) ?[0-9]{1,2} ?\)", _IGNORE)
#: A fraction that says itself that it is one of an inch.
_INCH_FRACTION = re.compile(r"[0-9]{1,2}/(?:2|4|8|16|32|64) ?(?:\"|''|IN(?![A-Z]))", _IGNORE)
_NUMBERED = re.compile(r"(?:#|NO\.?|NR\.?) ?([0-9]{1,2})(?![0-9/]|[.,][0-9]|-[0-9])", _IGNORE)
_WORD = re.compile(r"(?:[A-Za-z]\.){2,4}[A-Za-z]?(?![A-Za-z])|[A-Za-z][A-Za-z']*")
_BLANKS = re.compile(r"[ \n]*")
_SIGNS = {
    DIAMETER: "diameter", DEPTH: "depth_sign", COUNTERBORE: "counterbore", COUNTERSINK: "countersink",
    SQUARE_TO: "square_to", "-": "dash", "/": "slash", "(": "open", ")": "close", "&": "joining and", ",": "comma",
    ";": "semicolon", ":": "colon", "=": "equals", ".": "point", "#": "number_sign", "\n": "newline", "⌖": "frame",
    "|": "bar", "+": "plus",
}  # fmt: skip
_MOST_WORDS = 7
#: Kinds of words and letters that mean nothing by themselves.
_NOTHING = frozenset({"letter", "unknown", "joining", "to"})
_FIGURES = frozenset("0123456789.,")
#: Pieces of a note that are read; the rest is unread (our own limit: a note of 4,000 characters has some 900).
_MOST_TOKENS = 1_000


@dataclass(frozen=True, slots=True)
class Token:
    """A piece of the copy. ``kinds``: everything that it may stand for in a rule; ``value`` of a number as written."""

    kinds: frozenset[str]
    start: int
    end: int
    text: str
    value: Decimal | None = None
    unit: Unit | None = None
    designation: Designation | None = None


class Cutter:
    """Cuts one copy. ``readings`` bounds how often the reader of callouts is asked."""

    def __init__(self, text: str, readings: int) -> None:
        self.text = text
        self.readings = readings
        self.tokens: list[Token] = []
        self._after_metric = False

    def cut(self) -> list[Token]:
        """Tokens in the order of the text, blanks left out."""
        text, place, size = self.text, 0, len(self.text)
        while place < size:
            if text[place] == " ":
                place += 1
                continue
            if len(self.tokens) == _MOST_TOKENS:
                self.tokens.append(Token(frozenset({"other"}), place, size, text[place:size]))
                break
            token = self._thread(place) or self._number(place) or self._word(place) or self._sign(place)
            if "newline" in token.kinds:
                self._after_metric = False
            if self._is_torn(token):
                last = self.tokens.pop()
                token = Token(frozenset({"other"}), last.start, token.end, text[last.start : token.end])
            self.tokens.append(token)
            place = token.end
        return self.tokens

    def _is_torn(self, token: Token) -> bool:
        """Whether a letter without a meaning is glued to the number before it, which then is none (``1A``); U, V and W
        behind a depth are the form of a hole's bottom (ISO 15786), a class is a number and a letter.
        """
        if not token.kinds <= _NOTHING or not self.tokens or token.text[0] in "UVW" or not token.text[0].isalpha():
            return False
        last, before = self.tokens[-1], self.tokens[-2].kinds if len(self.tokens) > 1 else frozenset()
        return last.end == token.start and "size" in last.kinds and last.unit is None and "class_word" not in before

    def _last(self) -> frozenset[str]:
        return self.tokens[-1].kinds if self.tokens else frozenset()

    def _thread(self, place: int) -> Token | None:
        if self.readings <= 0 or not self._may_open_thread(place):
            return None
        found = designation_at(self.text, place)
        if found is None:
            return None
        self.readings -= 1 if found.callout else 3
        if found.callout is None and re.match(r"[0-9]{1,2}[- ][0-9]{1,2}/", self.text[place : place + 6]):
            return None  # a number before a size, as in 2 1/4-20
        self._after_metric = found.metric
        kinds = frozenset({"thread", "metric"} if found.metric else {"thread"})
        return Token(kinds, place, found.end, self.text[place : found.end], designation=found)

    def _may_open_thread(self, place: int) -> bool:
        before = self.text[place - 1] if place else " "
        if before.isascii() and before.isalnum() and not ("by" in self._last() and before in "xX"):
            return before in "PXx" and "tap" in self._last()
        glued = before not in " \n"
        if glued and before in ".,/#+±":
            return before in ",/" and not self.text[place].isdigit()
        return not {"diameter", "depth_sign", "countersink", "counterbore"} & self._last() or not (
            self.text[place].isdigit() or self.text[place] in ".,"
        )

    def _number(self, place: int) -> Token | None:
        text = self.text
        first = text[place]
        if first == "(" and (found := _BRACKETED.match(text, place)):
            value = _value(found[1])
            kinds = {"bracketed", "bracketed_whole"} if found[1].isdigit() and not found[2] else {"bracketed"}
            return Token(frozenset(kinds), place, found.end(), found[0], value)
        if first == "(" and (found := _BRACKETED_LABEL.match(text, place)):
            return Token(frozenset({"bracketed"}), place, found.end(), found[0])
        if first in "#Nn" and (found := _NUMBERED.match(text, place)) and not text[place - 1 : place].isalpha():
            return Token(frozenset({"numbered"}), place, found.end(), found[0], Decimal(found[1]))
        if not (first.isascii() and first.isdigit()) and not (first in ".," and text[place + 1 : place + 2].isdigit()):
            return None
        if first == "," and place and text[place - 1].isalnum():
            return None
        return self._size(place)

    def _size(self, place: int) -> Token:
        text = self.text
        found = None if self._after_metric else _MIXED.match(text, place)
        if found and int(found[2]) < int(found[3]):
            value, end, kinds = int(found[1]) + _part(found[2], found[3]), found.end(), {"size", "fraction"}
        elif self._may_be_fraction(place) and (found := _FRACTION.match(text, place)) and int(found[1]) % 2:
            value, end, kinds = _part(found[1], found[2]), found.end(), {"size", "fraction"}
        else:
            found = _DECIMAL.match(text, place)
            if found is None:
                return self._endless(place)
            digits = found[0]
            value, end = number(digits), found.end()
            is_whole = digits == "0" or (digits.isdigit() and not digits.startswith("0"))
            kinds = {"size", "whole"} if is_whole else {"size"}
        angle = _ANGLE.match(text, end)
        if angle:
            return Token(frozenset({"angle"}), place, angle.end(), text[place : angle.end()], value)
        after = _AFTER_SIZE.match(text, end)
        unit: Unit | None = None
        if after and after.end() > end:
            kinds.discard("whole")
            word = (after["unit"] or "").upper()
            unit = "mm" if word == "MM" else "in" if word or after["mark"] else None
            end = after.end()
        return Token(frozenset(kinds), place, end, text[place:end], value, unit)

    def _may_be_fraction(self, place: int) -> bool:
        """After a metric thread a slash parts two depths, unless the fraction bears the sign of the inch."""
        return not self._after_metric or _INCH_FRACTION.match(self.text, place) is not None

    def _endless(self, place: int) -> Token:
        """A run of figures that is no number of a drawing."""
        end = place + 1
        while self.text[end : end + 1] in _FIGURES and end < len(self.text):
            end += 1
        return Token(frozenset({"other"}), place, end, self.text[place:end])

    def _word(self, place: int) -> Token | None:
        text = self.text
        if not text[place].isascii():
            known = next((word for word in unspaced().get(text[place], ()) if text.startswith(word, place)), None)
            if known is None:
                return None
            return Token(phrases()[known][0][1], place, place + len(known), known)
        if not text[place].isalpha():
            return None
        by = self._by(place)
        if by is not None:
            return by
        if text[place] in "Vv" and text[place + 1 : place + 3].lstrip()[:1] == DIAMETER:
            return Token(frozenset({"countersink"}), place, place + 1, text[place])
        found = _WORD.match(text, place)
        if found is None:
            return None
        first = _folded(found[0])
        phrase = self._phrase(place, first) if first in phrases() else None
        if phrase is not None:
            return phrase
        kinds = frozenset({"letter"}) if len(first) == 1 else frozenset({"unknown"})
        return Token(kinds, place, _after_point(text, found.end()), found[0])

    def _phrase(self, place: int, first: str) -> Token | None:
        """The longest phrase of the vocabulary that begins here; blanks, hyphens and one line break may part it."""
        text, words, ends = self.text, [first], [_after_point(self.text, place + len(_WORD.match(self.text, place)[0]))]  # type: ignore[index]
        known = phrases()[first]
        longest = min(_MOST_WORDS, len(known[0][0]))
        while len(words) < longest:
            begin = ends[-1]
            while begin < len(text) and text[begin] in " -\n" and begin - ends[-1] < 3:
                begin += 1
            found = _WORD.match(text, begin) or _DECIMAL.match(text, begin)
            if found is None or begin == len(text):
                break
            words.append(_folded(found[0]))
            ends.append(_after_point(text, found.end()))
        for phrase, meanings in known:
            if tuple(words[: len(phrase)]) == phrase:
                end = ends[len(phrase) - 1]
                kinds = meanings | {"letter"} if len(first) == 1 and len(phrase) == 1 else meanings
                return Token(kinds, place, end, text[place:end])
        return None

    def _by(self, place: int) -> Token | None:
        """``x`` between numbers, or after a number of holes; ``counting`` where it is written as a count is."""
        text = self.text
        if text[place] not in "xX" or not {"size", "whole", "numbered", "diameter_word", "angle"} & self._last():
            glued = text[place - 1 : place].isalpha() and "thread" not in self._last()
            if text[place] not in "xX" or text[place + 1 : place + 2].isalpha() or glued:
                return None
            return Token(frozenset({"by"}), place, place + 1, text[place])
        after = text[place + 1 : place + 2]
        if after.isascii() and after.isalpha() and not self._opens(place + 1):
            return None
        glued_left = self.tokens[-1].end == place
        counting = glued_left and (after in ("", " ", "\n", "(", ")", ",", ":") or after in "Ø⌴⌵↧#")
        return Token(frozenset({"by", "counting"} if counting else {"by"}), place, place + 1, text[place])

    def _opens(self, place: int) -> bool:
        """Whether a thread or a known word stands at a place."""
        word = _WORD.match(self.text, place)
        return bool(word and _folded(word[0]) in phrases()) or designation_at(self.text, place) is not None

    def _sign(self, place: int) -> Token:
        sign = self.text[place]
        kinds = frozenset(_SIGNS.get(sign, "other").split())
        if sign == "-":
            blank = self.text[place - 1 : place] in ("", " ", "\n") and self.text[place + 1 : place + 2] in ("", " ")
            kinds |= {"spaced_dash"} if blank else {"glued_dash"}
        return Token(kinds, place, place + 1, sign)


def _folded(word: str) -> str:
    return word.upper().replace("'", "").replace(".", "")


def _after_point(text: str, end: int) -> int:
    """Behind the point of an abbreviation."""
    return end + 1 if text[end : end + 1] == "." and not text[end + 1 : end + 2].isdigit() else end


def _part(over: str, under: str) -> Decimal:
    return Decimal(plain(half_even(Decimal(over) / Decimal(under), 6)))


def _value(digits: str) -> Decimal:
    if "/" in digits:
        exact = Fraction(digits)
        return half_even(Decimal(exact.numerator) / exact.denominator, 6)
    return number(digits)
