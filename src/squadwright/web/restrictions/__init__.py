"""Restrictions and swaps: what an athlete must not do, by whose word, and what he does instead."""
