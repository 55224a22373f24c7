"""How long a sentence may be: what is longer is refused whole, since half of it may mean the opposite."""

LONGEST_SENTENCE = 4_000  # characters; more than anybody says in a breath, less than would hold up the bench
MOST_WORDS = 400


def excess(sentence: str) -> str:
    """What is too much about a sentence, as a message; empty where it can be read.

    >>> excess("112 g fresh nettle")
    ''
    """
    if len(sentence) > LONGEST_SENTENCE:
        return f"That is longer than {LONGEST_SENTENCE:,} characters; nothing of it was taken in."
    if (words := len(sentence.split())) > MOST_WORDS:
        return f"That is {words} words in one breath, more than {MOST_WORDS}; nothing of it was taken in."
    return ""
