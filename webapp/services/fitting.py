"""Asking the fit check for one specimen of the shop."""

from collections.abc import Sequence

from sqlalchemy.orm import Session

from webapp.fit.check import check_prepared
from webapp.fit.findings import Report
from webapp.fit.prepared import prepare
from webapp.fit.specimen import Specimen
from webapp.fit.tank import BuyerTank
from webapp.fit.together import Together, led_into, plan_together
from webapp.services.memory import Memory
from webapp.services.profiles import newest_profiles
from webapp.services.shop import revision


def check_specimen(session: Session, memory: Memory, specimen: Specimen, tank: BuyerTank) -> Report:
    """The whole answer for one animal and one tank."""
    kinds = newest_profiles(session, memory, revision(session))
    return check_prepared(prepare(tank, kinds), specimen)


def check_together(
    session: Session, memory: Memory, specimens: Sequence[Specimen], tank: BuyerTank
) -> tuple[list[Report], Together]:
    """The answer for each of several animals of one sale, and one plan of the tank's water over all of them."""
    prepared = prepare(tank, newest_profiles(session, memory, revision(session)))
    reports = [check_prepared(prepared, specimen) for specimen in specimens]
    bands = [specimen.profile.bands for specimen in specimens]
    together = plan_together(reports, bands, prepared.size.volume_l)
    return led_into(reports, together, prepared, specimens), together
