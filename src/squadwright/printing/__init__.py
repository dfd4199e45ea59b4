"""Printed sheets: one module and one Typst template per document."""
