"""The Textual app."""
