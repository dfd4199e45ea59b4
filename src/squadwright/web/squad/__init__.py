"""The squad: everybody in a list, each on a page of his own, added, changed and removed."""
