"""Pictures of the invented animals: up to three individuals of a strain, each drawn once and shown on several cards."""

from collections.abc import Callable
from datetime import datetime

from demo.diary import Diary
from demo.strains import Strain
from webapp.services import updating
from webapp.storage.present_specimen import GONE

INDIVIDUALS = 3
#: Pixels a side: sharp on a phone's whole width, and drawn in a fraction of a second.
SIDE_PX = 720
#: (profile key, hue, seed, pixels a side) -> the bytes of a picture file.
Draw = Callable[[str, int, int, int], bytes]


class Portraits:
    """Takes each specimen's picture for its card."""

    def __init__(self, draw: Draw):
        self._draw = draw
        self._kept: dict[tuple[str, int], str] = {}

    def draw(self, strain: Strain) -> bytes:
        """A picture of a strain that belongs to no card."""
        return self._draw(strain.key, strain.hue, 0, SIDE_PX)

    def take(self, diary: Diary, strain: Strain, number: int, specimen_id: str, at: datetime) -> None:
        """Plan the picture of one specimen. The first of a strain (0) is the mother colony, or the animal bought in."""
        individual = number if number == 0 else 1 + number % min(INDIVIDUALS - 1, max(1, len(strain.sessions)))

        def taken(when: datetime, deed: str) -> None:
            if updating.get_row(diary.session, specimen_id).status in GONE:
                return
            author = diary.authors["Joss"]
            photo_id = self._kept.get((strain.name, individual))
            if photo_id is not None:
                payload = {"photo_id": photo_id}
                updating.update(diary.session, author, deed, "pictured", [specimen_id], payload, when)
                return
            data = self._draw(strain.key, strain.hue, individual, SIDE_PX)
            self._kept[strain.name, individual] = updating.add_photo(
                diary.session, author, deed, specimen_id, data, when, when
            )

        diary.plan(at, taken)
