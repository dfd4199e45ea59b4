"""The certificates of the hall's network, made on this machine and kept in the user's data folder.

An authority of our own signs the certificate of this machine. A device trusts the authority once.
It may speak for private addresses of a network only: whoever steals its key cannot pretend to be
any address of the internet.
"""

import os
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime, timedelta
from ipaddress import IPv4Address, IPv4Network, ip_address
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from squadwright.errors import InvalidInput

# RFC 1918, RFC 6598 and RFC 3927: networks of one's own, and this machine itself (RFC 1122).
PRIVATE = tuple(
    IPv4Network(each)
    for each in (
        *("10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16"),
        *("100.64.0.0/10", "169.254.0.0/16", "127.0.0.0/8"),
    )
)
AUTHORITY_NAME = "Squadwright hall"
AUTHORITY_HOLDS = timedelta(days=5 * 365)
# Some systems refuse a certificate for more than 825 days, others for more than 398.
MACHINE_HOLDS = timedelta(days=180)
RENEWED_BEFORE = timedelta(days=30)
CLOCKS_DIFFER = timedelta(days=1)


@dataclass(frozen=True)
class HallCertificate:
    """Files for the server, and what devices take in: the authority in DER and its fingerprint."""

    chain_file: Path
    key_file: Path
    authority: bytes
    fingerprint: str


def hall_certificate(folder: Path, addresses: Sequence[str], *, now: datetime) -> HallCertificate:
    """The certificate of this machine for its addresses, made anew where the kept one does not fit.

    The authority is kept as long as it holds, so that devices go on trusting this machine when its
    addresses change.
    """
    wanted = tuple(private_address(address) for address in addresses)
    if not wanted:
        raise InvalidInput("--lan", "no address of a network is known", "Join a network first")
    folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    authority_key, authority = _authority(folder, now)
    files = folder / "machine.crt", folder / "machine.key"
    if not _fits(files, wanted, authority, now):
        _make_machine(files, wanted, authority_key, authority, now)
    return HallCertificate(
        *files,
        authority.public_bytes(serialization.Encoding.DER),
        fingerprint_words(authority.fingerprint(hashes.SHA256())),
    )


def private_address(address: str) -> IPv4Address:
    """An address of a network of one's own; anything else is refused."""
    try:
        read = ip_address(address)
    except ValueError as error:
        raise InvalidInput(
            "--lan-address", f"{address!r} is not an address", "Write it like 192.168.1.20"
        ) from error
    if not isinstance(read, IPv4Address) or not any(read in network for network in PRIVATE):
        raise InvalidInput(
            "--lan-address",
            f"{address} is not a private IPv4 address",
            "Use the network of the hall; this site is not meant for the internet",
        )
    return read


def fingerprint_words(digest: bytes) -> str:
    """A fingerprint as systems show it: "3A:0F:…"."""
    return digest.hex(":").upper()


def _authority(folder: Path, now: datetime) -> tuple[ec.EllipticCurvePrivateKey, x509.Certificate]:
    files = folder / "authority.crt", folder / "authority.key"
    kept = _read(files)
    if kept is not None and kept[1].not_valid_after_utc - now > MACHINE_HOLDS:
        return kept
    key = ec.generate_private_key(ec.SECP256R1())
    name = _name(AUTHORITY_NAME)
    made = (
        _builder(name, name, key, now, AUTHORITY_HOLDS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_uses(signs_certificates=True), critical=True)
        .add_extension(
            x509.NameConstraints(
                permitted_subtrees=[
                    *(x509.IPAddress(network) for network in PRIVATE),
                    # Names are not used; without one that is allowed all would be.
                    x509.DNSName("squadwright.internal"),
                ],
                excluded_subtrees=None,
            ),
            critical=True,
        )
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .sign(key, hashes.SHA256())
    )
    _write(files, key, made)
    return key, made


def _make_machine(
    files: tuple[Path, Path],
    addresses: Sequence[IPv4Address],
    authority_key: ec.EllipticCurvePrivateKey,
    authority: x509.Certificate,
    now: datetime,
) -> None:
    key = ec.generate_private_key(ec.SECP256R1())
    names = x509.SubjectAlternativeName([x509.IPAddress(address) for address in addresses])
    made = (
        _builder(
            _name(f"{AUTHORITY_NAME}, this machine"), authority.subject, key, now, MACHINE_HOLDS
        )
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_uses(signs_certificates=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(names, critical=False)
        .add_extension(
            x509.AuthorityKeyIdentifier.from_issuer_public_key(authority_key.public_key()),
            critical=False,
        )
        .sign(authority_key, hashes.SHA256())
    )
    _write(files, key, made, authority)


def _builder(
    name: x509.Name,
    issuer: x509.Name,
    key: ec.EllipticCurvePrivateKey,
    now: datetime,
    holds: timedelta,
) -> x509.CertificateBuilder:
    return (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(issuer)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - CLOCKS_DIFFER)
        .not_valid_after(now + holds)
    )


def _fits(
    files: tuple[Path, Path],
    addresses: Sequence[IPv4Address],
    authority: x509.Certificate,
    now: datetime,
) -> bool:
    kept = _read(files)
    if kept is None or kept[1].not_valid_after_utc - now < RENEWED_BEFORE:
        return False
    try:
        kept[1].verify_directly_issued_by(authority)
        names = kept[1].extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    except Exception:
        return False
    return set(names.get_values_for_type(x509.IPAddress)) == set(addresses)


def _read(
    files: tuple[Path, Path],
) -> tuple[ec.EllipticCurvePrivateKey, x509.Certificate] | None:
    """A key and its certificate; None where one is missing, damaged, or not the other's."""
    try:
        made = x509.load_pem_x509_certificates(files[0].read_bytes())[0]
        key = serialization.load_pem_private_key(files[1].read_bytes(), password=None)
    except (OSError, ValueError, IndexError):
        return None
    if not isinstance(key, ec.EllipticCurvePrivateKey) or key.public_key() != made.public_key():
        return None
    return key, made


def _write(
    files: tuple[Path, Path],
    key: ec.EllipticCurvePrivateKey,
    *certificates: x509.Certificate,
) -> None:
    pem = serialization.Encoding.PEM
    secret = key.private_bytes(pem, serialization.PrivateFormat.PKCS8, serialization.NoEncryption())
    for file, content in (
        (files[1], secret),
        (files[0], b"".join(each.public_bytes(pem) for each in certificates)),
    ):
        draft = file.with_suffix(f"{file.suffix}.new")
        with suppress(FileNotFoundError):
            draft.unlink()
        with os.fdopen(os.open(draft, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600), "wb") as out:
            out.write(content)
        os.replace(draft, file)


def _uses(*, signs_certificates: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not signs_certificates,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        key_cert_sign=signs_certificates,
        crl_sign=signs_certificates,
        encipher_only=False,
        decipher_only=False,
    )


def _name(words: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, words)])
