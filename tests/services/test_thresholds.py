"""The shop's thresholds: defaults, its own values, and the way back."""

import pytest

from tests.shop_client import Visitor
from webapp.errors import BadInput
from webapp.services.thresholds import DEFAULTS, THRESHOLDS, load_thresholds, own_values, save_thresholds


def test_every_default_lies_in_its_own_range_and_names_its_basis():
    for key, one in THRESHOLDS.items():
        assert one.low <= one.value <= one.high, key
        assert one.basis and one.label, key


def test_a_changed_one_holds_and_goes_back(stage):
    with stage.database.saving() as session:
        save_thresholds(session, {"heat_warn_c": 27.5})
        assert load_thresholds(session) == DEFAULTS | {"heat_warn_c": 27.5}
        save_thresholds(session, {"heat_warn_c": None})
        assert load_thresholds(session) == DEFAULTS


def test_the_default_typed_in_is_not_kept_as_the_shops_own(stage):
    with stage.database.saving() as session:
        save_thresholds(session, {"heat_warn_c": 28.0})
        assert own_values(session) == {}


@pytest.mark.parametrize("value", [23.99, 32.01])
def test_one_step_outside_its_range_is_refused(stage, value):
    with stage.database.saving() as session, pytest.raises(BadInput) as refused:
        save_thresholds(session, {"heat_warn_c": value})
    assert refused.value.field == "heat_warn_c"


def test_the_page_shows_default_and_basis_takes_a_change_and_resets_it(stage):
    owner = Visitor(stage).sign_in().open("/settings/thresholds")
    assert "Default 11 days: Barton et al. 2019" in owner.text
    owner.send("/settings/thresholds", open_days="6")
    assert "Changed here; the default is 5 days" in owner.text
    owner.send("/open_days/reset")
    assert "Changed here; the default" not in owner.text


@pytest.mark.parametrize(("typed", "sentence"), [("many", "is not a number"), ("99", "from 0 to 14 days")])
def test_what_cannot_be_used_is_said_at_the_field(stage, typed, sentence):
    owner = Visitor(stage).sign_in().open("/settings/thresholds").send("/settings/thresholds", open_days=typed)
    assert owner.status == 422
    assert sentence in owner.text
    assert f'value="{typed}"' in owner.page


@pytest.mark.parametrize(("warn", "act", "refused"), [(28.5, 28.5, False), (28.6, 28.5, True)])
def test_a_warning_comes_no_later_than_the_deed_it_warns_of(stage, warn, act, refused):
    owner = Visitor(stage).sign_in().open("/settings/thresholds")
    owner.send("/settings/thresholds", heat_warn_c=warn, heat_act_c=act)
    assert (owner.status == 422) is refused
    assert ("28.6 °C lies above 'hot: act from 28.5 °C'" in owner.text) is refused


def test_a_default_that_does_not_go_with_the_rest_is_not_gone_back_to(stage):
    owner = Visitor(stage).sign_in().open("/settings/thresholds")
    owner.send("/settings/thresholds", heat_warn_c="26", heat_act_c="27")
    owner.send("/heat_warn_c/reset")
    assert "28 °C lies above" in owner.text
    with stage.database.reading() as session:
        assert load_thresholds(session)["heat_warn_c"] == 26


def test_a_threshold_that_there_is_not_cannot_be_gone_back_to(stage):
    owner = Visitor(stage).sign_in().open("/settings/thresholds")
    owner.page = owner.page.replace(' data-online', ' action="/settings/thresholds/none/reset"', 1)
    assert "'none' is not a threshold" in owner.send("/none/reset").text
