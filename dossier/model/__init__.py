"""Frozen typed records: what the builder's files mean."""
