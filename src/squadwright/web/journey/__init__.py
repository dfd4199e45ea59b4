"""A session away from home: what is there, the card, and the same on paper."""
