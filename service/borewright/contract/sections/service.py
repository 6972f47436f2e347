"""Catalogues, versions, health and problems."""

from __future__ import annotations

from .reply_fields import INTEGER, OBJECT, count, rows, word, words
from .schema import FieldRows, ReplyField, SectionSchema


class CatalogueReply(SectionSchema):
    """Reply of GET /v1/catalog/<name>. The unit of a figure is in its name."""

    items = FieldRows("The rows of the catalogue, or of this page.", ReplyField("One row.", OBJECT))
    page = count("Number of this page", "a count from 1", present=False)
    page_size = count("Rows a page", present=False)
    pages = count("Number of pages", present=False)
    total = count("Number of rows that the filter leaves", present=False)
    tables_version = word("Fingerprint of the tables.")


class VersionReply(SectionSchema):
    """Reply of GET /v1/version."""

    version = word("Version of the service.")
    api = word("Version of the contract.")
    tables_version = word("Fingerprint of the tables.")


class HealthReply(SectionSchema):
    """Reply of the health addresses."""

    status = word("live or ready.")


def http_status() -> ReplyField:
    """The field that holds the status of an answer: a name, no figure."""
    return ReplyField("HTTP status, a code.", INTEGER)


class ProblemMeaning(SectionSchema):
    """What one problem means."""

    type = word("Address of this meaning: the `type` of the problem.")
    code = word("Stable code.")
    status = http_status()
    title = word("What it means.")
    cause = word("Why it comes.")
    example = word("A request that meets it, or what does.")
    remedy = word("What to do next.")


class ProblemList(SectionSchema):
    """Every problem that an answer can carry."""

    items = rows("The problems by code.", ProblemMeaning)


class ProblemFault(SectionSchema):
    """One refused field."""

    pointer = word("JSON pointer to the field (RFC 6901); for a query, `/` and the parameter's name.")
    code = word("Stable code of this fault.")
    detail = word("What is wrong, in plain words.")
    allowed = words("What would be right.", present=False)
    did_you_mean = words("What was probably meant, best first.", present=False)


class Problem(SectionSchema):
    """A problem (RFC 9457)."""

    type = word("Address of the meaning, on this service.")
    title = word("What kind of problem it is.")
    status = http_status()
    detail = word("What is wrong with this request.")
    remedy = word("What to do next about a problem of this kind.", present=False)
    instance = word("Path of the request.")
    code = word("Stable code of the problem.")
    request_id = word("Name of the request in the log.")
    errors = rows("The refused fields.", ProblemFault)
