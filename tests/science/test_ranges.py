import pytest

from webapp.science.ranges import above, within


@pytest.mark.parametrize("value", [-0.1, 1.1, float("nan"), float("inf")])
def test_outside_is_refused_by_name(value):
    with pytest.raises(ValueError, match="^depth "):
        within("depth", value, 0, 1)


@pytest.mark.parametrize("value", [0, -1, float("nan"), float("inf")])
def test_not_above_is_refused_by_name(value):
    with pytest.raises(ValueError, match="^depth "):
        above("depth", value, 0)


def test_inside_is_returned_unchanged():
    assert within("depth", 1, 0, 1) == 1
    assert above("depth", 0.5, 0) == 0.5
