"""The first shape: events, their present, people, profiles, sheets."""

import sqlalchemy as sa
from alembic import op

from webapp.storage.base import UtcDateTime

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "attempt",
        sa.Column("key", sa.String(length=120), nullable=False),
        sa.Column("failures", sa.Integer(), nullable=False),
        sa.Column("last_at", UtcDateTime(), nullable=False),
        sa.Column("blocked_until", UtcDateTime(), nullable=True),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_attempt")),
    )
    op.create_table(
        "clock",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_clock")),
    )
    op.create_table(
        "event",
        sa.Column("seq", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("id", sa.String(length=32), nullable=False),
        sa.Column("kind", sa.String(length=24), nullable=False),
        sa.Column("subject_kind", sa.String(length=12), nullable=False),
        sa.Column("subject_id", sa.String(length=32), nullable=False),
        sa.Column("deed_id", sa.String(length=32), nullable=False),
        sa.Column("occurred_at", UtcDateTime(), nullable=False),
        sa.Column("received_at", UtcDateTime(), nullable=False),
        sa.Column("author_id", sa.String(length=32), nullable=True),
        sa.Column("author_name", sa.String(length=60), nullable=False),
        sa.Column("device", sa.String(length=60), nullable=False),
        sa.Column("payload", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("seq", name=op.f("pk_event")),
        sa.UniqueConstraint("id", name=op.f("uq_event_id")),
    )
    with op.batch_alter_table("event", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_event_deed_id"), ["deed_id"], unique=False)
        batch_op.create_index("ix_event_subject", ["subject_id", "occurred_at", "id"], unique=False)

    op.create_table(
        "person",
        sa.Column("id", sa.String(length=32), nullable=False),
        sa.Column("name", sa.String(length=60), nullable=False),
        sa.Column("role", sa.String(length=12), nullable=False),
        sa.Column("secret_hash", sa.String(length=200), nullable=False),
        sa.Column("active", sa.Boolean(), nullable=False),
        sa.Column("created_at", UtcDateTime(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_person")),
        sa.UniqueConstraint("name", name=op.f("uq_person_name")),
    )
    op.create_table(
        "photo",
        sa.Column("id", sa.String(length=32), nullable=False),
        sa.Column("webp", sa.LargeBinary(), nullable=False),
        sa.Column("thumb", sa.LargeBinary(), nullable=False),
        sa.Column("width", sa.Integer(), nullable=False),
        sa.Column("height", sa.Integer(), nullable=False),
        sa.Column("taken_at", UtcDateTime(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_photo")),
    )
    op.create_table(
        "profile",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("key", sa.String(length=60), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("data", sa.JSON(), nullable=False),
        sa.Column("reason", sa.String(length=400), nullable=False),
        sa.Column("author_name", sa.String(length=60), nullable=False),
        sa.Column("created_at", UtcDateTime(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_profile")),
        sa.UniqueConstraint("key", "revision", name=op.f("uq_profile_key_revision")),
    )
    op.create_table(
        "rack",
        sa.Column("id", sa.String(length=32), nullable=False),
        sa.Column("tank_id", sa.String(length=32), nullable=False),
        sa.Column("name", sa.String(length=60), nullable=False),
        sa.Column("rows", sa.Integer(), nullable=False),
        sa.Column("columns", sa.Integer(), nullable=False),
        sa.Column("depth_cm", sa.Double(), nullable=True),
        sa.Column("code", sa.String(length=8), nullable=True),
        sa.Column("opened_at", UtcDateTime(), nullable=False),
        sa.Column("closed_at", UtcDateTime(), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_rack")),
    )
    with op.batch_alter_table("rack", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_rack_tank_id"), ["tank_id"], unique=False)

    op.create_table(
        "reading",
        sa.Column("id", sa.String(length=32), nullable=False),
        sa.Column("tank_id", sa.String(length=32), nullable=False),
        sa.Column("rack_id", sa.String(length=32), nullable=False),
        sa.Column("quantity", sa.String(length=16), nullable=False),
        sa.Column("value", sa.Double(), nullable=False),
        sa.Column("typed", sa.Double(), nullable=False),
        sa.Column("unit", sa.String(length=16), nullable=False),
        sa.Column("method", sa.String(length=32), nullable=False),
        sa.Column("taken_at", UtcDateTime(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_reading")),
    )
    with op.batch_alter_table("reading", schema=None) as batch_op:
        batch_op.create_index("ix_reading_tank", ["tank_id", "quantity", "taken_at"], unique=False)

    op.create_table(
        "setting",
        sa.Column("key", sa.String(length=40), nullable=False),
        sa.Column("value", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_setting")),
    )
    op.create_table(
        "sheet",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("specimen_id", sa.String(length=32), nullable=False),
        sa.Column("profile_key", sa.String(length=60), nullable=False),
        sa.Column("profile_revision", sa.Integer(), nullable=False),
        sa.Column("issued_at", UtcDateTime(), nullable=False),
        sa.Column("author_name", sa.String(length=60), nullable=False),
        sa.Column("snapshot", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_sheet")),
    )
    with op.batch_alter_table("sheet", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_sheet_specimen_id"), ["specimen_id"], unique=False)

    op.create_table(
        "specimen",
        sa.Column("id", sa.String(length=32), nullable=False),
        sa.Column("profile_key", sa.String(length=60), nullable=False),
        sa.Column("name", sa.String(length=80), nullable=False),
        sa.Column("status", sa.String(length=16), nullable=False),
        sa.Column("code", sa.String(length=8), nullable=True),
        sa.Column("mother_id", sa.String(length=32), nullable=True),
        sa.Column("origin", sa.String(length=20), nullable=False),
        sa.Column("method", sa.String(length=40), nullable=False),
        sa.Column("supplier", sa.String(length=80), nullable=False),
        sa.Column("papers", sa.String(length=120), nullable=False),
        sa.Column("cost_cents", sa.Integer(), nullable=True),
        sa.Column("tank_id", sa.String(length=32), nullable=True),
        sa.Column("rack_id", sa.String(length=32), nullable=True),
        sa.Column("slot", sa.String(length=8), nullable=False),
        sa.Column("size_mm", sa.Double(), nullable=True),
        sa.Column("heads", sa.Integer(), nullable=True),
        sa.Column("price_cents", sa.Integer(), nullable=True),
        sa.Column("photo_id", sa.String(length=32), nullable=True),
        sa.Column("hold_word", sa.String(length=40), nullable=False),
        sa.Column("held_until", UtcDateTime(), nullable=True),
        sa.Column("started_at", UtcDateTime(), nullable=False),
        sa.Column("ended_at", UtcDateTime(), nullable=True),
        sa.Column("status_since", UtcDateTime(), nullable=False),
        sa.Column("last_event_at", UtcDateTime(), nullable=False),
        sa.Column("lived", sa.JSON(), nullable=False),
        sa.Column("conflicts", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_specimen")),
    )
    with op.batch_alter_table("specimen", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_specimen_code"), ["code"], unique=False)
        batch_op.create_index(batch_op.f("ix_specimen_mother_id"), ["mother_id"], unique=False)
        batch_op.create_index("ix_specimen_place", ["tank_id", "rack_id", "slot"], unique=False)
        batch_op.create_index(batch_op.f("ix_specimen_profile_key"), ["profile_key"], unique=False)
        batch_op.create_index(batch_op.f("ix_specimen_status"), ["status"], unique=False)

    op.create_table(
        "tag",
        sa.Column("code", sa.String(length=8), nullable=False),
        sa.Column("state", sa.String(length=8), nullable=False),
        sa.Column("target_kind", sa.String(length=12), nullable=False),
        sa.Column("target_id", sa.String(length=32), nullable=True),
        sa.Column("printed_host", sa.String(length=64), nullable=False),
        sa.Column("conflicts", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("code", name=op.f("pk_tag")),
    )
    with op.batch_alter_table("tag", schema=None) as batch_op:
        batch_op.create_index("ix_tag_target", ["target_id"], unique=False)

    op.create_table(
        "tank",
        sa.Column("id", sa.String(length=32), nullable=False),
        sa.Column("name", sa.String(length=60), nullable=False),
        sa.Column("purpose", sa.String(length=20), nullable=False),
        sa.Column("volume_l", sa.Double(), nullable=True),
        sa.Column("length_cm", sa.Double(), nullable=True),
        sa.Column("width_cm", sa.Double(), nullable=True),
        sa.Column("height_cm", sa.Double(), nullable=True),
        sa.Column("light_hours", sa.Double(), nullable=True),
        sa.Column("note", sa.String(length=400), nullable=False),
        sa.Column("code", sa.String(length=8), nullable=True),
        sa.Column("opened_at", UtcDateTime(), nullable=False),
        sa.Column("closed_at", UtcDateTime(), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_tank")),
    )
    op.create_table(
        "staff_session",
        sa.Column("digest", sa.String(length=64), nullable=False),
        sa.Column("person_id", sa.String(length=32), nullable=False),
        sa.Column("device", sa.String(length=60), nullable=False),
        sa.Column("created_at", UtcDateTime(), nullable=False),
        sa.Column("seen_at", UtcDateTime(), nullable=False),
        sa.Column("ended_at", UtcDateTime(), nullable=True),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_staff_session_person_id_person")),
        sa.PrimaryKeyConstraint("digest", name=op.f("pk_staff_session")),
    )
    with op.batch_alter_table("staff_session", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_staff_session_person_id"), ["person_id"], unique=False)
    op.execute("INSERT INTO clock (id, revision) VALUES (1, 1)")


def downgrade() -> None:
    with op.batch_alter_table("staff_session", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_staff_session_person_id"))

    op.drop_table("staff_session")
    op.drop_table("tank")
    with op.batch_alter_table("tag", schema=None) as batch_op:
        batch_op.drop_index("ix_tag_target")

    op.drop_table("tag")
    with op.batch_alter_table("specimen", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_specimen_status"))
        batch_op.drop_index(batch_op.f("ix_specimen_profile_key"))
        batch_op.drop_index("ix_specimen_place")
        batch_op.drop_index(batch_op.f("ix_specimen_mother_id"))
        batch_op.drop_index(batch_op.f("ix_specimen_code"))

    op.drop_table("specimen")
    with op.batch_alter_table("sheet", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_sheet_specimen_id"))

    op.drop_table("sheet")
    op.drop_table("setting")
    with op.batch_alter_table("reading", schema=None) as batch_op:
        batch_op.drop_index("ix_reading_tank")

    op.drop_table("reading")
    with op.batch_alter_table("rack", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_rack_tank_id"))

    op.drop_table("rack")
    op.drop_table("profile")
    op.drop_table("photo")
    op.drop_table("person")
    with op.batch_alter_table("event", schema=None) as batch_op:
        batch_op.drop_index("ix_event_subject")
        batch_op.drop_index(batch_op.f("ix_event_deed_id"))

    op.drop_table("event")
    op.drop_table("clock")
    op.drop_table("attempt")
