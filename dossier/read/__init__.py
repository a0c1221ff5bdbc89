"""Text to plain data with places. The only room that imports yaml."""
