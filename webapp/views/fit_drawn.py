"""The drawings of an answer: a line for each factor with a band, the tank from the side."""

from webapp.fit.findings import Report
from webapp.fit.tank import BuyerTank
from webapp.science.units import to_canonical
from webapp.views.drawn import FactorLine, TankView, factor_line, tank_view

ON_A_LOG_SCALE = ("light", "par", "flow")


def lines(report: Report) -> dict[str, FactorLine]:
    """Factor -> its line, where there is a band to draw."""
    return {
        one.factor: factor_line(one.band, one.estimate, one.used_to, log=one.factor in ON_A_LOG_SCALE)
        for one in report.findings
        if one.band is not None
    }


def side_view(tank: BuyerTank, report: Report) -> TankView | None:
    """The buyer's tank with the zone, where there is a spot to show."""
    if report.spot is None:
        return None
    length, height = (
        None if one is None else to_canonical("length", one.value, one.unit) for one in (tank.length, tank.height)
    )
    return tank_view(length, height, report.spot)
