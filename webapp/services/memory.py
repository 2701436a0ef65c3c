"""What is remembered between requests: worked-out things that hold for one revision of the database."""

from collections.abc import Callable, Hashable
from threading import Lock
from typing import Any


class Memory:
    """A bounded cache that empties itself when the revision changes, so nothing in it is ever out of date."""

    def __init__(self, most: int = 50_000):
        self._most = most
        self._revision: object = None
        self._kept: dict[Hashable, Any] = {}
        self._lasting: dict[Hashable, Any] = {}
        self._lock = Lock()

    def get(self, revision: int, key: Hashable, make: Callable[[], Any]) -> Any:
        """What `make` gave for `key` at this revision; it is called when that is not known."""
        with self._lock:
            if revision != self._revision or len(self._kept) >= self._most:
                self._kept = {}
                self._revision = revision
            kept = self._kept
        if key not in kept:
            kept[key] = make()
        return kept[key]

    def lasting(self, key: tuple[str, Hashable], make: Callable[[], Any]) -> Any:
        """As `get`, for what outlives a revision: the newest stamp of each name is kept, `key` being (name, stamp)."""
        name, stamp = key
        kept = self._lasting.get(name)
        if kept is None or kept[0] != stamp:
            kept = self._lasting[name] = (stamp, make())
        return kept[1]
