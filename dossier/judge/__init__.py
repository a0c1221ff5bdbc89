"""Requirements and claims held against figures: what conforms, what does not, and what was not shown."""
