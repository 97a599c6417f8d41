"""The evaporation cases against the library they were made with.

The command shows no evaporation of its own, so the estimate itself is held to these cases by the Rust suite; here
the cases are held to the library.
"""

import json
import math

import pytest
from aquacropeto import fao

import desk

CASES = sorted((desk.ROOT / "fixtures" / "science" / "hargreaves").glob("peer-*.json"))


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_cases_are_what_the_library_gives(path):
    case = json.loads(path.read_text())
    given, expected = case["input"], case["expected"]
    latitude = math.radians(given["latitude_deg"])
    declination = fao.sol_dec(given["day_of_year"])
    sunset = fao.sunset_hour_angle(latitude, declination)
    distance = fao.inv_rel_dist_earth_sun(given["day_of_year"])
    radiation = fao.et_rad(latitude, declination, sunset, distance)
    mean = 0.5 * (given["min_c"] + given["max_c"])
    et0 = fao.hargreaves(given["min_c"], given["max_c"], mean, radiation)
    within = case["tolerance"]["relative"]
    assert 0.408 * radiation == pytest.approx(expected["radiation_mm"], rel=within)
    assert et0 == pytest.approx(expected["et0_mm"], rel=within)


def test_there_are_cases():
    assert len(CASES) >= 12
