"""Open recordings and data sets that come with general packages: read, never imported.

Each file is pinned by its hash. One that is missing or altered fails the test that needs it.
"""

import hashlib
from importlib.metadata import files
from pathlib import Path


def open_data(package: str, path: str, sha256: str) -> Path:
    """Where a file of a package lies, once its hash agrees."""
    found = [entry for entry in files(package) or () if str(entry) == path]
    assert found, f"{path} is not in {package}; run `make test`, which installs it"
    where = Path(str(found[0].locate()))
    assert hashlib.sha256(where.read_bytes()).hexdigest() == sha256, f"{path} was altered"
    return where
