"""The five draws a family that are kept as golden files; run it to write them anew after a meant change.

They pin our own output, so that drift shows; they prove nothing about physics.
"""

import json
import sys
from pathlib import Path
from typing import Any

from trainer.domain.families import draw
from trainer.scenario_files import load_content, scenario_document

FOLDER = Path(__file__).parent / "golden"
DRAWS = ((0, 0.0), (1, 0.25), (2**53 - 1, 0.5), (3, 0.75), (4, 1.0))


def drawn(family_id: str) -> list[dict[str, Any]]:
    content = load_content()
    return [
        scenario_document(
            draw(
                content.family(family_id),
                seed=seed,
                difficulty=difficulty,
                policy=content.policy,
                hazards=content.hazards,
            ),
            with_answers=True,
        )
        for seed, difficulty in DRAWS
    ]


def text_of(family_id: str) -> str:
    return json.dumps(drawn(family_id), indent=1, ensure_ascii=False, sort_keys=True) + "\n"


if __name__ == "__main__":
    if sys.argv[1:] == ["--print"]:
        print(json.dumps({each: drawn(each) for each in load_content().families}, sort_keys=True))  # noqa: T201
    else:
        FOLDER.mkdir(exist_ok=True)
        for each in load_content().families:
            (FOLDER / f"{each}.json").write_text(text_of(each), encoding="utf-8")
