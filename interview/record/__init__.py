"""The specification record, its documents and drawings, and the store."""
