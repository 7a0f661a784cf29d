"""Labels in a column: so far apart that none touches the next."""

from __future__ import annotations

from collections.abc import Sequence


def spread_out(ys: Sequence[float], pitch: float) -> list[float]:
    """Positions at least ``pitch`` apart for rising ``ys``, moved as little and as evenly as may be.

    >>> spread_out([0, 10, 11], 4)
    [0.0, 8.5, 12.5]
    """
    clusters: list[list[float]] = []
    for y in ys:
        clusters.append([y])
        while len(clusters) > 1 and _first(clusters[-1], pitch) < _first(clusters[-2], pitch) + pitch * len(
            clusters[-2]
        ):
            last = clusters.pop()
            clusters[-1] += last
    return [_first(cluster, pitch) + pitch * i for cluster in clusters for i in range(len(cluster))]


def _first(cluster: Sequence[float], pitch: float) -> float:
    return sum(cluster) / len(cluster) - pitch * (len(cluster) - 1) / 2
