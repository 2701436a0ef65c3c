"""The photos of a count while it is confirmed, small and in memory: nothing of them is kept afterwards."""

import threading
from collections import OrderedDict
from collections.abc import Iterable
from dataclasses import dataclass

from webapp.services.recording import new_deed
from webapp.tags.photo import FoundTag, Reading, shown_picture

MOST_KEPT = 60  # of about 150 kB


@dataclass(frozen=True, slots=True)
class CountPhoto:
    """One photo: a JPEG to show, and what was read in it, in pixels of `width` x `height`.

    `foreign`: how many symbols were not this shop's; `misread`: how many were not read for sure.
    """

    id: str
    jpeg: bytes
    tags: tuple[FoundTag, ...]
    width: int
    height: int
    foreign: int
    misread: int

    @property
    def middles(self) -> dict[str, tuple[float, float]]:
        """The middle of each tag by code."""
        return {
            tag.code: (sum(x for x, _ in tag.corners) / 4, sum(y for _, y in tag.corners) / 4) for tag in self.tags
        }


class CountPhotos:
    """The newest photos; older ones are forgotten, and what was read in them goes on in the address of the page."""

    def __init__(self) -> None:
        self._kept: OrderedDict[str, CountPhoto] = OrderedDict()
        self._lock = threading.Lock()

    def keep(self, data: bytes, found: Reading) -> str:
        """Keep a photo that was read; returns its id."""
        foreign = sum(problem == "not_ours" for _text, problem in found.others)
        misread = len(found.others) - foreign
        shown = shown_picture(data)
        photo = CountPhoto(new_deed(), shown, found.tags, found.width, found.height, foreign, misread)
        with self._lock:
            self._kept[photo.id] = photo
            while len(self._kept) > MOST_KEPT:
                self._kept.popitem(last=False)
        return photo.id

    def those(self, ids: Iterable[str]) -> list[CountPhoto]:
        """Those of these that are still kept, in this order."""
        return [photo for one in ids if (photo := self._kept.get(one)) is not None]
