"""Schemas of catalogues, versions, health and problems."""

from __future__ import annotations

from borewright.contract.fields.composites import Array, ReplySchema

from .base import Free, figure, rows, text


class CatalogueReply(ReplySchema):
    """Reply of GET /v1/catalog/<name>. The unit of a figure is in its name."""

    items = Array("The rows of the catalogue.", Free("One row.", required=True), required=True)
    tables_version = text("Fingerprint of the tables.")


class VersionReply(ReplySchema):
    """Reply of GET /v1/version."""

    version = text("Version of the service.")
    api = text("Version of the contract.")
    tables_version = text("Fingerprint of the tables.")


class HealthReply(ReplySchema):
    """Reply of the health addresses."""

    status = text("live or ready.")


class ProblemMeaning(ReplySchema):
    """What one problem means."""

    type = text("Address of this meaning: the `type` of the problem.")
    code = text("Stable code.")
    status = figure("HTTP status", "a code", whole=True)
    title = text("What it means.")


class ProblemList(ReplySchema):
    """Every problem that an answer can carry."""

    items = rows("The problems by code.", ProblemMeaning)


class ProblemFault(ReplySchema):
    """One refused field."""

    pointer = text("JSON pointer to the field (RFC 6901); for a query, `/` and the parameter's name.")
    code = text("Stable code of this fault.")
    detail = text("What is wrong, in plain words.")
    allowed = Array("What would be right.", text("One of them."), nullable=False)
    did_you_mean = Array("What was probably meant, best first.", text("One of them."), nullable=False)


class Problem(ReplySchema):
    """A problem (RFC 9457)."""

    type = text("Address of the meaning, on this service.")
    title = text("What kind of problem it is.")
    status = figure("HTTP status", "a code", whole=True)
    detail = text("What is wrong with this request.")
    instance = text("Path of the request.")
    code = text("Stable code of the problem.")
    request_id = text("Name of the request in the log.")
    errors = rows("The refused fields.", ProblemFault)
