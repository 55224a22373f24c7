"""How often cautions speak over the dialogues: sparingly, and no stop where nothing calls for one."""

import json
from functools import lru_cache
from pathlib import Path

from assistant import Session

DIALOGUES = Path(__file__).parents[1] / "dialogues"


@lru_cache(maxsize=1)
def turns():
    """(case id, turn, reply) of every dialogue."""
    found = []
    for path in sorted(DIALOGUES.glob("*.jsonl")):
        for line in path.read_text(encoding="utf-8").splitlines():
            case = json.loads(line)
            session = Session()
            found.extend((case["id"], turn, session.say(turn["say"])) for turn in case["turns"])
    return found


def test_a_warning_is_rare():
    warnings = sum(caution.level == "warn" for _, _, reply in turns() for caution in reply.cautions)
    assert len(turns()) > 100
    assert warnings <= 1.0 * len(turns())


def test_no_stop_without_a_cause():
    for ident, turn, reply in turns():
        if any(caution.level == "stop" for caution in reply.cautions):
            assert turn.get("caution_words") or turn.get("must_refuse"), f"{ident}: {turn['say']}"


def test_the_words_a_teacher_would_use_are_there():
    for ident, turn, reply in turns():
        words = turn.get("caution_words")
        if words and any(caution.level == "stop" for caution in reply.cautions):
            spoken = " ".join(caution.text for caution in reply.cautions).lower()
            assert any(word.lower() in spoken for word in words), f"{ident}: {turn['say']}"
