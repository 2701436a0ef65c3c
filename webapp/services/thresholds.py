"""The shop's thresholds: defaults with their basis, and the shop's own values where it changed one.

`load_thresholds(session)["open_days"]` is the number that holds here.
"""

from collections.abc import Mapping

from sqlalchemy.orm import Session

from webapp.errors import BadInput
from webapp.services.threshold_table import ORDERED, SECTIONS, THRESHOLDS, Threshold
from webapp.storage.shop import Setting

__all__ = ["DEFAULTS", "SECTIONS", "THRESHOLDS", "Threshold", "load_thresholds", "own_values", "save_thresholds"]
KEPT_AS = "thresholds"
DEFAULTS: dict[str, float] = {key: one.value for key, one in THRESHOLDS.items()}


def own_values(session: Session) -> dict[str, float]:
    """The values the shop changed; a key that this program does not know is left out."""
    row = session.get(Setting, KEPT_AS)
    return {key: float(value) for key, value in (row.value if row else {}).items() if key in THRESHOLDS}


def load_thresholds(session: Session) -> dict[str, float]:
    """Every threshold as it holds in this shop."""
    return DEFAULTS | own_values(session)


def save_thresholds(session: Session, changed: Mapping[str, float | None]) -> None:
    """Keep the shop's own values; None goes back to the default. Raises BadInput naming the field."""
    own = own_values(session)
    for key, value in changed.items():
        threshold = THRESHOLDS.get(key)
        if threshold is None:
            raise BadInput(f"'{key}' is not a threshold.")
        if value is None or value == threshold.value:
            own.pop(key, None)
        elif threshold.low <= value <= threshold.high:
            own[key] = float(value)
        else:
            most = f"{threshold.high:g} {threshold.unit}".strip()
            raise BadInput(f"{threshold.label}: give a number from {threshold.low:g} to {most}.", key)
    _check_order(DEFAULTS | own)
    session.merge(Setting(key=KEPT_AS, value=own))


def _check_order(values: Mapping[str, float]) -> None:
    for lower, upper in ORDERED:
        if values[lower] > values[upper]:
            least, most = THRESHOLDS[lower], THRESHOLDS[upper]
            here = f"{most.label.lower()} {values[upper]:g} {most.unit}"
            raise BadInput(f"{least.label}: {values[lower]:g} {least.unit} lies above '{here}'.", lower)
