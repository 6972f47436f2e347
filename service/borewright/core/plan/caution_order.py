"""The order of cautions in a reply: what hurts people, scraps the part, breaks the tool, then the rest."""

from __future__ import annotations

from collections.abc import Iterable

from borewright.core.model import Caution
from borewright.core.model.decision import CODES as DECISIONS

#: Codes of cautions by what they are about, the most important first in each group (our own judgement). A test holds
#: that every code of the domain is here once.
HURTS_PEOPLE = (
    "hydrogen_embrittlement", "pressure_service", "thread_strips_first", "j_form_mates", "overtap_systems_exclusive",
    "overtap_reduced_load", "reduced_proof_load", "screw_locking_insert_class", "typical_strength",
    "engagement_beyond_linear", "cutting_fluid", "beryllium_dust", "lead_in_chips", "magnesium_chips", "iron_dust",
    "composite_dust", "cadmium_poisonous", "chromate_poisonous", "plug_needs_engineering", "hydrogen_each_cycle",
    "broken_tap_method", "rework_strength_open", "traces_stay",
)  # fmt: skip
SCRAPS_THE_PART = (
    "tap_after_galvanizing", "galvanized_pair", "finish_substrate", "thick_coat", "mask_and_strip",
    "mask_chromium", "mask_heat_treatment", "square_flanks", "thread_data_missing", "minor_max_not_held",
    "percent_outside_limits", "chart_drill_below_min", "separate_gauges", "gauge_before_finish",
    "pipe_makeup_short", "pipe_sealant_required", "dryseal_mates", "ptf_short_mates", "npsm_is_mechanical",
    "g_is_not_rp", "pipe_forms_never_interchange", "rc_drill_lists", "countersink_limited", "counterbore_datum",
    "run_out_short", "thread_relief", "chamfer_room_short", "forming_hole_tolerance", "forming_check_minor_diameter",
    "forming_needs_ductile_material", "forming_needs_trial", "plastic_closes_in", "plate_thin_in_deep_holes",
    "anodize_thin_in_deep_holes", "flake_fills_roots", "finish_thickness_on_drawing", "overtap_large", "overtap_mark",
    "gauge_takes_much_tolerance", "tr_lead_screw_play", "tr_old_din_103", "acme_special_pair", "stub_acme_sizes",
    "whitworth_unified_same_pitch", "ba_is_metric", "square_no_standard", "npt_old_engagement", "nptf_makeup_unsettled",
    "thin_wall_beside", "thin_floor", "plug_tap_breaks_out", "larger_screw", "judge_anew", "strip_by_the_standard",
    "stripping_opens_thread", "coat_every_hole", "chased_flanks", "bare_after_rework", "count_the_threads",
    "pick_up_the_thread", "start_in_the_thread", "screw_may_bottom", "looser_fit", "plain_plug_refuses",
    "gauge_formed_minor", "go_checks_more", "hard_coat_dulls",
)  # fmt: skip
BREAKS_THE_TOOL = (
    "tap_break_risk", "machine_torque_exceeded", "drill_thrust", "percent_above_practice", "deep_thread",
    "ream_stock_large", "tool_length_not_held", "tool_length_from_memory",
)  # fmt: skip
THE_REST = (
    "stock_has_no_drill", "stock_has_no_tap", "special_drill_size", "special_thread", "nonstandard_combination",
    "class_not_tabulated", "close_class_special_use", "engagement_class", "long_engagement", "multi_start_tolerance",
    "limits_incomplete", "limits_computed", "gauge_tolerance_not_held", "anpt_gauging_not_held", "material_unknown",
    "material_taken_as_steel", "material_family_only", "material_condition_not_held", "hardness_not_converted",
    "hardness_conversion_estimate", "strength_of_other_hardness", "strength_not_held", "strength_missing",
    "cutting_data_missing", "cutting_speed_not_held", "drill_forces_not_held", "tap_torque_not_held",
    "comparison_missing", "edition_not_confirmed", "tap_limit_edition", "recommendation_unconfirmed",
    "tolerance_from_memory", "shop_figure_of_other_size", "shop_figure_not_used",
)  # fmt: skip
#: What one hole's specification asks as a decision, a reply without verdict says as a caution: those stand first.
CODES = (*DECISIONS, *HURTS_PEOPLE, *SCRAPS_THE_PART, *BREAKS_THE_TOOL, *THE_REST)
_PLACE = {code: place for place, code in enumerate(CODES)}


def ordered(cautions: Iterable[Caution]) -> tuple[Caution, ...]:
    """The ``cautions`` each once, by importance; those of equal importance as they came.

    Source: order of ``CODES`` (our own).
    """
    return tuple(sorted(dict.fromkeys(cautions), key=lambda caution: _PLACE.get(caution.code, len(_PLACE))))
