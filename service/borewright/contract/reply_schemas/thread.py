"""Schemas of threads and of the list of standard sizes."""

from __future__ import annotations

from borewright.contract.fields.composites import ReplySchema
from borewright.contract.fields.strict import Choice

from .base import DiameterLimits, Free, Reply, Section, Units, Words, figure, length, rows, section, text, texts


class StandardItem(ReplySchema):
    """The document that defines a thread."""

    document = text("Document.")
    edition = text("Edition the figures are from.")


class BasicDiameters(ReplySchema):
    """Basic diameters."""

    major_diameter = length("Basic major diameter")
    pitch_diameter = length("Basic pitch diameter")
    minor_diameter = length("Basic minor diameter")


class OtherEdition(ReplySchema):
    """The limits by the edition of the standard that the answer does not follow."""

    edition = text("Edition of ASME B1.1: 2019 or 1989.")
    internal = section("Limits of the internal thread.", DiameterLimits)
    external = section("Limits of the mating external thread.", DiameterLimits)


class ThreadSection(ReplySchema):
    """A thread and its limits of size. Further objects hold what only one system has."""

    designation = text("The callout in its standard's own form.")
    system = text("Thread system.")
    series = text("Series, null where the system has none.", nullable=True)
    thread_class = Words("Class of the internal thread.", required=True, nullable=True, data_key="class")
    hand = Choice("Hand of the thread.", ("right", "left"), required=True)
    starts = figure("Number of starts", "a count", whole=True)
    nominal_diameter = length("Nominal diameter")
    pitch = length("Pitch")
    threads_per_inch = figure("Threads per inch, null for metric systems", "a count", nullable=True)
    lead = length("Lead: starts times pitch")
    thread_angle = figure("Included angle of the thread form", "in degrees")
    taper = figure("Taper on the diameter, null for a parallel thread", "a ratio", nullable=True)
    standard = section("The document that defines the thread.", StandardItem)
    basic = section("Basic diameters.", BasicDiameters)
    internal = section("Limits of the internal thread.", DiameterLimits)
    external = section("Limits of the mating external thread, null where none is held.", DiameterLimits, nullable=True)
    mating_class = text("Class of the mating external thread.", nullable=True)
    tensile_stress_area = figure(
        "Tensile stress area of the external thread", "in the square of `units.length`", nullable=True
    )
    pipe = Free(
        "Pipe threads: gauge plane, engagement, travel of the tap and gauge, lengths in `units.length`.",
        nullable=False,
    )
    insert = Free("Insert threads: what only they have, lengths in `units.length`.", nullable=False)
    tolerance = Free(
        "Unified threads: the diameter and engagement that the tolerance is made from, in `units.length`, the"
        " edition followed and the rounding rule of the minor diameter.",
        nullable=False,
    )
    other_edition = Section(
        "Unified threads whose limits differ by edition of the standard: those of the other edition.",
        OtherEdition,
        nullable=False,
    )
    engagement = Free(
        "Metric threads: group of the length of engagement and its range, in `units.length`.", nullable=False
    )
    external_reference = Free(
        "Figures of the mate that are no limits of its three diameters, in `units.length`.", nullable=False
    )
    external_root = Free("UNJ and MJ mates: radius of the root, in `units.length`.", nullable=False)
    truncation = Free(
        "Taper pipe threads: heights, truncations and flats of the form, in `units.length`.", nullable=False
    )
    multi_start = Free(
        "Threads with more than one start: their number, the lead in `units.length`, the lead angle in degrees.",
        nullable=False,
    )
    mates = Free("Pipe threads: which external threads may be screwed in, and which may not.", nullable=False)


class ThreadReply(ThreadSection, Reply):
    """Reply of POST /v1/threads/resolve."""


class CatalogItem(ReplySchema):
    """One standard size."""

    designation = text("Callout without class.")
    system = text("Thread system.")
    series = text("Series, null where the system has none.", nullable=True)
    size = text("Size as the trade writes it.")
    unit = text("Unit of the lengths of this item: in or mm.")
    nominal_diameter = figure("Nominal diameter", "in `unit`")
    pitch = figure("Pitch", "in `unit`")
    threads_per_inch = figure("Threads per inch, null for metric systems", "a count", nullable=True)
    classes = texts("Classes of the internal thread that the standard defines for the size.")


class ThreadCatalogReply(ReplySchema):
    """Reply of GET /v1/threads/catalog."""

    items = rows("The sizes of this page.", CatalogItem)
    page = figure("Number of this page", "a count from 1", whole=True)
    page_size = figure("Sizes a page", "a count", whole=True)
    pages = figure("Number of pages", "a count", whole=True)
    total = figure("Number of sizes that the filters leave", "a count", whole=True)
    units = Section("Units of the figures; absent where each item has its own.", Units, nullable=False)
    tables_version = text("Fingerprint of the tables.")
