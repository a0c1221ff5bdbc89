"""A conformity dossier per serial number, computed from a builder's own records."""

__version__ = "0.1.0"
