"""Every component of the site on one page, on the real style sheet."""
