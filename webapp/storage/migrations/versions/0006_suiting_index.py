"""An index that groups what is for sale by kind and tank without reading the rows: 'What here suits my tank?'."""

from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_index(
        "ix_specimen_suiting", "specimen", ["status", "profile_key", "tank_id", "code", "held_until"], unique=False
    )
