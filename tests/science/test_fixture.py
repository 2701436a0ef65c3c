import math

import pytest

from webapp.science.fixture import KINDS, Fixture, Footprint
from webapp.science.lux import COLOURS


@pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
def test_every_kind_is_ordered_coloured_and_has_a_basis(kind):
    for triple in (kind.ppe_umol_per_j, kind.beam_deg, kind.height_cm):
        assert list(triple) == sorted(triple)
    assert kind.colour in COLOURS
    assert len(kind.basis) > 20


def test_unknown_kind_is_the_widest():
    low, _, high = KINDS["unknown"].ppe_umol_per_j
    for key, kind in KINDS.items():
        if key != "unknown":
            assert high / low > kind.ppe_umol_per_j[2] / kind.ppe_umol_per_j[0]


def test_volume():
    assert Footprint(100, 50, 40).volume_l == 200


@pytest.mark.parametrize(
    ("change", "name"),
    [
        ({"kind": "sun"}, "kind"),
        ({"count": 0}, "count"),
        ({"count": 1.5}, "count"),
        ({"watts_each": 0}, "watts_each"),
        ({"watts_each": math.nan}, "watts_each"),
        ({"hours": 25}, "hours"),
        ({"height_cm": -1}, "height_cm"),
        ({"length_cm": 0}, "length_cm"),
        ({"width_cm": 1000}, "width_cm"),
        ({"beam_deg": 180}, "beam_deg"),
        ({"hours": 8, "ramp_hours": 9}, "ramp_hours"),
    ],
)
def test_fixture_refuses_by_name(change, name):
    with pytest.raises(ValueError, match=name):
        Fixture(**{"kind": "t5", "count": 1, "watts_each": 39, **change})


@pytest.mark.parametrize("at", [0, 1, 2])
def test_footprint_refuses_by_name(at):
    sizes = [60, 40, 40]
    sizes[at] = 1
    with pytest.raises(ValueError, match=("length_cm", "width_cm", "depth_cm")[at]):
        Footprint(*sizes)
