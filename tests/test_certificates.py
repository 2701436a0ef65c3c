"""The shop's authority, against RFC 5280 and the phone makers' published rules; OpenSSL verifies the chain."""

import ipaddress
import socket
import ssl
import stat
import threading
from datetime import UTC, datetime, timedelta

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import ec

from webapp import certificates
from webapp.certificates import hold, names_of

HOSTS = ("SHOP.LOCAL", "192.168.1.20", "localhost", "127.0.0.1")
NOW = datetime.now(UTC)


def read(path):
    return x509.load_pem_x509_certificate(path.read_bytes())


def extension(certificate, kind):
    return certificate.extensions.get_extension_for_class(kind)


def test_the_authority_has_the_fields_that_installers_ask_for(tmp_path):
    """RFC 5280, 4.2.1.3, 4.2.1.9, 4.2.1.10: an authority says so critically, signs, and names what it may vouch for."""
    authority = read(hold(tmp_path, HOSTS, NOW).authority)
    basic = extension(authority, x509.BasicConstraints)
    assert (basic.critical, basic.value.ca, basic.value.path_length) == (True, True, 0)
    usage = extension(authority, x509.KeyUsage)
    assert usage.critical and usage.value.key_cert_sign and not usage.value.digital_signature
    constraints = extension(authority, x509.NameConstraints)
    assert constraints.critical
    assert x509.DNSName("local") in constraints.value.permitted_subtrees
    assert authority.issuer == authority.subject
    assert authority.not_valid_after_utc - authority.not_valid_before_utc == timedelta(days=3652)


def test_the_certificate_keeps_to_the_phone_makers_rules(tmp_path):
    """Apple's requirements of 2019: names in SubjectAltName, serverAuth, SHA-2, at most 825 days; ours 397."""
    leaf = read(hold(tmp_path, HOSTS, NOW).certificate)
    assert isinstance(leaf.public_key(), ec.EllipticCurvePublicKey) and leaf.public_key().curve.name == "secp256r1"
    assert leaf.signature_hash_algorithm.name == "sha256"
    assert names_of(leaf) == sorted(host.lower() for host in HOSTS)
    assert x509.oid.ExtendedKeyUsageOID.SERVER_AUTH in extension(leaf, x509.ExtendedKeyUsage).value
    assert extension(leaf, x509.BasicConstraints).value.ca is False
    assert leaf.not_valid_after_utc - leaf.not_valid_before_utc == timedelta(days=397)
    assert leaf.not_valid_before_utc < NOW


def test_only_the_owner_reads_the_keys(tmp_path):
    hold(tmp_path / "made", HOSTS, NOW)
    keys = list((tmp_path / "made").glob("*.key"))
    assert len(keys) == 2
    assert {stat.S_IMODE(key.stat().st_mode) for key in keys} == {0o600}
    assert stat.S_IMODE((tmp_path / "made").stat().st_mode) == 0o700


def test_it_is_kept_while_it_is_good_and_renewed_when_not(tmp_path):
    first = hold(tmp_path, HOSTS, NOW)
    before, authority = first.certificate.read_bytes(), first.authority.read_bytes()
    assert hold(tmp_path, HOSTS, NOW + timedelta(days=300)).certificate.read_bytes() == before
    later = hold(tmp_path, HOSTS, NOW + timedelta(days=397 - 30))
    assert later.certificate.read_bytes() != before
    moved = hold(tmp_path, ("SHOP.LOCAL", "192.168.1.77"), NOW)
    assert "192.168.1.77" in names_of(read(moved.certificate))
    assert "192.168.1.20" not in names_of(read(moved.certificate))
    assert moved.authority.read_bytes() == authority


def test_a_key_that_does_not_belong_is_replaced(tmp_path):
    held = hold(tmp_path, HOSTS, NOW)
    other = hold(tmp_path / "other", HOSTS, NOW)
    held.key.write_bytes(other.key.read_bytes())
    again = hold(tmp_path, HOSTS, NOW)
    assert shake_hands(again, "shop.local") == "TLSv1.3"
    held.certificate.write_bytes(other.certificate.read_bytes())
    assert shake_hands(hold(tmp_path, HOSTS, NOW), "shop.local") == "TLSv1.3"


def test_a_name_that_the_authority_may_not_vouch_for_is_left_out_and_told(tmp_path):
    hold(tmp_path, HOSTS, NOW)
    held = hold(tmp_path, (*HOSTS, "bank.example", "203.0.113.9"), NOW)
    assert sorted(held.left_out) == ["203.0.113.9", "bank.example"]
    assert names_of(read(held.certificate)) == sorted(host.lower() for host in HOSTS)


def test_a_name_of_the_shop_outside_local_networks_is_allowed_when_the_authority_is_made(tmp_path):
    held = hold(tmp_path, ("frags.example", "203.0.113.9"), NOW)
    assert held.left_out == ()
    constraints = extension(read(held.authority), x509.NameConstraints).value.permitted_subtrees
    assert x509.IPAddress(ipaddress.ip_network("203.0.113.9/32")) in constraints


def shake_hands(held, name):
    """A TLS handshake over a socket pair; returns the version, raises ssl.SSLCertVerificationError when refused."""
    server = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    server.load_cert_chain(held.certificate, held.key)
    client = ssl.create_default_context(cafile=str(held.authority))
    here, there = socket.socketpair()

    def answer():
        try:
            with server.wrap_socket(there, server_side=True):
                pass
        except (ssl.SSLError, OSError):
            pass

    thread = threading.Thread(target=answer)
    thread.start()
    try:
        with client.wrap_socket(here, server_hostname=name) as secured:
            return secured.version()
    finally:
        here.close()
        thread.join(5)
        there.close()


@pytest.mark.parametrize("name", ["shop.local", "192.168.1.20", "localhost"])
def test_openssl_accepts_the_chain_for_our_names(tmp_path, name):
    assert shake_hands(hold(tmp_path, HOSTS, NOW), name) == "TLSv1.3"


def test_openssl_refuses_another_name(tmp_path):
    with pytest.raises(ssl.SSLCertVerificationError, match="mismatch"):
        shake_hands(hold(tmp_path, HOSTS, NOW), "bank.example")


def test_openssl_refuses_a_certificate_that_a_thief_makes_with_the_authoritys_key(tmp_path):
    """RFC 5280, 4.2.1.10: a name outside the permitted subtrees invalidates the chain."""
    held = hold(tmp_path, HOSTS, NOW)
    key = certificates._new_key(held.key)
    authority_key = certificates._read_key(tmp_path / "authority.key")
    forged = certificates._leaf(key.public_key(), ["bank.example"], read(held.authority), authority_key, NOW)
    held.certificate.write_bytes(forged.public_bytes(certificates.serialization.Encoding.PEM))
    with pytest.raises(ssl.SSLCertVerificationError, match="permitted subtree"):
        shake_hands(held, "bank.example")
