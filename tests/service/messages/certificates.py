"""A throw-away authority and a broker's certificate by it, for 127.0.0.1 or another address."""

import datetime
import ipaddress
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import NameOID

HOUR = datetime.timedelta(hours=1)


def _named(name: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, name)])


def _built(subject, issuer, key) -> x509.CertificateBuilder:
    now = datetime.datetime.now(datetime.UTC)
    made = x509.CertificateBuilder().subject_name(_named(subject)).issuer_name(_named(issuer))
    made = made.public_key(key.public_key()).serial_number(x509.random_serial_number())
    return made.not_valid_before(now - HOUR).not_valid_after(now + HOUR)


def authority(folder: Path, name: str, address: str = "127.0.0.1") -> tuple[Path, Path, Path]:
    """Its own certificate, and the broker's with its key, as files."""
    root, of_broker = (ec.generate_private_key(ec.SECP256R1()) for _ in range(2))
    signs = x509.KeyUsage(
        digital_signature=True, content_commitment=False, key_encipherment=False,
        data_encipherment=False, key_agreement=False, key_cert_sign=True, crl_sign=True,
        encipher_only=False, decipher_only=False,
    )  # fmt: skip
    ca = _built(name, name, root).add_extension(x509.BasicConstraints(True, None), critical=True)
    identifier = x509.SubjectKeyIdentifier.from_public_key(root.public_key())
    ca = ca.add_extension(signs, critical=True).add_extension(identifier, critical=False)
    own = x509.SubjectAlternativeName([x509.IPAddress(ipaddress.ip_address(address))])
    by = x509.AuthorityKeyIdentifier.from_issuer_public_key(root.public_key())
    broker = _built("broker", name, of_broker).add_extension(own, critical=False)
    broker = broker.add_extension(by, critical=False)
    none = serialization.NoEncryption()
    pem, form = serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8
    files = {
        f"{name}-ca.pem": ca.sign(root, hashes.SHA256()).public_bytes(pem),
        f"{name}.pem": broker.sign(root, hashes.SHA256()).public_bytes(pem),
        f"{name}.key": of_broker.private_bytes(pem, form, none),
    }
    for file, content in files.items():
        (folder / file).write_bytes(content)
    first, second, third = (folder / file for file in files)
    return first, second, third
