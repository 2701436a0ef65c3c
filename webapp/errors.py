"""The errors a person may be shown. Anything else that is raised is a bug.

    ShopError                  the family: a sentence for the person holding the phone
    ├── BadInput               what was typed cannot be used; `field` says where
    ├── NotFound               there is no such code, tank, specimen …
    ├── NotAllowed             this person or device may not do that
    ├── TooMany                tried too often; `retry_after_s` says when again
    ├── Refused                an event refused for its form, author or target
    └── CannotPrint            a label that does not fit or does not read back
"""


class ShopError(Exception):
    """Base of the family. `str(error)` is the sentence shown: what was wrong, and what to do."""


class BadInput(ShopError):
    """Input that cannot be used. `field` names the form field it belongs to, or None for the whole form."""

    def __init__(self, message: str, field: str | None = None):
        super().__init__(message)
        self.field = field


class NotFound(ShopError):
    """What was asked for does not exist here."""


class NotAllowed(ShopError):
    """The person signed in, or the device, may not do this."""


class TooMany(ShopError):
    """Too many tries. `retry_after_s` is the wait in seconds."""

    def __init__(self, message: str, retry_after_s: int):
        super().__init__(message)
        self.retry_after_s = retry_after_s


class Refused(ShopError):
    """An event that was refused for its form, its author's authority or a target that does not exist."""


class CannotPrint(ShopError):
    """A label that does not fit its piece or does not read back; the message names it."""
