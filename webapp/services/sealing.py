"""PINs typed on a phone without signal: sealed there so that only this shop can read them, opened and checked here.

RSA-OAEP with SHA-256 (RFC 8017, 7.1), which browsers and `cryptography` both have. The label binds what was sealed to
whom and what it was meant for. The key lies in the database, beside the hashes of the same PINs: whoever has the one
has the other.
"""

import base64
import binascii

from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import padding, rsa
from sqlalchemy.orm import Session

from webapp.errors import Refused
from webapp.storage.shop import Setting

KEY = "sealing_key"
BITS = 2048  # NIST SP 800-57 part 1, 5.6.1: enough until 2030; a PIN is changed sooner


def public_key(session: Session) -> str:
    """The key that phones seal with: SubjectPublicKeyInfo (RFC 5280) in base 64. Made at the first asking."""
    spki = _key(session).public_key().public_bytes(
        serialization.Encoding.DER, serialization.PublicFormat.SubjectPublicKeyInfo
    )
    return base64.b64encode(spki).decode()


def unsealed(session: Session, sealed: str, label: str) -> str:
    """What was sealed under this label. Raises Refused when it cannot be opened."""
    scheme = padding.OAEP(padding.MGF1(hashes.SHA256()), hashes.SHA256(), label.encode())
    try:
        return _key(session).decrypt(base64.b64decode(sealed, validate=True), scheme).decode()
    except (ValueError, binascii.Error) as error:
        raise Refused("The PIN that was given then cannot be read here.") from error


def _key(session: Session) -> rsa.RSAPrivateKey:
    kept = session.get(Setting, KEY)
    if kept is None:
        key = rsa.generate_private_key(65537, BITS)
        pem = key.private_bytes(
            serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
        )
        session.add(Setting(key=KEY, value=pem.decode()))
        session.flush()
        return key
    loaded = serialization.load_pem_private_key(kept.value.encode(), None)
    assert isinstance(loaded, rsa.RSAPrivateKey)
    return loaded
