"""One journey on flat fabric."""

from __future__ import annotations

from shapely import LineString, Point, Polygon

from schematics.garment.geodesic import Path, shortest_paths


def shortest_path(domain: Polygon, start: Point, goal: Point | LineString) -> Path:
    return shortest_paths(domain, [(start, goal)])[0]
