"""The thread with its limits, and the list of standard sizes."""

from __future__ import annotations

from .reply import Reply, Units, UnitsOfReply
from .reply_fields import (
    STRING,
    DiameterLimits,
    angle,
    area,
    choice,
    count,
    exact,
    free,
    length,
    rows,
    section,
    word,
    words,
)
from .schema import ReplyField, SectionSchema


class StandardItem(SectionSchema):
    """The document that defines a thread."""

    document = word("Document.")
    edition = word("Edition the figures are from.")


class BasicDiameters(SectionSchema):
    """Basic diameters."""

    major_diameter = length("Basic major diameter")
    pitch_diameter = length("Basic pitch diameter")
    minor_diameter = length("Basic minor diameter")


class OtherEdition(SectionSchema):
    """The limits by the edition of the standard that the answer does not follow."""

    edition = word("Edition of ASME B1.1: 2019 or 1989.")
    internal = section("Limits of the internal thread.", DiameterLimits)
    external = section("Limits of the mating external thread.", DiameterLimits)


def _of_system(description: str) -> ReplyField:
    """An object that only some systems have."""
    return free(description, source="extra", present=False)


class ThreadSection(SectionSchema):
    """A thread and its limits of size. Further objects hold what only one system has."""

    further = "extra"

    designation = word("The callout in its standard's own form.")
    system = word("Thread system.")
    series = word("Series, null where the system has none.", nullable=True)
    thread_class = word("Class of the internal thread.", nullable=True, data_key="class")
    hand = choice("Hand of the thread.", ("right", "left"))
    starts = count("Number of starts")
    nominal_diameter = length("Nominal diameter")
    pitch = length("Pitch")
    threads_per_inch = exact("Threads per inch, null for metric systems", "a count", "count", nullable=True)
    lead = length("Lead: starts times pitch")
    thread_angle = angle("Included angle of the thread form")
    taper = exact("Taper on the diameter, null for a parallel thread", "a ratio", "ratio", nullable=True)
    standard = section("The document that defines the thread.", StandardItem)
    basic = section("Basic diameters.", BasicDiameters)
    internal = section("Limits of the internal thread.", DiameterLimits)
    external = section("Limits of the mating external thread, null where none is held.", DiameterLimits, nullable=True)
    mating_class = word("Class of the mating external thread.", nullable=True)
    tensile_stress_area = area("Tensile stress area of the external thread", nullable=True)
    pipe = _of_system("Pipe threads: gauge plane, engagement, travel of the tap and gauge, lengths in `units.length`.")
    insert = _of_system("Insert threads: what only they have, lengths in `units.length`.")
    tolerance = _of_system(
        "Unified threads: the diameter and engagement that the tolerance is made from, in `units.length`, the"
        " edition followed and the rounding rule of the minor diameter."
    )
    other_edition = section(
        "Unified threads whose limits differ by edition of the standard: those of the other edition.",
        OtherEdition,
        source="extra",
        present=False,
    )
    engagement = _of_system("Metric threads: group of the length of engagement and its range, in `units.length`.")
    external_reference = _of_system("Figures of the mate that are no limits of its three diameters, in `units.length`.")
    external_root = _of_system("UNJ and MJ mates: radius of the root, in `units.length`.")
    truncation = _of_system("Taper pipe threads: heights, truncations and flats of the form, in `units.length`.")
    multi_start = _of_system(
        "Threads with more than one start: their number, the lead in `units.length`, the lead angle in degrees."
    )
    mates = _of_system("Pipe threads: which external threads may be screwed in, and which may not.")


class ThreadReply(ThreadSection, Reply):
    """Reply of POST /v1/threads/resolve."""


class CatalogItem(SectionSchema):
    """One standard size."""

    designation = word("Callout without class.")
    system = word("Thread system.")
    series = word("Series, null where the system has none.", nullable=True)
    size = word("Size as the trade writes it.")
    unit = ReplyField(
        "Unit of the lengths of this item: in or mm.", STRING, show=lambda figures: lambda _: figures.asked
    )
    nominal_diameter = length("Nominal diameter", "in `unit`")
    pitch = length("Pitch", "in `unit`")
    threads_per_inch = exact("Threads per inch, null for metric systems", "a count", "count", nullable=True)
    classes = words("Classes of the internal thread that the standard defines for the size.")


class ThreadCatalogReply(SectionSchema):
    """Reply of GET /v1/threads/catalog."""

    items = rows("The sizes of this page.", CatalogItem)
    page = count("Number of this page", "a count from 1")
    page_size = count("Sizes a page")
    pages = count("Number of pages")
    total = count("Number of sizes that the filters leave")
    units = UnitsOfReply("Units of the figures; absent where each item has its own.", Units, present=False)
    tables_version = word("Fingerprint of the tables.")
