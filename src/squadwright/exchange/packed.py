"""A text small enough for a field of a form, and back; what comes back is from anywhere."""

import base64
import binascii
import zlib

from squadwright.errors import InvalidInput

MOST_PACKED = 900_000
MOST_UNPACKED = 40_000_000


def pack(text: str, *, what: str = "The file", advice: str) -> str:
    """A text packed; InvalidInput with the advice where that is too long for a form."""
    packed = base64.b85encode(zlib.compress(text.encode(), 9)).decode()
    if len(packed) > MOST_PACKED:
        raise InvalidInput(
            what,
            f"is {len(packed) / 1e6:.1f} MB when packed, more than {MOST_PACKED / 1e6:.1f} MB",
            advice,
        )
    return packed


def unpack(packed: str, *, what: str = "The file") -> str:
    """The text that was packed; InvalidInput for anything else."""
    try:
        worker = zlib.decompressobj()
        data = worker.decompress(base64.b85decode(packed), MOST_UNPACKED)
        if not data or worker.unconsumed_tail or not worker.eof:
            raise ValueError
        return data.decode()
    except (ValueError, zlib.error, binascii.Error) as error:
        raise InvalidInput(what, "did not come back whole", "Choose it again") from error
