"""Counts of racks, tags as rulers: when a specimen was seen, its area, the printed side, photos being measured."""

import sqlalchemy as sa
from alembic import op

from webapp.storage.base import UtcDateTime

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "ruler_photo",
        sa.Column("id", sa.String(length=32), nullable=False),
        sa.Column("specimen_id", sa.String(length=32), nullable=False),
        sa.Column("webp", sa.LargeBinary(), nullable=False),
        sa.Column("thumb", sa.LargeBinary(), nullable=False),
        sa.Column("width", sa.Integer(), nullable=False),
        sa.Column("height", sa.Integer(), nullable=False),
        sa.Column("ruler", sa.JSON(), nullable=False),
        sa.Column("taken_at", UtcDateTime(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_ruler_photo")),
    )
    with op.batch_alter_table("specimen", schema=None) as batch_op:
        batch_op.add_column(sa.Column("area_mm2", sa.Double(), nullable=True))
        batch_op.add_column(sa.Column("seen_at", UtcDateTime(), nullable=True))
        batch_op.add_column(sa.Column("missing_since", UtcDateTime(), nullable=True))
    with op.batch_alter_table("tag", schema=None) as batch_op:
        batch_op.add_column(sa.Column("printed_side_mm", sa.Double(), nullable=True))


def downgrade() -> None:
    with op.batch_alter_table("tag", schema=None) as batch_op:
        batch_op.drop_column("printed_side_mm")
    with op.batch_alter_table("specimen", schema=None) as batch_op:
        batch_op.drop_column("missing_since")
        batch_op.drop_column("seen_at")
        batch_op.drop_column("area_mm2")
    op.drop_table("ruler_photo")
