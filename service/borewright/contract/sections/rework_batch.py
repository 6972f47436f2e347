"""The answers to a batch of holes that went wrong."""

from __future__ import annotations

from .batch import HeadingRead, ItemCounts, ItemProblem
from .reply_fields import choice, count, rows, section, word
from .rework import ReworkReply
from .schema import SectionSchema


class DispositionCounts(SectionSchema):
    """Holes by what is proposed first."""

    use_as_is = count("Holes that are proposed to stay as they are")
    rework = count("Holes that are brought back to their drawing")
    repair = count("Holes that are made fit for use, off their drawing")
    scrap = count("Parts for which nothing else is left")


class ReworkSummary(ItemCounts):
    """How a batch of holes that went wrong came out."""

    verdicts = section("Holes by the disposition that is proposed first.", DispositionCounts)


class ReworkResult(SectionSchema):
    """The answer to one hole."""

    index = count("Place of the item in the batch", "a count from 0")
    row = count("Row of the sheet in which it stood; only of sheets", "a count from 1", present=False)
    same_id_as_row = count("Row of the sheet before this one that has the same id", "a count from 1", present=False)
    id = word("The caller's own name of the hole.", nullable=True)
    status = choice("ok or error.", ("ok", "error"))
    rework = section("The ways, as POST /v1/rework answers them; present when ok.", ReworkReply, present=False)
    problem = section("What is wrong with this item; present when error.", ItemProblem, present=False)


class ReworkBatchReply(SectionSchema):
    """Reply of POST /v1/rework/batch."""

    summary = section("How the batch came out.", ReworkSummary)
    columns = rows(
        "Headings that are not simply names of columns, as they were read; only of sheets.", HeadingRead, present=False
    )
    results = rows("An answer an item, in order.", ReworkResult)
