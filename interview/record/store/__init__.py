"""Where records are kept: open a store, save, find, revise, compare, export and import."""

from __future__ import annotations

from interview.record.store.compare import Difference, differences
from interview.record.store.connect import StoreError
from interview.record.store.rows import Found, Stored
from interview.record.store.store import Imported, Store, open_store

__all__ = ["Difference", "Found", "Imported", "Store", "StoreError", "Stored", "differences", "open_store"]
