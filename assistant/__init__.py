"""gallipot: a conversational calculator for a herbalist's bench.

    from assistant import Session, Reply
    Session().say("112 g fresh nettle, 1:2 at 60 %").text

The names are looked up when first asked for, so that importing one room of the house does not load the others.
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from assistant.reply import Reply
    from assistant.session import Session

__all__ = ["Reply", "Session", "__version__"]
__version__ = "0.1.0"


def __getattr__(name: str) -> Any:
    if name == "Session":
        from assistant.session import Session

        return Session
    if name == "Reply":
        from assistant.reply import Reply

        return Reply
    raise AttributeError(f"assistant has no {name!r}")
