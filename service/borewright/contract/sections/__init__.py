"""The replies of API v1, section by section: each schema documents its section and writes it from a record."""

from .audit import AuditBatchReply, AuditReply
from .detail import BY_DETAIL, DETAILS, HoleSpecFigures, HoleSpecRouting, notes_of_sections
from .drill import DrillReply
from .finish import AllowanceReply
from .hole_spec import HoleSpecReply
from .service import CatalogueReply, HealthReply, Problem, ProblemList, ProblemMeaning, VersionReply
from .tap import TapDecodeReply, TapReply
from .thread import ThreadCatalogReply, ThreadReply

__all__ = [
    "BY_DETAIL",
    "DETAILS",
    "AllowanceReply",
    "AuditBatchReply",
    "AuditReply",
    "CatalogueReply",
    "DrillReply",
    "HealthReply",
    "HoleSpecFigures",
    "HoleSpecReply",
    "HoleSpecRouting",
    "Problem",
    "ProblemList",
    "ProblemMeaning",
    "TapDecodeReply",
    "TapReply",
    "ThreadCatalogReply",
    "ThreadReply",
    "VersionReply",
    "notes_of_sections",
]
