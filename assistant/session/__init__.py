"""One conversation at the bench: batches, what-ifs, corrections, undo, questions still open.

Exports Session. It prints nothing; a door shows its replies.
"""

from assistant.session.conversation import Session

__all__ = ["Session"]
