"""Invert a monotonic function: the one root-finder that the equations here need."""

from collections.abc import Callable

STEPS = 52  # halvings; 2^-52 of the bracket is the rounding of a float of its size


def invert(function: Callable[[float], float], target: float, low: float, high: float) -> float:
    """x in [low, high] with function(x) = target, by bisection; `function` must be monotonic there.

    Raises ValueError when target is not between function(low) and function(high).
    """
    at_low, at_high = function(low), function(high)
    if not min(at_low, at_high) <= target <= max(at_low, at_high):
        raise ValueError(f"{target:g} is outside {min(at_low, at_high):g} to {max(at_low, at_high):g}")
    rising = at_high > at_low
    for _ in range(STEPS):
        middle = (low + high) / 2
        if (function(middle) < target) == rising:
            low = middle
        else:
            high = middle
    return (low + high) / 2
