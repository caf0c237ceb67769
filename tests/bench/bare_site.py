"""The site that ours is held against: bare Flask, one ORM read a page and one insert a POST, on the same server.

Of its two pages one is filled up with a constant and one is a template's table with a link in each row.

`python -m tests.bench.bare_site FOLDER PORT WORKERS BYTES` serves it; SQLite is set up as ours is.
"""

import sys
from pathlib import Path

from flask import Flask, render_template_string, request
from sqlalchemy import Text, create_engine, event
from sqlalchemy.orm import DeclarativeBase, Mapped, Session, mapped_column

from trainer.cli.serve import _serve_forked, listen

TABLE = """<!doctype html><title>Bare</title><h1>{{ sheet.title }}</h1><table>
{% for row in rows %}<tr><th scope="row"><a href="{{ url_for("sheet", sheet_id=row) }}">Row {{ row }}</a></th>
<td>{{ sheet.title }}</td><td class="number">{{ row * 2 }}</td><td>{{ "%.2f"|format(row / 7) }}</td>
<td>as long as a row of an ordinary page</td></tr>{% endfor %}</table>"""
ROW_BYTES = 175


class Base(DeclarativeBase):
    """Tables of the bare site."""


class Sheet(Base):
    """What a page reads."""

    __tablename__ = "sheet"
    sheet_id: Mapped[int] = mapped_column(primary_key=True)
    title: Mapped[str] = mapped_column(Text)


class Note(Base):
    """What a POST keeps."""

    __tablename__ = "note"
    note_id: Mapped[int] = mapped_column(primary_key=True)
    text: Mapped[str] = mapped_column(Text)


def bare_app(engine, *, page_bytes: int) -> Flask:
    """One page of so many bytes and one form."""
    app = Flask(__name__)
    head, foot = "<!doctype html><title>Bare</title><h1>", "</h1>"
    title = "One read"
    filler = "x" * (page_bytes - len(head) - len(foot) - len(title))

    @app.get("/sheets/<int:sheet_id>")
    def sheet(sheet_id: int) -> str:
        with Session(engine) as session:
            return f"{head}{session.get_one(Sheet, sheet_id).title}{foot}{filler}"

    @app.get("/tables/<int:sheet_id>")
    def table(sheet_id: int) -> str:
        with Session(engine) as session:
            found = session.get_one(Sheet, sheet_id)
            return render_template_string(TABLE, sheet=found, rows=range(page_bytes // ROW_BYTES)).ljust(
                page_bytes
            )

    @app.post("/notes")
    def keep() -> dict[str, int]:
        with Session(engine) as session:
            note = Note(text=request.form["text"])
            session.add(note)
            session.commit()
            return {"kept": note.note_id}

    with Session(engine) as session:
        session.add(Sheet(sheet_id=1, title=title))
        session.commit()
    return app


def bare_engine(path: Path):
    """SQLite with the settings of ours: write-ahead log, synchronous in full, foreign keys, patience."""
    engine = create_engine(f"sqlite:///{path}")

    @event.listens_for(engine, "connect")
    def connected(connection, _) -> None:
        for pragma in ("foreign_keys=ON", "journal_mode=WAL", "synchronous=FULL", "busy_timeout=5000"):
            connection.execute(f"PRAGMA {pragma}")

    Base.metadata.create_all(engine)
    return engine


def main() -> None:
    """Serves until it is killed."""
    folder, port, workers, page_bytes = sys.argv[1:]
    engine = bare_engine(Path(folder) / "bare.sqlite3")
    app = bare_app(engine, page_bytes=int(page_bytes))
    # the private function of `trainer serve`, so that the server is the same in every setting
    _serve_forked(
        app,
        listen("127.0.0.1", int(port)),
        int(workers),
        lambda: print(f"bare site at http://127.0.0.1:{port}", flush=True),
        lambda: engine.dispose(close=False),
    )


if __name__ == "__main__":
    main()
