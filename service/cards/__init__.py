"""Answers for people: one card from one answer, drawn as a page, as text or as a document, from the same numbers."""
