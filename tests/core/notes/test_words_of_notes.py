"""How the words of notes are looked up: phrases by their first word, and what a misspelled word may be."""

from __future__ import annotations

from borewright.core.notes.words import english_words, phrases


def test_phrases_stand_under_their_first_word():
    assert {phrase[0] for phrase, _ in phrases()["UNLESS"]} == {"UNLESS"}
    assert ("UNLESS", "OTHERWISE", "SPECIFIED") in [phrase for phrase, _ in phrases()["UNLESS"]]
    assert "SPECIFIED" not in phrases()
    assert all(phrase[0] == first for first, found in phrases().items() for phrase, _ in found)


def test_a_misspelled_word_may_be_one_of_four_letters_or_more():
    """DEEP and HOLES may be misspelled; TAP, CSK and MAX are too like other words, and no word of a number is one."""
    words = english_words()
    assert {"DEEP", "HOLES", "OTHERWISE"} <= set(words)
    assert not {"TAP", "CSK", "MAX", "FOUR"} & set(words)
    assert len(words) == len(set(words))
