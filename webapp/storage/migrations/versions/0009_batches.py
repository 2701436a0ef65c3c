"""Batches are found by mother and day: Today asks after the losses of each without reading every animal."""

from alembic import op

revision = "0009"
down_revision = "0008"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_index("ix_specimen_batch", "specimen", ["mother_id", "started_at"], unique=False)
    op.drop_index("ix_specimen_mother_id", "specimen")  # the new one begins with it


def downgrade() -> None:
    op.create_index("ix_specimen_mother_id", "specimen", ["mother_id"], unique=False)
    op.drop_index("ix_specimen_batch", "specimen")
