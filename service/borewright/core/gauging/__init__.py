"""Gauges of a tapped hole: GO and NOT GO thread plugs, plain plugs for the minor diameter, acceptance in words."""

from .gauge_choice import gauges
from .gauge_sets import GaugeSet, Gauging, PlainPlug, ThreadMember, ThreadPlug

__all__ = ["GaugeSet", "Gauging", "PlainPlug", "ThreadMember", "ThreadPlug", "gauges"]
