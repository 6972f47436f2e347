"""One blueprint a resource."""

from flask import Blueprint

from . import (
    allowances,
    catalogues,
    comparisons,
    documents,
    drills,
    health,
    hole_specs,
    monitoring,
    notes,
    pages,
    part_plans,
    reference,
    rework,
    shop_figures,
    taps,
    threads,
)

BLUEPRINTS: tuple[Blueprint, ...] = (
    threads.blueprint,
    drills.blueprint,
    allowances.blueprint,
    taps.blueprint,
    hole_specs.blueprint,
    comparisons.blueprint,
    notes.blueprint,
    part_plans.blueprint,
    rework.blueprint,
    shop_figures.blueprint,
    catalogues.blueprint,
    documents.blueprint,
    health.blueprint,
    monitoring.blueprint,
    pages.blueprint,
    reference.blueprint,
)
