"""The theme the coach chose, kept in a cookie."""
