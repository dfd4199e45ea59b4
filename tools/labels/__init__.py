"""The list of every label a user sees, read from the program's own files."""
