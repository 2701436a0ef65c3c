"""Staff phones: devices, whose session on which device, codes promised to deeds done without signal."""

import sqlalchemy as sa
from alembic import op

from webapp.storage.base import UtcDateTime

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "device",
        sa.Column("id", sa.String(length=32), nullable=False),
        sa.Column("digest", sa.String(length=64), nullable=False),
        sa.Column("name", sa.String(length=60), nullable=False),
        sa.Column("created_at", UtcDateTime(), nullable=False),
        sa.Column("seen_at", UtcDateTime(), nullable=False),
        sa.Column("skew_s", sa.Double(), nullable=True),
        sa.Column("revoked_at", UtcDateTime(), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_device")),
        sa.UniqueConstraint("digest", name=op.f("uq_device_digest")),
    )
    op.create_table(
        "reserved_code",
        sa.Column("code", sa.String(length=8), nullable=False),
        sa.Column("deed_id", sa.String(length=32), nullable=False),
        sa.Column("device_id", sa.String(length=32), nullable=False),
        sa.Column("place", sa.Integer(), nullable=False),
        sa.Column("reserved_at", UtcDateTime(), nullable=False),
        sa.ForeignKeyConstraint(["device_id"], ["device.id"], name=op.f("fk_reserved_code_device_id_device")),
        sa.PrimaryKeyConstraint("code", name=op.f("pk_reserved_code")),
    )
    with op.batch_alter_table("reserved_code", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_reserved_code_deed_id"), ["deed_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_reserved_code_device_id"), ["device_id"], unique=False)
    with op.batch_alter_table("staff_session", schema=None) as batch_op:
        batch_op.add_column(sa.Column("device_id", sa.String(length=32), nullable=True))
        batch_op.create_foreign_key(
            batch_op.f("fk_staff_session_device_id_device"), "device", ["device_id"], ["id"]
        )
        batch_op.create_index(batch_op.f("ix_staff_session_device_id"), ["device_id"], unique=False)


def downgrade() -> None:
    with op.batch_alter_table("staff_session", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_staff_session_device_id"))
        batch_op.drop_constraint(batch_op.f("fk_staff_session_device_id_device"), type_="foreignkey")
        batch_op.drop_column("device_id")
    op.drop_table("reserved_code")
    op.drop_table("device")
