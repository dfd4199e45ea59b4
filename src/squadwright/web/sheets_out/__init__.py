"""Sheets for others: head coach, assistant, athlete, parent, medical staff; each sees his own."""
