"""The certificates of the hall: who may be trusted with them, when they are made anew.

Checked by another program: OpenSSL, through Python's ``ssl`` (RFC 5280 for names and uses).
"""

import socket
import ssl
import stat
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from ipaddress import ip_address
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import Encoding, load_pem_private_key

from squadwright.errors import InvalidInput
from squadwright.services.hall_certificate import (
    AUTHORITY_HOLDS,
    MACHINE_HOLDS,
    RENEWED_BEFORE,
    HallCertificate,
    fingerprint_words,
    hall_certificate,
)

NOW = datetime.now(UTC).replace(microsecond=0)
ADDRESSES = ("127.0.0.2", "192.168.1.20")


@contextmanager
def answering(chain: Path, key: Path) -> Iterator[int]:
    """A server on 127.0.0.2 that shakes hands and says nothing."""
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(chain, key)
    with socket.create_server(("127.0.0.2", 0)) as listening:

        def answer() -> None:
            taken, _ = listening.accept()
            try:
                context.wrap_socket(taken, server_side=True).close()
            except (ssl.SSLError, OSError):
                taken.close()

        thread = threading.Thread(target=answer, daemon=True)
        thread.start()
        yield listening.getsockname()[1]
        thread.join(timeout=10)


def shake_hands(port: int, name: str, authority: bytes) -> None:
    """Connect as a device that trusts the authority and nothing else."""
    context = ssl.create_default_context(cadata=authority)
    context.verify_flags |= ssl.VERIFY_X509_STRICT
    with (
        socket.create_connection(("127.0.0.2", port), timeout=10) as plain,
        context.wrap_socket(plain, server_hostname=name),
    ):
        pass


def made(
    folder: Path, addresses: tuple[str, ...] = ADDRESSES, now: datetime = NOW
) -> HallCertificate:
    return hall_certificate(folder / "hall", addresses, now=now)


def test_a_device_that_trusts_the_authority_trusts_this_machine(tmp_path: Path) -> None:
    kept = made(tmp_path)
    for name in ADDRESSES:
        with answering(kept.chain_file, kept.key_file) as port:
            shake_hands(port, name, kept.authority)
    with (
        answering(kept.chain_file, kept.key_file) as port,
        pytest.raises(ssl.SSLCertVerificationError, match="IP address mismatch"),
    ):
        shake_hands(port, "192.168.1.21", kept.authority)


def test_a_device_that_trusts_another_authority_does_not(tmp_path: Path) -> None:
    kept, other = made(tmp_path / "one"), made(tmp_path / "other")
    with (
        answering(kept.chain_file, kept.key_file) as port,
        pytest.raises(ssl.SSLCertVerificationError),
    ):
        shake_hands(port, "127.0.0.2", other.authority)


@pytest.mark.parametrize(
    "name", [x509.DNSName("bank.example"), x509.IPAddress(ip_address("8.8.8.8"))]
)
def test_whoever_steals_the_authority_cannot_pretend_to_be_the_internet(
    tmp_path: Path, name: x509.GeneralName
) -> None:
    """Name constraints of RFC 5280, section 4.2.1.10, as OpenSSL reads them."""
    kept = made(tmp_path)
    stolen = load_pem_private_key((tmp_path / "hall" / "authority.key").read_bytes(), None)
    assert isinstance(stolen, ec.EllipticCurvePrivateKey)
    authority = x509.load_der_x509_certificate(kept.authority)
    machine_key = load_pem_private_key(kept.key_file.read_bytes(), None)
    assert isinstance(machine_key, ec.EllipticCurvePrivateKey)
    forged = (
        x509.CertificateBuilder()
        .subject_name(x509.Name([]))
        .issuer_name(authority.subject)
        .public_key(machine_key.public_key())
        .serial_number(7)
        .not_valid_before(NOW - timedelta(days=1))
        .not_valid_after(NOW + timedelta(days=1))
        .add_extension(x509.SubjectAlternativeName([name]), critical=True)
        .add_extension(
            x509.AuthorityKeyIdentifier.from_issuer_public_key(stolen.public_key()), critical=False
        )
        .sign(stolen, hashes.SHA256())
    )

    chain = tmp_path / "forged.crt"
    chain.write_bytes(forged.public_bytes(Encoding.PEM))
    with (
        answering(chain, kept.key_file) as port,
        pytest.raises(ssl.SSLCertVerificationError, match="permitted subtree violation"),
    ):
        shake_hands(port, str(name.value), kept.authority)


def test_it_is_kept_while_it_fits_and_made_anew_when_it_does_not(tmp_path: Path) -> None:
    first = made(tmp_path)
    chain = first.chain_file.read_bytes()
    assert made(tmp_path, tuple(reversed(ADDRESSES))).chain_file.read_bytes() == chain
    late = NOW + MACHINE_HOLDS - RENEWED_BEFORE
    assert made(tmp_path, now=late).chain_file.read_bytes() == chain
    again = made(tmp_path, now=late + timedelta(seconds=1))
    renewed = again.chain_file.read_bytes()
    assert renewed != chain
    moved = made(tmp_path, ("10.0.0.3",))
    assert moved.chain_file.read_bytes() != renewed
    # Devices trust the authority, which stays.
    assert first.authority == again.authority == moved.authority
    much_later = NOW + AUTHORITY_HOLDS - MACHINE_HOLDS
    assert made(tmp_path, now=much_later).authority != first.authority


@pytest.mark.parametrize("name", ["machine.crt", "machine.key", "authority.crt", "authority.key"])
def test_a_damaged_file_is_made_anew(tmp_path: Path, name: str) -> None:
    made(tmp_path)
    (tmp_path / "hall" / name).write_text("nonsense")
    kept = made(tmp_path)
    with answering(kept.chain_file, kept.key_file) as port:
        shake_hands(port, "127.0.0.2", kept.authority)


def test_keys_are_for_their_owner_alone(tmp_path: Path) -> None:
    made(tmp_path)
    folder = tmp_path / "hall"
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700
    files = sorted(folder.iterdir())
    assert [file.name for file in files] == [
        *("authority.crt", "authority.key", "machine.crt", "machine.key"),
    ]
    assert {stat.S_IMODE(file.stat().st_mode) for file in files} == {0o600}


def test_the_fingerprint_is_the_sha_256_that_a_device_shows(tmp_path: Path) -> None:
    kept = made(tmp_path)
    assert kept.fingerprint == fingerprint_words(sha256(kept.authority).digest())
    assert fingerprint_words(bytes([0x3A, 0x0F])) == "3A:0F"


@pytest.mark.parametrize("address", ["8.8.8.8", "172.32.0.1", "hall", "", "::1", "192.168.1"])
def test_an_address_of_the_internet_is_refused(tmp_path: Path, address: str) -> None:
    with pytest.raises(InvalidInput, match="--lan-address"):
        made(tmp_path, (address,))
    assert list(tmp_path.iterdir()) == []
