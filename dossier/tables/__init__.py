"""Published tables that the tool ships, each file with its source: generic cells, wires, sizes on the road."""
