"""Hot-dip zinc: tapped afterwards, oversize, where a standard says by how much."""

from __future__ import annotations

import pytest
from allowances import HOT_DIP, assumes, codes, resolved
from borewright.core.errors import FinishError
from borewright.core.finishing import allow
from borewright.core.model import FinishInput


def test_hot_dip_is_tapped_afterwards():
    found = allow(resolved("1/2-13 UNC-2B"), HOT_DIP)
    assert found.finish.applied == "after_finish"
    assert found.finish.build_up.max == 0
    assert found.change.pitch_diameter.min == 0
    assert found.before_finish == found.finished == found.overtap.limits
    assert {"tap_after_galvanizing", "overtap_systems_exclusive"} <= set(codes(found))


@pytest.mark.parametrize(("text", "finish_class"), [("3/8-16", "to 3/8 in"), ("7/16-14", "over 3/8 in")])
def test_hot_dip_class_goes_by_size(text, finish_class):
    assert allow(resolved(text), HOT_DIP).finish.finish_class == finish_class


def test_centrifuged_is_assumed_for_metric():
    found = allow(resolved("M12"), HOT_DIP)
    assert found.overtap.system == "6AZ"
    assert assumes(found, "6AX", "6az")
    assert "overtap_reduced_load" not in codes(found)
    assert "overtap_reduced_load" in codes(allow(resolved("M10"), HOT_DIP))


def test_class_6g_gets_the_zone_of_6az():
    assert allow(resolved("M12-6G"), HOT_DIP).overtap.limits == allow(resolved("M12"), HOT_DIP).overtap.limits


@pytest.mark.parametrize("text", ["M6", "M10x1", "1/4-28", "1/2-13 UNC-3B", "1/2-14 NPT", "#10-24", "G 1/2", "M72x6"])
def test_no_overtap_is_invented(text):
    with pytest.raises(FinishError) as refused:
        allow(resolved(text), HOT_DIP)
    assert refused.value.code == "overtap_not_defined"
    assert refused.value.faults[0].pointer == "/thread"
    assert refused.value.faults[0].allowed


def test_systems_are_not_mixed():
    with pytest.raises(FinishError) as refused:
        allow(resolved("M12-6AZ"), FinishInput(text="ISO 10684 6AX"))
    assert refused.value.code == "finish_conflict"


def test_m8_is_computed_not_published():
    found = allow(resolved("M8"), HOT_DIP)
    assert next(source.status for source in found.notes.sources if source.field == "overtap") == "computed"


@pytest.mark.parametrize(
    ("text", "reduced"), [("M8-6AZ", True), ("M10-6AZ", True), ("M12-6AZ", False), ("M16-6AX", False)]
)
def test_proof_loads_of_small_galvanized_screws_are_reduced(text, reduced):
    """ISO 10684 Annex A has M8 and M10."""
    found = resolved(text)
    assert ("reduced_proof_load" in {one.code for one in found.notes.cautions}) is reduced
