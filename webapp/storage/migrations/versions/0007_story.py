"""The public history of each specimen, kept ready for its card."""

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None
FILLS_PRESENT = True


def upgrade() -> None:
    op.create_table(
        "story",
        sa.Column("id", sa.String(length=32), nullable=False),
        sa.Column("lines", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_story")),
    )


def downgrade() -> None:
    op.drop_table("story")
