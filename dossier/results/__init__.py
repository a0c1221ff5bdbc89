"""From record and state to figures: which formula is fed with which inputs of this aircraft."""
