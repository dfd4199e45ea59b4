"""Files that go in and out: the club file and its schema."""
