"""Care of tanks, pests, shipments; what looks, dips, cuts and sizes leave on a specimen."""

import sqlalchemy as sa
from alembic import op

from webapp.storage.base import UtcDateTime

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None
FILLS_PRESENT = True


def upgrade() -> None:
    _tending()
    _pest()
    _shipment()
    with op.batch_alter_table("specimen", schema=None) as batch_op:
        batch_op.add_column(sa.Column("cut_at", UtcDateTime(), nullable=True))
        batch_op.add_column(sa.Column("last_cut_at", UtcDateTime(), nullable=True))
        batch_op.add_column(sa.Column("trouble", sa.String(length=12), server_default="", nullable=False))
        batch_op.add_column(sa.Column("shipment_id", sa.String(length=32), nullable=True))
        for name in ("checks", "dips", "sizes"):
            batch_op.add_column(sa.Column(name, sa.JSON(), server_default="[]", nullable=False))
        batch_op.create_index(batch_op.f("ix_specimen_shipment_id"), ["shipment_id"], unique=False)


def _tending() -> None:
    op.create_table(
        "tending",
        sa.Column("id", sa.String(length=32), nullable=False),
        sa.Column("tank_id", sa.String(length=32), nullable=False),
        sa.Column("rack_id", sa.String(length=32), nullable=False),
        sa.Column("kind", sa.String(length=24), nullable=False),
        sa.Column("done_at", UtcDateTime(), nullable=False),
        sa.Column("deed_id", sa.String(length=32), nullable=False),
        sa.Column("author_name", sa.String(length=60), nullable=False),
        sa.Column("given", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_tending")),
    )
    op.create_index("ix_tending_tank", "tending", ["tank_id", "done_at"])


def _pest() -> None:
    op.create_table(
        "pest",
        sa.Column("id", sa.String(length=32), nullable=False),
        sa.Column("tank_id", sa.String(length=32), nullable=False),
        sa.Column("specimen_id", sa.String(length=32), nullable=True),
        sa.Column("pest", sa.String(length=40), nullable=False),
        sa.Column("found_at", UtcDateTime(), nullable=False),
        sa.Column("stops_sale", sa.Boolean(), nullable=False),
        sa.Column("photo_id", sa.String(length=32), nullable=True),
        sa.Column("note", sa.String(length=400), nullable=False),
        sa.Column("looks", sa.JSON(), nullable=False),
        sa.Column("treatments", sa.JSON(), nullable=False),
        sa.Column("cleared_at", UtcDateTime(), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_pest")),
    )
    for column in ("tank_id", "specimen_id", "cleared_at"):
        op.create_index(op.f(f"ix_pest_{column}"), "pest", [column])


def _shipment() -> None:
    op.create_table(
        "shipment",
        sa.Column("id", sa.String(length=32), nullable=False),
        sa.Column("supplier", sa.String(length=80), nullable=False),
        sa.Column("invoice", sa.String(length=80), nullable=False),
        sa.Column("papers", sa.String(length=120), nullable=False),
        sa.Column("note", sa.String(length=400), nullable=False),
        sa.Column("ordered_at", UtcDateTime(), nullable=False),
        *(
            sa.Column(name, UtcDateTime(), nullable=True)
            for name in ("expected_at", "packed_at", "opened_at", "done_at")
        ),
        sa.Column("box_temp_c", sa.Double(), nullable=True),
        sa.Column("claim_h", sa.Double(), nullable=True),
        sa.Column("claimed", sa.Integer(), nullable=False),
        sa.Column("claimed_at", UtcDateTime(), nullable=True),
        sa.Column("lines", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_shipment")),
    )
    op.create_index(op.f("ix_shipment_done_at"), "shipment", ["done_at"])


def downgrade() -> None:
    with op.batch_alter_table("specimen", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_specimen_shipment_id"))
        for name in ("sizes", "dips", "checks", "shipment_id", "trouble", "last_cut_at", "cut_at"):
            batch_op.drop_column(name)
    for table in ("shipment", "pest", "tending"):
        op.drop_table(table)
