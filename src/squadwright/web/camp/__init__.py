"""The camp: phases and rounds of every athlete, planned back from his events."""
