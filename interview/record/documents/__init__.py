"""Documents made from a record: one content, several forms."""
