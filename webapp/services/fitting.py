"""Asking the fit check for one specimen of the shop."""

from sqlalchemy.orm import Session

from webapp.fit.check import check_prepared
from webapp.fit.findings import Report
from webapp.fit.prepared import prepare
from webapp.fit.specimen import Specimen
from webapp.fit.tank import BuyerTank
from webapp.services.memory import Memory
from webapp.services.profiles import newest_profiles
from webapp.services.shop import revision


def check_specimen(session: Session, memory: Memory, specimen: Specimen, tank: BuyerTank) -> Report:
    """The whole answer for one animal and one tank."""
    kinds = newest_profiles(session, memory, revision(session))
    return check_prepared(prepare(tank, kinds), specimen)
