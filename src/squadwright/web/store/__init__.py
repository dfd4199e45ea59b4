"""The store: every piece, what is out of service, what is missing today, what to buy next."""
