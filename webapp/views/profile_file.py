"""A configuration profile that hands the shop's authority to an iPhone (Apple, 'Configuration Profile Reference')."""

import plistlib
import uuid

CONTENT_TYPE = "application/x-apple-aspen-config"
_NAMES = uuid.UUID("6d1f2c1e-6f0a-5d0e-9a4c-2f4a1c7b9e10")


def apple_profile(authority_der: bytes) -> bytes:
    """The profile; the same authority gives the same one, so that installing it again replaces it."""
    seed = authority_der.hex()
    inner = {
        "PayloadType": "com.apple.security.root",
        "PayloadVersion": 1,
        "PayloadIdentifier": "rackside.authority.certificate",
        "PayloadUUID": str(uuid.uuid5(_NAMES, f"certificate {seed}")).upper(),
        "PayloadDisplayName": "Rackside in this shop",
        "PayloadContent": authority_der,
    }
    return plistlib.dumps(
        {
            "PayloadType": "Configuration",
            "PayloadVersion": 1,
            "PayloadIdentifier": "rackside.authority",
            "PayloadUUID": str(uuid.uuid5(_NAMES, f"profile {seed}")).upper(),
            "PayloadDisplayName": "Rackside in this shop",
            "PayloadDescription": "Lets this phone trust the shop's own computer, and nothing else.",
            "PayloadContent": [inner],
        }
    )
