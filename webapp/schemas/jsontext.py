"""Text that somebody else wrote, as JSON: numbers must be numbers, and nesting must end."""

import json
from typing import Any, NoReturn


def from_text(text: str | bytes) -> Any:
    """The JSON value of `text` (RFC 8259, UTF-8). Raises json.JSONDecodeError, also for NaN and for endless nesting."""
    try:
        return json.loads(text, parse_constant=_no_number)
    except UnicodeDecodeError as error:
        raise json.JSONDecodeError("not UTF-8", "", 0) from error
    except RecursionError as error:
        raise json.JSONDecodeError("nested too deeply", "", 0) from error


def _no_number(name: str) -> NoReturn:
    raise json.JSONDecodeError(f"{name} is not a number", "", 0)
