"""Rings against polygons of a general library: the union of discs lies between the unions of polygons drawn within and
around them, without any tolerance."""

import math
import random

import pytest
import shapely

import desk

CASES = 2000 if desk.LONG else 200
CORNERS = 720


def polygons(discs, around):
    """Regular polygons within the discs, or around them."""
    grow = 1 / math.cos(math.pi / CORNERS) if around else 1.0
    turns = [2 * math.pi * corner / CORNERS for corner in range(CORNERS)]
    return shapely.union_all([
        shapely.Polygon([(x + grow * r * math.cos(turn), y + grow * r * math.sin(turn)) for turn in turns])
        for x, y, r in discs
    ])


def orchard(seed):
    """Trees on a raster or anywhere; some have no gap, some a gap wider than their ring."""
    rng = random.Random(seed)
    spread = rng.uniform(3, 40)
    trees = []
    for _ in range(rng.randrange(1, 40)):
        x, y, radius = rng.uniform(0, spread), rng.uniform(0, spread), rng.uniform(0.2, 4)
        if seed % 3 == 0:
            x, y, radius = round(x), round(y), max(1, round(radius))
        trees.append((x, y, radius, rng.choice([0, 0.3, 0.3, rng.uniform(0.05, 1.5)])))
    return trees


@pytest.mark.parametrize("seed", range(CASES))
def test_rings_lie_between_polygons(seed, tmp_path):
    trees = orchard(seed)
    table = tmp_path / "trees.csv"
    table.write_text("x_m,y_m,radius_m,gap_m\n" + "".join(f"{x!r},{y!r},{r!r},{gap!r}\n" for x, y, r, gap in trees))
    told = desk.document("rings", table, cwd=tmp_path)
    drips = [(x, y, r) for x, y, r, _ in trees]
    gaps = [(x, y, gap) for x, y, _, gap in trees if gap > 0]
    within, around = polygons(drips, False), polygons(drips, True)
    rounding = 1e-9 * around.area
    assert within.area - rounding <= told["union_m2"] <= around.area + rounding
    assert told["sum_m2"] == pytest.approx(sum(math.pi * r * r for _, _, r in drips), rel=1e-12)
    least = within.difference(polygons(gaps, True)).area if gaps else within.area
    most = around.difference(polygons(gaps, False)).area if gaps else around.area
    assert least - rounding <= told["net_m2"] <= most + rounding
    assert most - least < 1e-3 * around.area + 1e-3, "the polygons leave little room"
