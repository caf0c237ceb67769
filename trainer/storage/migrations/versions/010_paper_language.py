"""The language in which a set of sheets is printed; those printed before were in their maker's."""

import sqlalchemy as sa
from alembic import op

revision = "010_paper_language"
down_revision = "009_paper"
branch_labels = None
depends_on = None

_CHECK = "ck_paper_set_language"


def upgrade() -> None:
    op.add_column("paper_set", sa.Column("language", sa.String(40), nullable=True))
    op.execute(
        "UPDATE paper_set SET language ="
        " (SELECT language FROM person WHERE person.person_id = paper_set.made_by)"
    )
    with op.batch_alter_table("paper_set") as batch:
        batch.alter_column("language", existing_type=sa.String(40), nullable=False)
        batch.create_check_constraint(op.f(_CHECK), "language IN ('en', 'es')")


def downgrade() -> None:
    with op.batch_alter_table("paper_set") as batch:
        batch.drop_constraint(op.f(_CHECK), type_="check")
        batch.drop_column("language")
