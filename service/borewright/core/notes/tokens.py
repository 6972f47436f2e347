"""A plain copy of a note cut into tokens: threads, sizes with their unit and tolerance, angles, words, signs."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from borewright.core.callout.text import number
from borewright.core.model import Unit
from borewright.core.rounding import half_even, plain

from .characters import COUNTERBORE, COUNTERSINK, DEPTH, DIAMETER, SQUARE_TO
from .designations import STARTS, Designation, designation_at
from .words import first_words, phrases, unspaced

_N = r"(?:[0-9]{1,12}(?:[.,][0-9]{1,12})?|[.,][0-9]{1,12})(?![0-9])"
_UNIT = r"(?: ?(?P<unit>MM|INCHES|INCH|IN)(?![A-Z])(?! LINE)|(?P<mark>\"|''))?"
#: Tolerance classes of holes (ISO 286-1) that a note is likely to state, and of those what is finer than drilled.
_FIT = r"[HJ][SP]?[0-9]{1,2}|G[67]|F[78]|E[89]|D9|D10|[KNP]7|[NP]9"
_FITTED = re.compile(r"[A-Z]S?[5-9]", re.IGNORECASE)
_TOLERANCE = (
    rf"(?: ?± ?{_N}(?: ?MM| ?IN)?| ?\+ ?{_N} ?[/^ ] ?[-+]? ?{_N}| ?\+ ?{_N}(?! ?[x×])(?![0-9])"
    rf"| ?\( ?± ?{_N} ?\)| ?(?P<fit>{_FIT})(?![A-Z0-9/]))?"
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
    "|": "bar", "+": "plus", '"': "quote", "'": "quote",
}  # fmt: skip
_LETTER, _UNKNOWN = frozenset({"letter"}), frozenset({"unknown"})
#: Kinds of words and letters that mean nothing by themselves.
_NOTHING = frozenset({"letter", "unknown", "joining", "to"})
#: Signs that stand for a character which could not be read, and what is nothing without that character.
ILLEGIBLE, _TORN = frozenset("?\ufffd□■¿"), frozenset({"size", "thread", "point"})
_FIGURES = frozenset("0123456789.,")
#: What parts the words of a phrase.
_PARTS_PHRASE = frozenset(" -\n")
#: What stands between the whole and the part of a mixed number, or in a fraction.
_PARTS_FRACTION = frozenset("-/ ")
_SIZES, _WHOLE = frozenset({"size"}), frozenset({"size", "whole"})
_FIT_SIZE = frozenset({"fitted"})
_FRACTIONS, _ANGLES = frozenset({"size", "fraction"}), frozenset({"angle"})
_OPENS_NUMBER = _FIGURES | frozenset("(#Nn")
#: Signs that what belongs to a size begins with: an angle; a unit, tolerance, fit or the same in the other unit.
_OPENS_ANGLE, _OPENS_AFTER_SIZE = frozenset("°DdGg"), frozenset("MmIi\"'±+([DdEeFfGgHhJjKkNnPp")


class Token(NamedTuple):
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

    def cut(self, most: int) -> list[Token]:
        """At most ``most`` tokens in the order of the text, blanks left out, and one for the rest of the text."""
        text, place, size = self.text, 0, len(self.text)
        while place < size:
            if text[place] == " ":
                place += 1
                continue
            if len(self.tokens) >= most:
                self.tokens.append(Token(frozenset({"other"}), place, size, text[place:size]))
                break
            token = self._token(place)
            if "newline" in token.kinds:
                self._after_metric = False
            if (token.kinds <= _NOTHING and self._is_torn(token)) or self._is_illegible(token):
                last = self.tokens.pop()
                token = Token(frozenset({"other"}), last.start, token.end, text[last.start : token.end])
            self.tokens.append(token)
            place = token.end
        return self.tokens

    def _token(self, place: int) -> Token:
        """The token that begins at a place; its first sign says what it can be."""
        sign = self.text[place]
        token = self._thread(place) if sign in STARTS else None
        if token is None and sign in _OPENS_NUMBER:
            token = self._number(place)
        if token is None and (sign.isalpha() or not sign.isascii()):
            token = self._word(place)
        return self._sign(place) if token is None else token

    def _is_torn(self, token: Token) -> bool:
        """Whether a letter without a meaning is glued to the number before it, which then is none (``1A``); U, V and W
        behind a depth are the form of a hole's bottom (ISO 15786), a class is a number and a letter.
        """
        if not self.tokens or token.text[0] in "UVW" or not token.text[0].isalpha():
            return False
        last, before = self.tokens[-1], self.tokens[-2].kinds if len(self.tokens) > 1 else frozenset()
        return last.end == token.start and "size" in last.kinds and last.unit is None and "class_word" not in before

    def _is_illegible(self, token: Token) -> bool:
        """Whether a sign for what could not be read is glued to a number or a thread before or behind it."""
        if not self.tokens or self.tokens[-1].end != token.start:
            return False
        last = self.tokens[-1]
        if token.text[0] in ILLEGIBLE:
            return not last.kinds.isdisjoint(_TORN)
        return last.text[-1] in ILLEGIBLE and not token.kinds.isdisjoint(_TORN)

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
        digits = _DECIMAL.match(text, place)
        if digits is None:
            return self._endless(place)
        value, end, kinds = self._value(place, digits[0])
        following = text[end : end + 2].lstrip(" ")[:1]
        angle = _ANGLE.match(text, end) if following in _OPENS_ANGLE else None
        if angle:
            return Token(_ANGLES, place, angle.end(), text[place : angle.end()], value)
        after = _AFTER_SIZE.match(text, end) if following in _OPENS_AFTER_SIZE else None
        if after is None or after.end() == end:
            return Token(kinds, place, end, text[place:end], value)
        word = (after["unit"] or "").upper()
        unit: Unit | None = "mm" if word == "MM" else "in" if word or after["mark"] else None
        end = after.end()
        fitted = after["fit"] is not None and _FITTED.fullmatch(after["fit"]) is not None
        return Token(kinds - {"whole"} | (_FIT_SIZE if fitted else set()), place, end, text[place:end], value, unit)

    def _value(self, place: int, digits: str) -> tuple[Decimal, int, frozenset[str]]:
        """Value, end and kinds of the number at a place that begins with ``digits``: mixed, a fraction or plain."""
        text, end = self.text, place + len(digits)
        if digits.isdigit() and text[end : end + 1] in _PARTS_FRACTION:
            found = None if self._after_metric else _MIXED.match(text, place)
            if found and int(found[2]) < int(found[3]):
                return int(found[1]) + _part(found[2], found[3]), found.end(), _FRACTIONS
            found = _FRACTION.match(text, place) if self._may_be_fraction(place) else None
            if found and int(found[1]) % 2:
                return _part(found[1], found[2]), found.end(), _FRACTIONS
        is_whole = digits == "0" or (digits.isdigit() and not digits.startswith("0"))
        return number(digits), end, _WHOLE if is_whole else _SIZES

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
        end = _after_point(text, found.end())
        phrase = self._phrase(place, first, end)
        if phrase is not None:
            return phrase
        return Token(_LETTER if len(first) == 1 else _UNKNOWN, place, end, found[0])

    def _phrase(self, place: int, first: str, end: int) -> Token | None:
        """The longest phrase of the vocabulary that begins with ``first``, which ends at ``end``; blanks, hyphens and
        one line break may part it.
        """
        text, branch = self.text, first_words().get(first)
        meanings, behind, count = None, end, 0
        while branch is not None:
            count += 1
            if branch.meanings is not None:
                meanings, behind = branch.meanings, end
                if len(first) == 1 and count == 1:
                    meanings = meanings | _LETTER
            following = _next_word(text, end) if branch.further else None
            if following is None:
                break
            branch, end = branch.further.get(_folded(following[0])), _after_point(text, following.end())
        if meanings is None:
            return None
        return Token(meanings, place, behind, text[place:behind], _number_of(meanings))

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
    return word.upper() if word.isalpha() else word.upper().replace("'", "").replace(".", "")


def _number_of(meanings: frozenset[str]) -> Decimal | None:
    """The number that a word like "four" says, which is one of its meanings."""
    return next(map(Decimal, filter(str.isdigit, meanings)), None) if "number_word" in meanings else None


def _next_word(text: str, end: int) -> re.Match[str] | None:
    """The word or number that stands behind ``end``, parted by at most two blanks, hyphens or line breaks."""
    begin = end
    while text[begin : begin + 1] in _PARTS_PHRASE and begin < len(text) and begin - end < 3:
        begin += 1
    return _WORD.match(text, begin) or _DECIMAL.match(text, begin)


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
