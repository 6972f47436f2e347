"""A kept specification beside the one of now."""

from __future__ import annotations

from borewright.contract import verdicts
from borewright.contract.compare.causes import CAUSES
from borewright.contract.compare.subjects import SUBJECTS

from .batch import ItemCounts
from .reply import Reply
from .reply_fields import choice, count, flag, rows, section, word
from .schema import FieldRows, ReplyField, SectionSchema
from .service import Problem

#: Most changes that a reply shows, and most fields that it names as not compared.
MOST_SHOWN, _MOST_APART = 300, 100


class ComparedSection(SectionSchema):
    """What names a specification and what answered it; null where it was not kept."""

    spec_id = word("Name of the specification.", nullable=True)
    verdict = word("Its verdict.", nullable=True)
    tables_version = word("Fingerprint of the tables that answered it.", nullable=True)
    rules_version = word("Fingerprint of the rules that answered it.", nullable=True)


class CauseItem(SectionSchema):
    """A possible cause of what differs."""

    cause = choice("What may have made the difference.", CAUSES)
    certain = flag("Whether nothing else can have made it; false where causes cannot be told apart.")
    text = word("What speaks for it, in plain words.")


class DifferenceItem(SectionSchema):
    """A field that differs."""

    pointer = word(
        "JSON pointer of the field in the reply of now; of what is removed, in the kept one.",
        source="difference.pointer",
    )
    how = choice("changed, added or removed.", ("changed", "added", "removed"), source="difference.how")
    subject = choice("What the field is about.", SUBJECTS, source="difference.subject")
    matters = flag("Whether the shop must know: a tool, depth, limit, gauge, operation, decision or caution.")
    why = FieldRows(
        "Its possible causes: several cannot be told apart; none where request and rules are the same and the service"
        " writes it another way, or what was kept was changed.",
        choice("One of them.", CAUSES),
    )
    before = ReplyField("The kept value; null where there was none.", {}, source="difference.before", nullable=True)
    after = ReplyField("The value of now; null where there is none.", {}, source="difference.after", nullable=True)


class NotComparedItem(SectionSchema):
    """A field that only one of the two versions has."""

    pointer = word("JSON pointer of the field.")
    why = choice(
        "not_kept: every reply has it now, the kept one has not. no_longer_answered: no reply has it any more.",
        ("not_kept", "no_longer_answered"),
        source="how",
    )


class CompareReply(Reply):
    """Reply of POST /v1/hole-specs/compare."""

    id = word("The caller's own name of the hole.", nullable=True)
    verdict = choice(
        "keep: nothing that matters differs. update: something that matters differs. review: what was kept does not"
        " tell; a person looks at it, or what is answered now is taken.",
        verdicts.COMPARISON,
    )
    before = section("What was kept.", ComparedSection)
    after = section("What is answered now; its `spec_id` is that of the reply that the request gets.", ComparedSection)
    detail = choice("Detail in which both were compared, that of what was kept.", ("full", "figures", "routing"))
    same_request = flag("Whether both answer the same request; null where that is not told.", nullable=True)
    why = rows("The possible causes of what differs.", CauseItem)
    changes = rows(
        f"What differs, by what it is about, those that matter first; at most {MOST_SHOWN}.",
        DifferenceItem,
        source=lambda record: record.changes[:MOST_SHOWN],
    )
    further_changes = count("Changes beyond those", source=lambda record: max(0, len(record.changes) - MOST_SHOWN))
    not_compared = rows(
        f"Fields that only one of the two versions has, at most {_MOST_APART}: they are no change.",
        NotComparedItem,
        source=lambda record: record.not_compared[:_MOST_APART],
    )


class CompareResult(SectionSchema):
    """What one item of a batch got: `comparison`, or `problem`."""

    index = count("Place of the item", "a count from 0")
    id = word("The `id` of the item; null where it has none.", nullable=True)
    status = choice("ok or error.", ("ok", "error"))
    comparison = section(
        "The comparison, as POST /v1/hole-specs/compare answers it; present when ok.", CompareReply, present=False
    )
    problem = section("What is wrong with this item; present when error.", Problem, present=False)


class CompareVerdictCounts(SectionSchema):
    """Comparisons by verdict."""

    keep = count("Specifications in which nothing that matters differs")
    update = count("Specifications in which something that matters differs")
    review = count("Specifications of which too little was kept")


class CompareBatchSummary(ItemCounts):
    """How a batch of comparisons went."""

    verdicts = section("Specifications that were compared, by verdict.", CompareVerdictCounts)


class CompareBatchReply(SectionSchema):
    """Reply of POST /v1/hole-specs/compare/batch."""

    summary = section("How the batch went.", CompareBatchSummary)
    results = rows("The results, in the order of the items.", CompareResult)
