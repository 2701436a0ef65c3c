"""Refuse a number outside the range an equation was made for, by the argument's name."""


def within(argument: str, value: float, low: float, high: float) -> float:
    """`value`, when low <= value <= high. Raises ValueError naming `argument` otherwise, also for NaN."""
    if not low <= value <= high:
        raise ValueError(f"{argument} {value:g} is outside {low:g} to {high:g}")
    return value


def above(argument: str, value: float, low: float) -> float:
    """`value`, when it is finite and greater than `low`. Raises ValueError naming `argument` otherwise."""
    if not low < value < float("inf"):
        raise ValueError(f"{argument} {value:g} must be a number above {low:g}")
    return value
