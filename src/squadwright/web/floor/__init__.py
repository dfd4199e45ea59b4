"""The floor a session has today, when it is not the whole of its room."""
