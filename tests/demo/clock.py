"""The moment at which the tests look at the invented shop."""

from datetime import UTC, datetime

NOW = datetime.now(UTC)
