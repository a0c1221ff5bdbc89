"""Working sheets: how each figure came about, for a reader with a calculator."""
