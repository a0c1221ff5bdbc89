"""The shipped road limits against the published values in flight.yaml; the basis of each stands there."""

from __future__ import annotations

import pytest
from published import as_printed, example

from dossier.tables.road_limits import known_road_limits

METRE = 1.0
FOOT = 0.3048
INCH = 0.0254

CASES = [
    ("us-federal", "us-width", "width", "width_in", INCH),
    ("us-california", "us-ca", "width", "width_in", INCH),
    ("us-california", "us-ca", "trailer length", "vehicle_length_ft", FOOT),
    ("us-california", "us-ca", "combination length", "combination_ft", FOOT),
    ("us-maryland", "us-md", "width", "width_ft", FOOT),
    ("us-maryland", "us-md", "height", "height_ft", FOOT),
    ("us-maryland", "us-md", "trailer length", "trailer_ft", FOOT),
    ("us-maryland", "us-md", "combination length", "combination_ft", FOOT),
    ("european-union", "eu-96-53", "width", "width_m", METRE),
    ("european-union", "eu-96-53", "height", "height_m", METRE),
    ("european-union", "eu-96-53", "trailer length", "trailer_length_m", METRE),
    ("european-union", "eu-96-53", "combination length", "road_train_m", METRE),
    ("united-kingdom", "uk-width", "width", "width_m", METRE),
    ("united-kingdom", "uk-length", "body length", "body_length_m", METRE),
]


def published(name: str, key: str) -> str:
    return str(example("flight", name).expect[key])


@pytest.mark.parametrize(("place", "entry", "measure", "key", "unit"), CASES)
def test_a_road_limit_is_the_published_one(
    place: str, entry: str, measure: str, key: str, unit: float
) -> None:
    (limit,) = [one for one in known_road_limits().places[place].limits if one.measure == measure]
    assert limit.limit.value / unit == as_printed(published(entry, key))


def test_every_shipped_limit_is_checked_against_a_published_one() -> None:
    shipped = {
        (place, str(limit.measure))
        for place, one in known_road_limits().places.items()
        for limit in one.limits
    }
    assert shipped == {(place, measure) for place, _, measure, _, _ in CASES}


def test_every_limit_names_a_source_that_is_listed() -> None:
    known = known_road_limits()
    assert {str(limit.source) for one in known.places.values() for limit in one.limits} == set(known.sources)
