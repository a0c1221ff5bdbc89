"""Published tables that the tool ships, each file with its source: generic cells and rest
voltages, wires, sizes on the road."""
