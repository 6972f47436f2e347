"""The answers to a batch."""

from __future__ import annotations

from .detail import hole_spec
from .reply_fields import OBJECT, choice, count, rows, section, word
from .schema import ReplyField, SectionSchema
from .service import Problem, ProblemFault


class VerdictCounts(SectionSchema):
    """Items by verdict."""

    ready = count("Items that can go to the shop as they are")
    review = count("Items that leave something to decide")
    infeasible = count("Items whose drawing no plan holds")


class ItemCounts(SectionSchema):
    """Items of any batch."""

    items = count("Items of the batch")
    ok = count("Items that were answered")
    failed = count("Items that have a problem")


class BatchSummary(ItemCounts):
    """How a batch went."""

    verdicts = section("Items that were answered, by verdict.", VerdictCounts)


class HeadingRead(SectionSchema):
    """A heading of a sheet, and what it was read as."""

    heading = word("The heading as it stands in the sheet.")
    read_as = word("Column that it is read as; null where it is not read.", nullable=True)
    unit = word("Unit of the bare numbers under it.", present=False)


class CellFault(ProblemFault):
    """One refused field, and the cell of a sheet in which it stands."""

    column = word("Heading of the column in which it stands; only of sheets.", present=False)
    cell = word("Text of the cell in which it stands; only of sheets.", present=False)


class ItemProblem(Problem):
    """The problem of an item."""

    errors = rows("The refused fields.", CellFault)


class BatchResult(SectionSchema):
    """The answer to one item."""

    index = count("Place of the item in the batch", "a count from 0")
    row = count("Row of the sheet in which it stood; only of sheets", "a count from 1", present=False)
    same_id_as_row = count("Row of the sheet before this one that has the same id", "a count from 1", present=False)
    id = word("The caller's own name of the hole.", nullable=True)
    status = choice("ok or error.", ("ok", "error"))
    spec = hole_spec("The specification, as POST /v1/hole-specs answers it; present when ok.", present=False)
    problem = section("What is wrong with this item; present when error.", ItemProblem, present=False)


class RowVerdictCounts(SectionSchema):
    """Rows by what became of them."""

    read = count("Rows that stand for a request")


class RowSummary(ItemCounts):
    """How a sheet was read."""

    verdicts = section("Rows that were read.", RowVerdictCounts)


class RowRead(SectionSchema):
    """A row of a sheet as a request."""

    index = count("Place of the row among the rows", "a count from 0")
    row = count("Row of the sheet", "a count from 1")
    same_id_as_row = count("Row of the sheet before this one that has the same id", "a count from 1", present=False)
    id = word("The caller's own name of the hole.", nullable=True)
    status = choice("ok or error.", ("ok", "error"))
    request = ReplyField(
        "The hole as POST /v1/hole-specs takes it (published schema: hole-spec-request), not judged yet; `count` is"
        " that of a part plan; present when ok.",
        OBJECT,
        present=False,
    )
    problem = section("What is wrong with the cells of this row; present when error.", ItemProblem, present=False)


class SheetReadReply(SectionSchema):
    """Reply of POST /v1/hole-specs/requests."""

    summary = section("How the sheet was read.", RowSummary)
    columns = rows("Headings that are not simply names of columns, as they were read.", HeadingRead)
    results = rows("A request a row, in order.", RowRead)


class BatchReply(SectionSchema):
    """Reply of POST /v1/hole-specs/batch."""

    summary = section("How the batch went.", BatchSummary)
    columns = rows(
        "Headings that are not simply names of columns, as they were read; only of sheets.", HeadingRead, present=False
    )
    results = rows("An answer an item, in order.", BatchResult)
