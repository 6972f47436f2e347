"""A plain copy of a note cut into tokens: threads, sizes with their unit and tolerance, angles, words, signs."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import NamedTuple, cast

from borewright.core.callout.text import number
from borewright.core.model import Unit
from borewright.core.rounding import plain

from .characters import COUNTERBORE, COUNTERSINK, DEPTH, DIAMETER, SQUARE_TO
from .designations import STARTS, Designation, designation_at
from .words import first_words, phrases, unspaced

_N = r"(?:[0-9]{1,12}(?:[.,][0-9]{1,12})?|[.,][0-9]{1,12})(?![0-9])"
_UNIT = r"(?: ?(?P<unit>MM|INCHES|INCH|IN)(?![A-Z])(?! LINE)|(?P<mark>\"|''))?"
#: Tolerance classes of holes (ISO 286-1) that a note is likely to state, and of those what is finer than drilled.
_FIT = r"[HJ][SP]?[0-9]{1,2}|G[67]|F[78]|E[89]|D9|D10|[KNP]7|[NP]9"
_FITTED = re.compile(r"[A-Z]S?[5-9]", re.IGNORECASE)
_TOLERANCE = (
    rf"(?: ?± ?{_N}(?: ?MM| ?IN)?| ?\+ ?{_N} ?[/^ ] ?[-+]? ?{_N}| ?\+ ?{_N}(?! ?[x×])(?![.,]?[0-9])"
    rf"| ?\( ?± ?{_N} ?\)| ?(?P<fit>{_FIT})(?![A-Z0-9/]))?"
)
_DUAL = rf"(?: ?\[ ?[Ø]? ?{_N}(?: ?(?:MM|IN|\"))?(?: ?[±+-] ?{_N}){{0,2}} ?\])?"
_IGNORE = re.IGNORECASE
_MIXED = re.compile(r"([0-9]{1,2})(?:-| {1,3})([0-9]{1,2})/(2|4|8|16|32|64)(?![0-9])")
_FRACTION = re.compile(r"([0-9]{1,3})/(2|4|8|16|32|64)(?![0-9.,])")
#: A number, or a run of figures that is none of a drawing; a comma glued to a word opens neither.
_FIGURES = re.compile(rf"(?:(?=[0-9]|\.\d)|(?<![^\W_])(?=,\d))(?:(?P<number>{_N})|[0-9.,]+)")
_WHOLE_NUMBER = re.compile(r"0|[1-9][0-9]*")
_AFTER_SIZE = re.compile(_UNIT + _TOLERANCE + _DUAL, _IGNORE)
_ANGLE = re.compile(r" ?(?:°|DEGREES?|DEGS?|GRAD)(?![A-Z])\.?(?: ?(?:INCL(?:UDED|USIVE)?|INC)(?![A-Z])\.?)?", _IGNORE)
_BRACKETED = re.compile(
    rf"\( ?(?:Ø ?)?({_N}|[0-9]{{1,2}}/(?:2|4|8|16|32|64)) ?(MM|IN|\")? ?(?:DIA|REF\.?)? ?\)", _IGNORE
)
_BRACKETED_LABEL = re.compile(r"\( ?(?:#|NO\.?) ?[0-9]{1,2} ?\)", _IGNORE)
#: A fraction that says itself that it is one of an inch.
_INCH_FRACTION = re.compile(r"[0-9]{1,2}/(?:2|4|8|16|32|64) ?(?:\"|''|IN(?![A-Z]))", _IGNORE)
_NUMBERED = re.compile(r"(?<![^\W\d_])(?:#|NO\.?|NR\.?) ?([0-9]{1,2})(?![0-9/]|[.,][0-9]|-[0-9])", _IGNORE)
_WORD = re.compile(r"(?:[A-Za-z]\.){2,4}[A-Za-z]?(?![A-Za-z])|[A-Za-z][A-Za-z']*")
#: The word or number that may go on a phrase: at most three blanks, hyphens or line breaks part it.
_NEXT = re.compile(rf"[ \n-]{{0,3}}(?P<word>{_WORD.pattern}|{_N})")
#: The point of an abbreviation.
_POINT = re.compile(r"\.(?!\d)")
#: V for a countersink.
_V = re.compile(rf"[Vv](?=\s?{DIAMETER})")
#: A dash with blanks, or an end of the text, on both sides.
_SPACED_DASH = re.compile(r"(?<![^ \n])-(?![^ ])")
_X = re.compile(r"[xX](?:(?P<ascii>(?=[A-Za-z]))|(?P<letter>(?=[^\W\d_])))?")
#: x as a count has it.
_X_COUNTS = re.compile(rf"[xX](?![^ \n(),:#{DIAMETER}{COUNTERBORE}{COUNTERSINK}{DEPTH}])")
_X_BEHIND_LETTER = re.compile(r"(?<=[^\W\d_])[xX]")
#: Letters that make no number of the one they are glued to; U, V and W behind a depth are the form of a hole's bottom.
_TEARS = re.compile(r"(?![UVW])[^\W\d_]")
#: A number before a size, as in 2 1/4-20.
_BEFORE_SIZE = re.compile(r"[0-9]{1,2}[- ][0-9]{1,2}/")
_SIGNS = {
    DIAMETER: "diameter", DEPTH: "depth_sign", COUNTERBORE: "counterbore counterbore_sign", COUNTERSINK: "countersink",
    SQUARE_TO: "square_to", "-": "dash", "/": "slash", "(": "open", ")": "close", "&": "joining and", ",": "comma",
    ";": "semicolon", ":": "colon", "=": "equals", ".": "point", "#": "number_sign", "\n": "newline", "⌖": "frame",
    "|": "bar", "+": "plus", '"': "quote", "'": "quote",
}  # fmt: skip
_LETTER, _UNKNOWN = frozenset({"letter"}), frozenset({"unknown"})
#: Kinds of words and letters that mean nothing by themselves.
_NOTHING = frozenset({"letter", "unknown", "joining", "to"})
#: Signs that stand for a character which could not be read, and what is nothing without that character.
ILLEGIBLE, _TORN = ("?", "\ufffd", "□", "■", "¿"), frozenset({"size", "thread", "point"})
_SIZES, _WHOLE = frozenset({"size"}), frozenset({"size", "whole"})
_FIT_SIZE = frozenset({"fitted"})
_FRACTIONS, _ANGLES = frozenset({"size", "fraction"}), frozenset({"angle"})
_OPENS_NUMBER = frozenset("0123456789.,(#Nn")
#: What an x stands behind where it means by, or counts.
_COUNTED = frozenset({"size", "whole", "numbered", "diameter_word", "angle"})


class Token(NamedTuple):
    """A piece of the copy. ``kinds``: everything that it may stand for in a rule; ``value`` of a number as written."""

    kinds: frozenset[str]
    start: int
    end: int
    text: str
    value: Decimal | None = None
    unit: Unit | None = None
    designation: Designation | None = None

    @property
    def number(self) -> Decimal:
        """The value of a token that is a number, in the unit that it bears."""
        return cast(Decimal, self.value)


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
            if (not token.kinds - _NOTHING and self._is_torn(token)) or self._is_illegible(token):
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
        if token is None and sign.isalpha():
            token = self._word(place)
        return self._sign(place) if token is None else token

    def _is_torn(self, token: Token) -> bool:
        """Whether a letter without a meaning is glued to the number before it, which then is none (``1A``); U, V and W
        behind a depth are the form of a hole's bottom (ISO 15786), a class is a number and a letter.
        """
        if not self.tokens or not _TEARS.match(token.text):
            return False
        last, before = self.tokens[-1], self.tokens[-2].kinds if len(self.tokens) > 1 else frozenset()
        return last.end == token.start and "size" in last.kinds and last.unit is None and "class_word" not in before

    def _is_illegible(self, token: Token) -> bool:
        """Whether a sign for what could not be read is glued to a number or a thread before or behind it."""
        if not self.tokens or self.tokens[-1].end != token.start:
            return False
        last = self.tokens[-1]
        if token.text.startswith(ILLEGIBLE):
            return not last.kinds.isdisjoint(_TORN)
        return last.text.endswith(ILLEGIBLE) and not token.kinds.isdisjoint(_TORN)

    def _last(self) -> frozenset[str]:
        return self.tokens[-1].kinds if self.tokens else frozenset()

    def _thread(self, place: int) -> Token | None:
        if self.readings <= 0 or not self._may_open_thread(place):
            return None
        found = designation_at(self.text, place)
        if found is None:
            return None
        self.readings -= 1 if found.callout else 3
        if found.callout is None and _BEFORE_SIZE.match(self.text, place):
            return None
        self._after_metric = found.metric
        kinds = frozenset({"thread", "metric"} if found.metric else {"thread"})
        return Token(kinds, place, found.end, self.text[place : found.end], designation=found)

    def _may_open_thread(self, place: int) -> bool:
        before = self.text[place - 1] if place else " "
        if before.isascii() and before.isalnum() and not ("by" in self._last() and before in "xX"):
            return before in "PXx" and "tap" in self._last()
        if before in ".,/#+±":
            return before in ",/" and not self.text[place].isdigit()
        return not {"diameter", "depth_sign", "countersink", "counterbore"} & self._last() or not (
            self.text[place].isdigit() or self.text[place] in ".,"
        )

    def _number(self, place: int) -> Token | None:
        text = self.text
        first = text[place]
        if first == "(" and (found := _BRACKETED.match(text, place)):
            over, slash, under = found[1].partition("/")
            value = _part(over, under) if slash else number(over)
            kinds = {"bracketed", "bracketed_whole"} if found[1].isdigit() and not found[2] else {"bracketed"}
            return Token(frozenset(kinds), place, found.end(), found[0], value)
        if first == "(" and (found := _BRACKETED_LABEL.match(text, place)):
            return Token(frozenset({"bracketed"}), place, found.end(), found[0])
        if first in "#Nn" and (found := _NUMBERED.match(text, place)):
            return Token(frozenset({"numbered"}), place, found.end(), found[0], Decimal(found[1]))
        found = _FIGURES.match(text, place)
        if found is None:
            return None
        digits = found["number"]
        if digits is None:
            return Token(frozenset({"other"}), place, found.end(), found[0])
        return self._size(place, digits)

    def _size(self, place: int, digits: str) -> Token:
        text = self.text
        value, end, kinds = self._value(place, digits)
        angle = _ANGLE.match(text, end)
        if angle:
            return Token(_ANGLES, place, angle.end(), text[place : angle.end()], value)
        after = _AFTER_SIZE.match(text, end)
        if after is None or after.end() == end:
            return Token(kinds, place, end, text[place:end], value)
        word = (after["unit"] or "").upper()
        unit: Unit | None = "mm" if word == "MM" else "in" if word or after["mark"] else None
        end = after.end()
        fitted = after["fit"] is not None and _FITTED.fullmatch(after["fit"]) is not None
        return Token(kinds - {"whole"} | (_FIT_SIZE if fitted else set()), place, end, text[place:end], value, unit)

    def _value(self, place: int, digits: str) -> tuple[Decimal, int, frozenset[str]]:
        """Value, end and kinds of the number at a place that begins with ``digits``: mixed, a fraction or plain."""
        text = self.text
        found = None if self._after_metric else _MIXED.match(text, place)
        if found and int(found[2]) < int(found[3]):
            return int(found[1]) + _part(found[2], found[3]), found.end(), _FRACTIONS
        found = _FRACTION.match(text, place)
        if found and int(found[1]) % 2 and self._may_be_fraction(place):
            return _part(found[1], found[2]), found.end(), _FRACTIONS
        return number(digits), place + len(digits), _WHOLE if _WHOLE_NUMBER.fullmatch(digits) else _SIZES

    def _may_be_fraction(self, place: int) -> bool:
        """After a metric thread a slash parts two depths, unless the fraction bears the sign of the inch."""
        return not self._after_metric or _INCH_FRACTION.match(self.text, place) is not None

    def _word(self, place: int) -> Token | None:
        text = self.text
        if not text[place].isascii():
            known = next((word for word in unspaced().get(text[place], ()) if text.startswith(word, place)), None)
            if known is None:
                return None
            ((_, meanings),) = phrases()[known]
            return Token(meanings, place, place + len(known), known)
        by = self._by(place)
        if by is not None:
            return by
        found = _V.match(text, place)
        if found is not None:
            return Token(frozenset({"countersink"}), place, found.end(), found[0])
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
        meanings, alone, behind = None, end, end
        while branch is not None:
            if branch.meanings is not None:
                meanings, behind = branch.meanings, end
            following = _NEXT.match(text, end) if branch.further else None
            if following is None:
                break
            branch, end = branch.further.get(_folded(following["word"])), _after_point(text, following.end())
        if meanings is None:
            return None
        if len(first) == 1 and behind == alone:
            meanings = meanings | _LETTER
        return Token(meanings, place, behind, text[place:behind], _number_of(meanings))

    def _by(self, place: int) -> Token | None:
        """``x`` between numbers, or after a number of holes; ``counting`` where it is written as a count is."""
        text, last = self.text, self._last()
        found = _X.match(text, place)
        if found is None:
            return None
        by = Token(frozenset({"by"}), place, found.end(), found[0])
        if _COUNTED.isdisjoint(last):
            glued = found["letter"] is not None or found["ascii"] is not None
            return None if glued or ("thread" not in last and _X_BEHIND_LETTER.match(text, place)) else by
        if found["ascii"] is not None and not self._opens(found.end()):
            return None
        counts = self.tokens[-1].end == place and _X_COUNTS.match(text, place)
        return by._replace(kinds=frozenset({"by", "counting"})) if counts else by

    def _opens(self, place: int) -> bool:
        """Whether a thread or a known word stands at a place."""
        word = _WORD.match(self.text, place)
        return bool(word and _folded(word[0]) in phrases()) or designation_at(self.text, place) is not None

    def _sign(self, place: int) -> Token:
        sign = self.text[place]
        kinds = frozenset(_SIGNS.get(sign, "other").split())
        if sign == "-":
            kinds |= {"spaced_dash"} if _SPACED_DASH.match(self.text, place) else {"glued_dash"}
        return Token(kinds, place, place + len(sign), sign)


def _folded(word: str) -> str:
    return word.upper() if word.isalpha() else word.upper().replace("'", "").replace(".", "")


def _number_of(meanings: frozenset[str]) -> Decimal | None:
    """The number that a word like "four" says, which is one of its meanings."""
    return next(map(Decimal, filter(str.isdigit, meanings)), None) if "number_word" in meanings else None


def _after_point(text: str, end: int) -> int:
    """Behind the point of an abbreviation."""
    found = _POINT.match(text, end)
    return end if found is None else found.end()


def _part(over: str, under: str) -> Decimal:
    return Decimal(plain(Decimal(over) / Decimal(under)))
