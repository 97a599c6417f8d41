"""Areas: every kind of file, and geographiclib, pyproj and shapely on 2,000 seeded random places."""

import json
import math
import random

import pyproj
import pytest
import shapely
from geographiclib.geodesic import Geodesic

import desk
import documents

PLACES = desk.ROOT / "fixtures" / "places"
GOOD = sorted(path for path in PLACES.iterdir() if path.is_file())
BAD = sorted((PLACES / "bad").iterdir())
CASES = desk.ROOT / "fixtures" / "science" / "geometry"


@pytest.mark.parametrize("path", GOOD, ids=lambda path: path.name)
def test_every_format(path, tmp_path):
    documents.check("area", desk.document("area", path, cwd=tmp_path))


@pytest.mark.parametrize("path", BAD, ids=lambda path: path.name)
def test_bad_files_are_told(path, tmp_path):
    for language in ("en", "es"):
        told = desk.run("area", path, "--json", "--language", language, cwd=tmp_path)
        assert told.returncode == 2, told.stderr
        documents.check("error", json.loads(told.stdout))


@pytest.mark.parametrize("name", ["W1", "W2", "W3", "W4"])
def test_walks(name, tmp_path):
    case = json.loads((CASES / f"walk-{name}.json").read_text())
    trees = ["--under-trees"] if case["input"]["under_trees"] else []
    told = documents.check("area", desk.document("area", CASES / case["input"]["file"], *trees, cwd=tmp_path))
    assert abs(told["area_m2"] - case["expected"]["area_m2"]) <= case["tolerance"]["absolute"]
    assert len(told["walk"]["laps"]) == case["input"]["laps"]


def places(number, seed=20261125):
    """Rings round a middle, 5 m to 2 km, with holes, wound either way, anywhere but within a degree of the poles."""
    draw = random.Random(seed)
    for _ in range(number):
        latitude, longitude = draw.uniform(-89, 89), draw.uniform(-180, 180)
        size = math.exp(draw.uniform(math.log(5), math.log(2000)))
        corners = draw.randint(3, 40)

        def ring(scale, north, east):
            turns = [2 * math.pi * (k + draw.uniform(0, 0.9)) / corners for k in range(corners)]
            radii = [scale * draw.uniform(0.5, 1) for _ in turns]
            points = []
            for turn, radius in zip(turns, radii):
                y, x = north + radius * math.sin(turn), east + radius * math.cos(turn)
                there = Geodesic.WGS84.Direct(latitude, longitude, math.degrees(math.atan2(x, y)), math.hypot(x, y))
                points.append([round(there["lon2"], 9), round(there["lat2"], 9)])
            return points[::-1] if draw.random() < 0.5 else points

        yield [ring(size, 0, 0)] + ([ring(size * 0.2, size * 0.05, 0)] if draw.random() < 0.4 else [])


def geographiclib_area(ring):
    polygon = Geodesic.WGS84.Polygon()
    for longitude, latitude in ring:
        polygon.AddPoint(latitude, longitude)
    _, perimeter, area = polygon.Compute(False, True)
    return abs(area), perimeter


def test_two_thousand_places(tmp_path):
    """One file a hundred places: the command adds them up, so each is asked for alone in batches by its own sum."""
    every = list(places(2000))
    geod = pyproj.Geod(ellps="WGS84")
    for start in range(0, len(every), 20):
        batch = every[start:start + 20]
        path = tmp_path / "places.geojson"
        closed = [[ring + ring[:1] for ring in rings] for rings in batch]
        path.write_text(json.dumps({"type": "MultiPolygon", "coordinates": closed}))
        told = desk.document("area", path, cwd=tmp_path)
        area = perimeter = by_pyproj = flat = 0.0
        for rings in batch:
            sizes = [geographiclib_area(ring) for ring in rings]
            area += sizes[0][0] - sum(size for size, _ in sizes[1:])
            perimeter += sum(length for _, length in sizes)
            other = [abs(geod.polygon_area_perimeter(*zip(*ring))[0]) for ring in rings]
            by_pyproj += other[0] - sum(other[1:])
            here = f"+proj=aeqd +lon_0={rings[0][0][0]} +lat_0={rings[0][0][1]} +ellps=WGS84"
            project = pyproj.Transformer.from_crs("EPSG:4326", here, always_xy=True).transform
            outer, *holes = [list(zip(*project(*zip(*ring)))) for ring in rings]
            flat += shapely.Polygon(outer, holes).area
        assert told["outlines"] == len(batch)
        assert told["area_m2"] == pytest.approx(area, abs=2e-3 * len(batch), rel=0)
        assert told["area_m2"] == pytest.approx(by_pyproj, abs=2e-3 * len(batch), rel=0)
        assert told["area_m2"] == pytest.approx(flat, abs=2e-3 * len(batch), rel=1e-7)
        assert told["perimeter_m"] == pytest.approx(perimeter, abs=1e-6 * len(batch), rel=0)
