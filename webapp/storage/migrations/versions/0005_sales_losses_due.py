"""Sales under a number, the stage and cause of losses, and what the page of the day looks things up by."""

import sqlalchemy as sa
from alembic import op

from webapp.storage.base import UtcDateTime

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None
FILLS_PRESENT = True

COLUMNS = (
    ("deposit_cents", sa.Integer(), None),
    ("looked_at", UtcDateTime(), None),
    ("holds_seen_at", UtcDateTime(), None),
    ("sale_number", sa.Integer(), None),
    ("loss_cause", sa.String(length=16), ""),
    ("loss_stage", sa.String(length=12), ""),
    ("open_conflicts", sa.Integer(), "0"),
)
COUNTED = (("counted_at", UtcDateTime()), ("counted_expected", sa.Integer()), ("counted_missing", sa.Integer()))
INDEXES = {
    "ix_specimen_state": ["status", "status_since"],
    "ix_specimen_cut": ["status", "cut_at"],
    "ix_specimen_strain": ["status", "name"],
    "ix_specimen_trouble": ["status", "trouble"],
    "ix_specimen_looked": ["status", "looked_at"],
    "ix_specimen_kinds": ["tank_id", "profile_key", "status"],
} | {f"ix_specimen_{name}": [name] for name in ("held_until", "missing_since", "open_conflicts")}


def upgrade() -> None:
    op.create_table(
        "sale",
        sa.Column("id", sa.String(length=32), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("made_at", UtcDateTime(), nullable=False),
        sa.Column("deed_id", sa.String(length=32), nullable=False),
        sa.Column("author_name", sa.String(length=60), nullable=False),
        sa.Column("total_cents", sa.Integer(), nullable=False),
        sa.Column("talk", sa.Boolean(), nullable=False),
        sa.Column("lines", sa.JSON(), nullable=False),
        sa.Column("bag", sa.JSON(), nullable=True),
        sa.Column("claims", sa.JSON(), nullable=False),
        sa.Column("returns", sa.JSON(), nullable=False),
        sa.Column("open_claims", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_sale")),
    )
    for column in ("number", "made_at", "open_claims"):
        op.create_index(op.f(f"ix_sale_{column}"), "sale", [column])
    with op.batch_alter_table("specimen", schema=None) as batch_op:
        for name, kind, default in COLUMNS:
            batch_op.add_column(sa.Column(name, kind, server_default=default, nullable=default is None))
        for name, columns in INDEXES.items():
            batch_op.create_index(name, columns)
    with op.batch_alter_table("rack", schema=None) as batch_op:
        for name, kind in COUNTED:
            batch_op.add_column(sa.Column(name, kind, nullable=True))
    op.execute("UPDATE specimen SET open_conflicts = json_array_length(conflicts)")


def downgrade() -> None:
    with op.batch_alter_table("specimen", schema=None) as batch_op:
        for name in INDEXES:
            batch_op.drop_index(name)
        for name, _kind, _default in COLUMNS:
            batch_op.drop_column(name)
    with op.batch_alter_table("rack", schema=None) as batch_op:
        for name, _kind in COUNTED:
            batch_op.drop_column(name)
    op.drop_table("sale")
