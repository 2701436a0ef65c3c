"""Alembic's door: runs the migrations on the connection that `storage.migrating` hands over."""

from alembic import context

from webapp.storage import event, place, shop, specimen  # noqa: F401  every model is needed to compare
from webapp.storage.base import Base, UtcDateTime


def _own_types(kind: str, item: object, _autogen: object) -> str | bool:
    return "UtcDateTime()" if kind == "type" and isinstance(item, UtcDateTime) else False


context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=Base.metadata,
    render_as_batch=True,
    render_item=_own_types,
)
with context.begin_transaction():
    context.run_migrations()
