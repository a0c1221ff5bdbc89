"""From a Dossier to page values: contexts, tables, plots. Reads the Dossier, computes nothing."""
