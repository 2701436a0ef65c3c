"""The shop's own certificate authority and the certificate of this computer, for https on the shop's network.

Fields follow RFC 5280 and what phone makers ask of a server certificate: EC P-256 with SHA-256, names in
SubjectAltName, serverAuth, at most 825 days (Apple, 'Requirements for trusted certificates in iOS 13 and macOS 10.15').
The authority may only vouch for names of a local network and for private addresses: a stolen key forges no bank.
"""

import ipaddress
import os
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

from cryptography import x509
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

AUTHORITY_DAYS = 3652
LEAF_DAYS = 397
RENEW_DAYS = 30
#: Names and addresses that only mean something inside one network (RFC 6761, RFC 6762, RFC 1918, RFC 4193, RFC 8375).
LOCAL_NAMES = ("local", "lan", "internal", "home.arpa", "localhost")
PRIVATE_NETWORKS = ("10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "127.0.0.0/8", "fc00::/7", "::1/128")


@dataclass(frozen=True, slots=True)
class Held:
    """Where the material lies. left_out: hosts that the authority may not vouch for."""

    authority: Path
    certificate: Path
    key: Path
    left_out: tuple[str, ...] = ()

    @property
    def authority_der(self) -> bytes:
        """The authority's certificate as phones take it in."""
        return _read(self.authority).public_bytes(serialization.Encoding.DER)

    @property
    def fingerprint(self) -> str:
        """SHA-256 of the authority's certificate, in pairs."""
        return _read(self.authority).fingerprint(hashes.SHA256()).hex(":").upper()

    @property
    def ends_at(self) -> datetime:
        """When the certificate of this computer runs out."""
        return _read(self.certificate).not_valid_after_utc

    @property
    def authority_ends_at(self) -> datetime:
        """When the authority runs out; phones must take in another one then."""
        return _read(self.authority).not_valid_after_utc

    @property
    def names(self) -> list[str]:
        """The names and addresses that the certificate of this computer is good for."""
        return names_of(_read(self.certificate))

    @property
    def belongs_together(self) -> bool:
        """Whether the authority signed the certificate and the key is the certificate's."""
        return _belong_together(_read(self.certificate), self.key, _read(self.authority))


def held_in(folder: Path, hosts: Iterable[str]) -> Held | None:
    """What lies in the folder, unchanged; None where something of it is missing."""
    held = Held(folder / "authority.pem", folder / "this-computer.pem", folder / "this-computer.key")
    if not all(path.exists() for path in (held.authority, held.certificate, held.key, folder / "authority.key")):
        return None
    authority = _read(held.authority)
    return replace(held, left_out=tuple(sorted(host for host in hosts if not _may_vouch(authority, host))))


def hold(folder: Path, hosts: Iterable[str], now: datetime | None = None) -> Held:
    """Make what is missing in `folder`; renew the certificate when it runs out soon or the hosts have changed.

    hosts: names and addresses under which this computer is reached. Phones need nothing new when it is renewed.
    """
    now = now or datetime.now(UTC)
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    wanted = sorted({host.lower().rstrip(".") for host in hosts if host} | {"localhost", "127.0.0.1"})
    authority_path, authority_key_path = folder / "authority.pem", folder / "authority.key"
    if not (authority_path.exists() and authority_key_path.exists()):
        key = _new_key(authority_key_path)
        _write(authority_path, _authority(key, wanted, now))
    authority = _read(authority_path)
    names = [host for host in wanted if _may_vouch(authority, host)]
    left_out = tuple(sorted(set(wanted) - set(names)))
    held = Held(authority_path, folder / "this-computer.pem", folder / "this-computer.key", left_out)
    if not _still_good(held, authority, names, now):
        key = _new_key(held.key)
        _write(held.certificate, _leaf(key.public_key(), names, authority, _read_key(authority_key_path), now))
    return held


def names_of(certificate: x509.Certificate) -> list[str]:
    """The names and addresses in a certificate, sorted."""
    names = certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    addresses = [str(address) for address in names.get_values_for_type(x509.IPAddress)]
    return sorted([*names.get_values_for_type(x509.DNSName), *addresses])


def _authority(key: ec.EllipticCurvePrivateKey, hosts: list[str], now: datetime) -> x509.Certificate:
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "Rackside in this shop")])
    others = [host for host in hosts if not _is_address(host) and not _is_local(host)]
    permitted: list[x509.GeneralName] = [x509.DNSName(host) for host in (*LOCAL_NAMES, *others)]
    permitted += [x509.IPAddress(ipaddress.ip_network(network)) for network in PRIVATE_NETWORKS]
    permitted += [
        x509.IPAddress(ipaddress.ip_network(host)) for host in hosts if _is_address(host) and not _is_private(host)
    ]
    return (
        _begun(name, name, key.public_key(), now, AUTHORITY_DAYS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_usage(key_cert_sign=True, crl_sign=True), critical=True)
        .add_extension(x509.NameConstraints(permitted_subtrees=permitted, excluded_subtrees=None), critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .sign(key, hashes.SHA256())
    )


def _leaf(
    public_key: ec.EllipticCurvePublicKey,
    hosts: list[str],
    authority: x509.Certificate,
    authority_key: ec.EllipticCurvePrivateKey,
    now: datetime,
) -> x509.Certificate:
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, hosts[0][:64])])
    names = [x509.IPAddress(ipaddress.ip_address(h)) if _is_address(h) else x509.DNSName(h) for h in hosts]
    key_id = authority.extensions.get_extension_for_class(x509.SubjectKeyIdentifier).value
    days = min(LEAF_DAYS, (authority.not_valid_after_utc - now).days)
    return (
        _begun(name, authority.subject, public_key, now, days)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(digital_signature=True), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectAlternativeName(names), critical=False)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(public_key), critical=False)
        .add_extension(x509.AuthorityKeyIdentifier.from_issuer_subject_key_identifier(key_id), critical=False)
        .sign(authority_key, hashes.SHA256())
    )


def _begun(
    subject: x509.Name, issuer: x509.Name, key: ec.EllipticCurvePublicKey, now: datetime, days: int
) -> x509.CertificateBuilder:
    # A day in the past: a phone whose clock is a little behind must not refuse it. Lifetimes count from there.
    start = now - timedelta(days=1)
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key)
        .serial_number(x509.random_serial_number())
        .not_valid_before(start)
        .not_valid_after(start + timedelta(days=days))
    )


def _usage(**given: bool) -> x509.KeyUsage:
    names = (
        "digital_signature", "content_commitment", "key_encipherment", "data_encipherment", "key_agreement",
        "key_cert_sign", "crl_sign", "encipher_only", "decipher_only",
    )  # fmt: skip
    return x509.KeyUsage(**{name: given.get(name, False) for name in names})


def _still_good(held: Held, authority: x509.Certificate, names: list[str], now: datetime) -> bool:
    if not (held.certificate.exists() and held.key.exists()):
        return False
    leaf = _read(held.certificate)
    together = _belong_together(leaf, held.key, authority)
    return together and names_of(leaf) == names and leaf.not_valid_after_utc - now > timedelta(days=RENEW_DAYS)


def _belong_together(leaf: x509.Certificate, key: Path, authority: x509.Certificate) -> bool:
    try:
        leaf.verify_directly_issued_by(authority)
    except (ValueError, TypeError, InvalidSignature):
        return False
    return _read_key(key).public_key() == leaf.public_key()


def _may_vouch(authority: x509.Certificate, host: str) -> bool:
    permitted = authority.extensions.get_extension_for_class(x509.NameConstraints).value.permitted_subtrees or []
    if _is_address(host):
        address = ipaddress.ip_address(host)
        return any(address in tree.value for tree in permitted if isinstance(tree, x509.IPAddress))
    trees = [tree.value for tree in permitted if isinstance(tree, x509.DNSName)]
    return any(host == tree or host.endswith(f".{tree}") for tree in trees)


def _is_local(host: str) -> bool:
    return host.split(".")[-1] in LOCAL_NAMES or host.endswith("home.arpa")


def _is_address(host: str) -> bool:
    try:
        ipaddress.ip_address(host)
    except ValueError:
        return False
    return True


def _is_private(host: str) -> bool:
    address = ipaddress.ip_address(host)
    return any(address in ipaddress.ip_network(network) for network in PRIVATE_NETWORKS)


def _new_key(path: Path) -> ec.EllipticCurvePrivateKey:
    """A fresh key, readable by its owner only from the first byte on."""
    key = ec.generate_private_key(ec.SECP256R1())
    text = key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )
    path.unlink(missing_ok=True)
    with os.fdopen(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as file:
        file.write(text)
    return key


def _read_key(path: Path) -> ec.EllipticCurvePrivateKey:
    key = serialization.load_pem_private_key(path.read_bytes(), None)
    if not isinstance(key, ec.EllipticCurvePrivateKey):
        raise ValueError(f"{path} holds no key of an elliptic curve")
    return key


def _read(path: Path) -> x509.Certificate:
    return x509.load_pem_x509_certificate(path.read_bytes())


def _write(path: Path, certificate: x509.Certificate) -> None:
    path.write_bytes(certificate.public_bytes(serialization.Encoding.PEM))
