"""Which tests are asked of a mistake in a file: those of its subject, what is printed elsewhere first."""

from __future__ import annotations

from pathlib import Path

TESTS = Path(__file__).parents[1]
_PUBLISHED = "core/standards/test_published_limits.py core/standards/test_worked_examples.py"
_OTHER = "core/standards/test_other_threads_published.py core/standards/test_other_threads_traps.py"
_CELLS = "tables/test_printed_cells.py tables/test_small_tables.py"
_PIPE = f"{_OTHER} core/standards/test_pipe_threads_traps.py core/hole/test_taper_holes.py"

#: By the folders and the beginning of the name of a file below ``service/borewright``; the longest that fits counts.
SUBJECTS = {
    "tables/cutting": f"{_CELLS} core/cutting tables/test_machining_tables.py api/test_cutting_figures_by_hand.py",
    "tables/drilling": f"{_CELLS} core/standards/test_other_threads_charts.py core/cross_check core/drilling",
    "tables/finishing": "core/finishing tables/test_finish_tables.py",
    "tables/gauging": f"{_CELLS} core/gauging",
    "tables/hole": f"{_CELLS} core/hole",
    "tables/joint": f"{_CELLS} core/joint",
    "tables/materials": f"{_CELLS} core/materials tables/test_machining_tables.py core/cutting core/joint",
    "tables/notes": "core/notes",
    "tables/rework": "core/rework",
    "tables/plan": f"{_CELLS} core/plan",
    "tables/practice": "tables/test_practice_table.py core/cutting core/drilling core/hole core/tapping core/plan "
    "core/joint",
    "tables/standards": f"{_OTHER} tables/test_thread_tables.py core/standards/test_pipe_threads_traps.py",
    "tables/standards/iso965": _PUBLISHED,
    "tables/standards/metric": f"{_PUBLISHED} tables/test_thread_tables.py core/standards/test_catalogue.py",
    "tables/standards/unified": f"{_PUBLISHED} tables/test_thread_tables.py core/standards/test_editions.py "
    "core/drilling/test_hole_limits.py",
    "tables/tapping": f"{_CELLS} core/tapping",
    "core/audit": "core/audit",
    "core/callout": "core/callout",
    "core/chance": "core/chance core/plan/test_specify.py",
    "core/cutting": "core/cutting api/test_cutting_figures_by_hand.py",
    "core/drilling": "core/drilling core/chance",
    "core/finishing": "core/finishing",
    "core/gauging": "core/gauging",
    "core/hole": "core/hole core/plan",
    "core/joint": "core/joint",
    "core/materials": "core/materials core/joint core/cutting",
    "core/model": "core/plan core/drilling core/standards/test_worked_examples.py",
    "core/notes": "core/notes",
    "core/rework": "core/rework api/test_rework_cases.py",
    "core/part": "core/part core/plan",
    "core/plan": "core/plan trade contract/test_planned_operations.py api/test_replies.py",
    "core/standards": f"{_PUBLISHED} {_OTHER} core/standards",
    "core/standards/insert": f"{_OTHER} core/standards core/plan/test_inserting.py",
    "core/standards/pipe": f"{_PIPE} core/standards",
    "core/tapping": "core/tapping",
    "core/way_of_making": "core/plan/test_way_of_making.py core/plan",
    "core": "core/plan core/drilling core/standards/test_worked_examples.py core/finishing",
    "contract": "contract/test_unit_view.py contract/test_texts_in_reply_units.py contract/test_quantity_text.py "
    "api/test_units_of_replies.py api/test_cutting_figures_by_hand.py",
}


def tests_of(file: str) -> list[str]:
    """Files of tests for a file below ``service/borewright``, those with published figures first, each once."""
    subject = max((one for one in SUBJECTS if file.startswith(one)), key=len)
    named = [TESTS / name for name in SUBJECTS[subject].split()]
    found = [path for one in named for path in (sorted(one.glob("test_*.py")) if one.is_dir() else [one])]
    found.sort(key=lambda path: "published" not in path.name)
    return [str(path) for path in dict.fromkeys(found)]
