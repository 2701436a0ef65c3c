"""What is remembered between requests: worked-out things that hold for one revision of the database."""

from collections.abc import Callable, Hashable
from typing import Any


class Memory:
    """A bounded cache that empties itself when the revision changes, so nothing in it is ever out of date."""

    def __init__(self, most: int = 50_000):
        self._most = most
        self._state: tuple[object, dict[Hashable, Any]] = (None, {})
        self._lasting: dict[Hashable, Any] = {}

    def get(self, revision: int, key: Hashable, make: Callable[[], Any]) -> Any:
        """What `make` gave for `key` at this revision; it is called when that is not known.

        No lock: a revision and what is kept for it change together, and two threads that make the same thing agree.
        """
        state = self._state
        if state[0] != revision or len(state[1]) >= self._most:
            state = self._state = (revision, {})
        kept = state[1]
        try:
            return kept[key]
        except KeyError:
            value = kept[key] = make()
            return value

    def lasting(self, key: tuple[str, Hashable], make: Callable[[], Any]) -> Any:
        """As `get`, for what outlives a revision: the newest stamp of each name is kept, `key` being (name, stamp)."""
        name, stamp = key
        kept = self._lasting.get(name)
        if kept is None or kept[0] != stamp:
            kept = self._lasting[name] = (stamp, make())
        return kept[1]
