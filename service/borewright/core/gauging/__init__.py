"""Gauges of a tapped hole: GO and NOT GO thread plugs, plain plugs for the minor diameter, acceptance in words."""

from .choice import gauges
from .model import GaugeSet, Gauging, PlainPlug, ThreadMember, ThreadPlug

__all__ = ["GaugeSet", "Gauging", "PlainPlug", "ThreadMember", "ThreadPlug", "gauges"]
