"""What pages draw: positions and sizes worked out here, lines and words set by the templates."""
