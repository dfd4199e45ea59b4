"""Around and after events: two close together, the way back, and a camp looked back on."""
