"""The book: what is kept of the bench in one SQLite file.

    book.py           the file open: transactions, rows            opening.py schema.py fault.py
    conversations.py  every sentence as heard, and what it changed  delta.py
    batches.py        kept batches, frozen                          gatherings.py stock.py own_numbers.py
    tracing.py        from the plants to the bottles and back       dates.py keeping_times.py
    record.py labels.py sheets.py page.py                           what is printed
    exchange.py borders.py spreadsheets.py backup.py                out and in again

Knows no sentence and no solver: it is handed records and hands them back. What comes in from a file is hostile until checked.
"""

from assistant.book.book import Book
from assistant.book.fault import BookFault

__all__ = ["Book", "BookFault"]
