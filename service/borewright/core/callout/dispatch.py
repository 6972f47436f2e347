"""Which system a callout names: by its series word, by the letters that open it, by what stands beside them."""

from __future__ import annotations

import re
from dataclasses import replace

from borewright.core.errors import CalloutError

from .text import cut, unreadable
from .vocabulary import AMBIGUOUS, HEADS, MODIFIERS, REFUSED, REFUSED_HEADS, UNUSUAL, WORDS, Word

_RUN = re.compile(r"[A-Z]+")
#: Letters that open a callout, with nothing but a class before them; ``Rc/R`` is a pair of ISO 7-1.
_OPENING = re.compile(r"(?:[0-9][0-9A-Z/]{1,11}[-| ]{1,3})?(?:([A-Z]{1,3})(?:/R)?[- ]?)(?=[0-9.,])")


def choose(text: str) -> tuple[Word, str]:
    """The system and series that a callout names, and the text without the words that name them.

    Args:
        text: normalised callout without the common phrases.

    Raises:
        CalloutError: two systems, a word that can mean several, or a system that is not held; it offers what may be
            meant, whether that can be read or not.
    """
    folded = text.upper()
    runs = _RUN.findall(folded)
    modifier = None
    if not UNUSUAL.isdisjoint(runs):
        modifier, text = _unusual(runs, text)
        folded = text.upper()
    word, rest = _named(text, folded)
    if modifier is None:
        return word, rest
    system = MODIFIERS[modifier].get(word.system)
    if system is None:
        raise CalloutError("thread_series_mismatch", f"{modifier} does not go with the thread it stands beside.")
    return replace(word, system=system), rest


def _named(text: str, folded: str) -> tuple[Word, str]:
    opening = _OPENING.match(folded)
    if opening and opening[1] in REFUSED_HEADS:
        raise CalloutError(*REFUSED_HEADS[opening[1]])
    head = HEADS.get(opening[1]) if opening else None
    named = [run for run in _RUN.finditer(folded) if run[0] in WORDS]
    if head is not None and opening is not None:
        if named:
            raise _two_systems(text, [opening.span(1), *(run.span() for run in named)])
        return head, text[: opening.start(1)] + text[opening.end() :]
    if not named:
        return Word("unified"), text
    word, *others = (WORDS[run[0]] for run in named)
    if any(other != word for other in others):
        raise _two_systems(text, [run.span() for run in named])
    for run in reversed(named):
        text = cut(text, *run.span())
    return word, text


def _two_systems(text: str, spans: list[tuple[int, int]]) -> CalloutError:
    """The error of a callout with two system words: it may be any of them, so each is offered."""
    names = [text[start:end] for start, end in spans]
    meant = []
    for kept in spans:
        candidate = text
        for start, end in reversed(spans):
            if (start, end) != kept:
                candidate = candidate[:start] + " " + candidate[end:]
        meant.append(" ".join(candidate.split()))
    return CalloutError(
        "thread_series_mismatch",
        f"{' and '.join(names)} name different threads: the callout can be one of them only.",
        did_you_mean=tuple(dict.fromkeys(meant)),
    )


# --- unusual words -----------------------------------------------------------------------------------


def _unusual(runs: list[str], text: str) -> tuple[str | None, str]:
    """Refuse what is not held or can mean several threads; take the other unusual words out of the text."""
    modifiers = dict.fromkeys(run for run in runs if run in MODIFIERS)
    if len(modifiers) > 1:
        raise unreadable(f"{' and '.join(modifiers)} do not go together.")
    for run in dict.fromkeys(runs):
        if run not in UNUSUAL:
            continue
        rest = _without(run, text)
        if run in REFUSED:
            raise _refused(run, rest)
        if run in AMBIGUOUS and WORDS.keys().isdisjoint(runs) and not _opens(rest):
            raise _ambiguous(run, rest)
        text = rest
    return next(iter(modifiers), None), text


def _without(word: str, text: str) -> str:
    found = re.search(rf"(?<![A-Z]){word}(?![A-Z])", text.upper())
    return cut(text, *found.span()) if found else text


def _opens(text: str) -> bool:
    opening = _OPENING.match(text.upper())
    return opening is not None and opening[1] in HEADS


def _refused(word: str, rest: str) -> CalloutError:
    code, reason = REFUSED[word]
    plain_rest = rest.replace("|", " ")
    meant = f"{plain_rest} NPT" if code == "thread_class_external" else plain_rest if word == "MOD" else ""
    return CalloutError(code, reason, did_you_mean=(meant,) if meant else ())


def _ambiguous(word: str, rest: str) -> CalloutError:
    return CalloutError(
        "callout_ambiguous",
        f"{word} does not say which pipe thread: taper or parallel, American or ISO.",
        did_you_mean=tuple(form.format(rest.replace("|", " ")) for form in AMBIGUOUS[word]),
    )
