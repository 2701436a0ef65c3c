"""Where a plan aims, and what it must keep clear of."""

from dataclasses import dataclass

from webapp.fit.doses import Water
from webapp.fit.profile import Band

#: How far into the ideal band a plan aims, as a share of its width: clear of the edge, never past the middle.
MARGIN = 0.25
#: Salinity may drift this far (ppt) outside where it stood before it is set right again, when nobody asked to mend it.
SALINITY_SLACK = 0.3
NUTRIENTS = ("no3", "po4")
MOVABLE = ("temp", "salinity", "alk", "ca", "mg", "no3", "po4")


#: Water is not thinned below this (ppt) for a kind that would like it thinner: what lives beside it would pay.
SHARED_PPT = 33.0


def aim(quantity: str, band: Band, value: float) -> float | None:
    """The value to aim at from `value`: a quarter into the ideal band from the nearer edge; None when it is inside.

    A salinity that comes down stops where other reef animals are well too, as far as the ideal allows.
    Source: our own rule.
    """
    if band.ideal_low <= value <= band.ideal_high:
        return None
    edge = inner_edge(band, low=value < band.ideal_low)
    if quantity == "salinity" and value > band.ideal_high:
        return max(edge, min(SHARED_PPT, band.ideal_high))
    return edge


def inner_edge(band: Band, low: bool) -> float:
    """A quarter of the ideal band in from its lower or its upper edge."""
    step = MARGIN * (band.ideal_high - band.ideal_low)
    return band.ideal_low + step if low else band.ideal_high - step


@dataclass(frozen=True, slots=True)
class Keep:
    """The range a quantity is kept in while others are mended; outside it, it is mended too, towards `home`."""

    low: float
    high: float
    home: float | None = None


def keep(quantity: str, band: Band, value: float, mend: bool) -> Keep:
    """Inside its ideal band if it is to be mended or stands inside now; else no worse than it stands: 'leave it'."""
    if mend or band.ideal_low <= value <= band.ideal_high:
        return Keep(band.ideal_low, band.ideal_high)
    slack = SALINITY_SLACK if quantity == "salinity" else 0.0
    return Keep(min(value, band.ideal_low) - slack, max(value, band.ideal_high) + slack, value)


def first_harmed(before: Water, after: Water, bands: dict[str, Band], slack_share: float = 0.0) -> str | None:
    """The first quantity that a deed takes over an outer limit, or farther beyond one; None if it harms nothing.

    What is beyond a limit already may go `slack_share` of itself farther, and a salinity that is too high may rise by
    the little that a dose of salt adds. Nutrients that thin out do not count: feeding brings them back, no powder does.
    """
    for name, band in bands.items():
        was, now = before.get(name), after.get(name)
        if was is None:
            continue
        is_within = band.limit_low - 1e-9 <= was <= band.limit_high + 1e-9  # a hair over by rounding is on the limit
        slack = 0.0 if is_within else slack_share * was
        if name == "salinity" and was > band.limit_high and not is_within:
            slack = max(slack, SALINITY_SLACK)
        below = now < band.limit_low - 1e-9 and now < was - slack - 1e-9
        above = now > band.limit_high + 1e-9 and now > was + slack + 1e-9
        if above or (below and name not in NUTRIENTS):
            return name
    return None
