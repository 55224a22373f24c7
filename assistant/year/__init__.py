"""The working year's own tools: tables that fit a narrow page, and the shares of what is scarce.

Holds what lays figures out in rows (table.py), and what a solver library finds in them (shares.py). May know the book's spreadsheets and
pages; knows no sentence, no batch of a conversation and no plant.
"""
