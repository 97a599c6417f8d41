"""Places that went into a book and out of it again, read by shapely and measured by pyproj."""

import json

import pyproj
import pytest
import shapely

import desk
from test_area_peer import places

HOLDING = '[holding]\nname = "Invented holding"\nopened = 2026-03-01\n'
GEOD = pyproj.Geod(ellps="WGS84")


def area(polygon):
    """Of one polygon in degrees, holes taken off."""
    rings = [polygon.exterior, *polygon.interiors]
    sizes = [abs(GEOD.polygon_area_perimeter(*zip(*ring.coords))[0]) for ring in rings]
    return sizes[0] - sum(sizes[1:])


def parts(shape):
    return list(shape.geoms) if shape.geom_type == "MultiPolygon" else [shape]


@pytest.fixture(scope="module")
def book(tmp_path_factory):
    """A book of sixty places anywhere, with their areas; several lie over the date line."""
    folder = tmp_path_factory.mktemp("book")
    every = list(places(58))
    every.append([[[179.9995, 10], [-179.9995, 10], [-179.9995, 10.001], [179.9995, 10.001]]])
    every.append([[[-179.999, -40], [179.999, -40], [179.999, -40.001], [-179.999, -40.001]]])
    features, areas = [], {}
    for number, rings in enumerate(every):
        closed = [ring + ring[:1] for ring in rings]
        name = f"place {number}"
        features.append({
            "type": "Feature",
            "properties": {"name": name},
            "geometry": {"type": "Polygon", "coordinates": closed},
        })
        sizes = [abs(GEOD.polygon_area_perimeter(*zip(*ring))[0]) for ring in closed]
        areas[name] = sizes[0] - sum(sizes[1:])
    (folder / "holding.toml").write_text(HOLDING)
    (folder / "drawn.geojson").write_text(json.dumps({"type": "FeatureCollection", "features": features}))
    desk.document("book", "enter", "book", "holding.toml", cwd=folder)
    desk.document("book", "import", "book", "drawn.geojson", cwd=folder)
    return folder, areas


def test_geojson_is_as_its_standard_says(book):
    folder, areas = book
    desk.document("book", "export", "book", "out.geojson", cwd=folder)
    features = json.loads((folder / "out.geojson").read_text())["features"]
    assert len(features) == len(areas)
    cut = 0
    for feature in features:
        shape = shapely.geometry.shape(feature["geometry"])
        assert shape.is_valid, shapely.is_valid_reason(shape)
        cut += len(parts(shape)) > 1
        for part in parts(shape):
            # RFC 7946: outside anticlockwise, holes clockwise, nothing across the date line.
            assert part.exterior.is_ccw and not any(hole.is_ccw for hole in part.interiors)
            west, _, east, _ = part.bounds
            assert -180 <= west < east <= 180 and east - west < 1
        whole = sum(area(part) for part in parts(shape))
        expected = areas[feature["properties"]["name"]]
        # An outline is kept in whole millimetres.
        assert whole == pytest.approx(expected, abs=0.0005 * GEOD.geometry_length(shape.boundary), rel=0)
    assert cut >= 2, "both places over the date line are cut there"


def test_well_known_text_is_read_by_others(book):
    folder, areas = book
    desk.document("book", "export", "book", "out.wkt", cwd=folder)
    shapes = [shapely.from_wkt(line) for line in (folder / "out.wkt").read_text().splitlines() if line.strip()]
    if len(shapes) == 1:
        shapes = list(shapes[0].geoms)
    assert len(shapes) == len(areas)
    assert all(shape.is_valid for shape in shapes)
    told = sum(area(part) for shape in shapes for part in parts(shape))
    assert told == pytest.approx(sum(areas.values()), rel=1e-5)
