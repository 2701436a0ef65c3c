"""Photos of racks while their counts are confirmed."""

import sqlalchemy as sa
from alembic import op

from webapp.storage.base import UtcDateTime

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "count_photo",
        sa.Column("id", sa.String(length=32), nullable=False),
        sa.Column("jpeg", sa.LargeBinary(), nullable=False),
        sa.Column("width", sa.Integer(), nullable=False),
        sa.Column("height", sa.Integer(), nullable=False),
        sa.Column("tags", sa.JSON(), nullable=False),
        sa.Column("foreign", sa.Integer(), nullable=False),
        sa.Column("misread", sa.Integer(), nullable=False),
        sa.Column("taken_at", UtcDateTime(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_count_photo")),
    )


def downgrade() -> None:
    op.drop_table("count_photo")
