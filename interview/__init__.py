"""hosewright: a guided interview at the hydraulics counter."""

__version__ = "0.1.0"
