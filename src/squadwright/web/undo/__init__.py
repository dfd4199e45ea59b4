"""Taking a step back, from whichever page told what it changed."""
