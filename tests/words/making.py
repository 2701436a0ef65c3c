"""Speakers, invented buyers' tanks over the real kinds, and a reader who brackets whatever was translated."""

import re

from hypothesis import strategies as st

from webapp.fit.profile import Profile
from webapp.fit.specimen import Specimen, UsedTo
from webapp.fit.tank import BuyerTank, FlowSaid, LightSaid, Measured, Neighbour, PumpSaid
from webapp.schemas.profiles import load_profiles
from webapp.schemas.tankmates import load_tankmates
from webapp.science.units import QUANTITIES
from webapp.words.report import ToldReport
from webapp.words.speaker import Speaker

KINDS: dict[str, Profile] = dict(load_profiles())
KIND_NAMES = {key: kind.trade_name for key, kind in KINDS.items()}
MATE_NAMES = {key: mate.plain_name for key, mate in load_tankmates().items()}


def speaker(**changes) -> Speaker:
    """English, with the real names."""
    return Speaker(**{"kinds": KIND_NAMES, "tankmates": MATE_NAMES, **changes})


def bracketed(**changes) -> Speaker:
    """A reader whose language is English in brackets."""
    plain = {key: name.split(" (")[0] for key, name in KIND_NAMES.items()}  # what stands in brackets is left out
    return speaker(
        kinds=plain,
        translate=lambda text: f"⟦{text}⟧",
        ngettext=lambda one, many, n: f"⟦{one if n == 1 else many}⟧",
        **changes,
    )


def outside_brackets(text: str) -> str:
    """What is left when everything translated is taken away."""
    while True:
        shorter = re.sub(r"⟦[^⟦⟧]*⟧", "", text)
        if shorter == text:
            return text
        text = shorter


def texts_of(told: ToldReport) -> list[str]:
    """Every sentence of an answer (headings and numbers alone are not sentences)."""
    found = [
        *told.whole_sentences, *told.schedule_notes, *told.safety, *told.paperwork, *told.unknowable,
        *(text for _, text in told.acclimation), *(question.text for question in told.questions),
        *(step.text for step in told.schedule), *(step.expect for step in told.schedule if step.expect),
        *(told.spot.sentences if told.spot else ()), *([told.spot.drawing_alt] if told.spot else ()),
    ]  # fmt: skip
    for factor in told.factors:
        found += [*factor.reasons, *factor.advice, *([factor.used_to] if factor.used_to else ())]
        if factor.plan:
            found += [*(text for _, text in factor.plan.steps), *factor.plan.cautions]
    return found


def labels_of(told: ToldReport) -> list[str]:
    """Everything else that is shown."""
    found = [told.whole_word, *told.settle_next, *(when for when, _ in told.acclimation)]
    found += [label for question in told.questions for _, label, _ in question.offers]
    found += [question.name for question in told.questions] + [told.spot.title if told.spot else ""]
    for factor in told.factors:
        found += [factor.name, factor.reading, factor.give_or_take, factor.basis, factor.unit]
        if factor.plan:
            found += [factor.plan.title, *(when for when, _ in factor.plan.steps)]
    return found


def _readings(quantity: str, high: float):
    unit = st.sampled_from((*QUANTITIES[quantity].units, *(("mg_l_unsure",) if quantity in ("no3", "po4") else ())))
    method = st.sampled_from(("", "drop_kit", "colour_card", "colorimeter", "laboratory", "hydrometer_glass", "strip"))
    return st.lists(st.builds(Measured, st.floats(0, high).map(lambda x: round(x, 3)), unit, method), max_size=2)


_MOST = {"temp": 90, "salinity": 60, "alk": 20, "ca": 600, "mg": 1700, "no3": 60, "po4": 0.5, "ph": 9,
         "ammonia": 1, "nitrite": 1}  # fmt: skip
_USUAL = {"temp": (22, 30), "salinity": (29, 38), "alk": (5, 13), "ca": (330, 520), "mg": (1000, 1500), "no3": (0, 50),
          "po4": (0, 0.4), "ph": (7.6, 8.5)}  # fmt: skip
_SIDES = st.one_of(st.none(), st.builds(Measured, st.floats(20, 150), st.sampled_from(("cm", "in"))))


def _tank(odd: dict, usual: dict, **rest) -> BuyerTank:
    plain = {name: (Measured(value, QUANTITIES[name].canonical_unit),) for name, value in usual.items()}
    return BuyerTank(readings=plain | {name: tuple(found) for name, found in odd.items() if found}, **rest)


TANKS = st.builds(
    _tank,
    odd=st.fixed_dictionaries({}, optional={name: _readings(name, most) for name, most in _MOST.items()}),
    usual=st.fixed_dictionaries({}, optional={name: st.floats(*ends) for name, ends in _USUAL.items()}),
    volume=st.one_of(
        st.none(), st.builds(Measured, st.floats(20, 900), st.sampled_from(("l", "gal_us", "gal_imp", "gal")))
    ),
    length=_SIDES,
    width=_SIDES,
    height=_SIDES,
    light=st.one_of(
        st.none(),
        st.builds(LightSaid, st.just("meter"), par=st.floats(1, 4000), depth_cm=st.floats(0, 60)),
        st.builds(LightSaid, st.just("lux"), lux=st.floats(100, 90000), depth_cm=st.floats(0, 60)),
        st.builds(LightSaid, st.just("words"), word=st.sampled_from(("dim", "modest", "strong", "intense"))),
        st.builds(LightSaid, st.just("fixture"), kind=st.sampled_from(("t5", "led_reef_blue")),
                  watts=st.floats(5, 2500), hours=st.floats(4, 14)),
    ),
    flow=st.one_of(
        st.none(),
        st.builds(FlowSaid, st.just("words"), word=st.sampled_from(("dirt_settles", "bent_over", "sand_moves"))),
        st.builds(FlowSaid, st.just("meter"), speed_cm_s=st.floats(0.5, 150)),
        st.builds(FlowSaid, st.just("pumps"), pumps=st.builds(PumpSaid, st.floats(200, 60000)).map(lambda one: (one,))),
    ),
    tankmates=st.one_of(st.none(), st.lists(st.sampled_from(sorted(MATE_NAMES)), max_size=5).map(tuple)),
    neighbours=st.one_of(
        st.none(),
        st.lists(
            st.builds(
                Neighbour, st.sampled_from((*sorted(KINDS), "unheard_of")), st.one_of(st.none(), st.floats(0, 80))
            ),
            max_size=3,
        ).map(tuple),
    ),
    free_space_cm=st.one_of(st.none(), st.floats(0, 100)),
    age_months=st.one_of(st.none(), st.integers(0, 40).map(float)),
    feeding_days_per_week=st.sampled_from((None, 0.0, 1.0, 3.0, 7.0)),
    summer_high=st.one_of(st.none(), st.builds(Measured, st.floats(22, 90), st.sampled_from(("c", "f")))),
    carbon=st.sampled_from((None, True, False)),
    open_pumps=st.sampled_from((None, True, False)),
    swings=st.fixed_dictionaries({}, optional={"temp": st.floats(0, 4), "alk": st.floats(0, 2)}),
)  # fmt: skip


def _lived(name: str, low: float, high: float):
    return st.builds(lambda x: UsedTo(x, x * 0.97, x * 1.03, 20, 60), st.floats(low, high))


SPECIMENS = st.builds(
    Specimen,
    st.sampled_from(sorted(KINDS)).map(KINDS.__getitem__),
    st.one_of(st.none(), st.floats(1, 20)),
    st.fixed_dictionaries(
        {},
        optional={
            "temp": _lived("temp", 23, 27), "salinity": _lived("salinity", 31, 36), "alk": _lived("alk", 7, 10),
            "no3": _lived("no3", 0, 20), "par": _lived("par", 30, 400), "flow": _lived("flow", 2, 30),
        },
    ),
)  # fmt: skip
