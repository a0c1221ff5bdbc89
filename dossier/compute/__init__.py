"""Formulas on SI floats and arrays. The docstring is a data sheet, see :func:`dossier.figures.formula`."""
