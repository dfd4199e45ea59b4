"""The club's own limits of the safety gates."""
