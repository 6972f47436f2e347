"""The schemas of replies, as the documents name them."""

from borewright.contract.sections.audit import AuditBatchReply, AuditReply
from borewright.contract.sections.detail import DETAILS, HoleSpecFigures, HoleSpecRouting
from borewright.contract.sections.drill import DrillReply
from borewright.contract.sections.finish import AllowanceReply
from borewright.contract.sections.hole_spec import HoleSpecReply
from borewright.contract.sections.service import (
    CatalogueReply,
    HealthReply,
    Problem,
    ProblemList,
    ProblemMeaning,
    VersionReply,
)
from borewright.contract.sections.tap import TapDecodeReply, TapReply
from borewright.contract.sections.thread import ThreadCatalogReply, ThreadReply

__all__ = [
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
]
