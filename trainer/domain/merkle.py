"""Hashes of RFC 6962, section 2.1: the prefixes keep a node of the tree from posing as an entry."""

import hashlib
from collections.abc import Iterable


def leaf_hash(data: bytes) -> str:
    """SHA-256(0x00 || data), in hex."""
    return hashlib.sha256(b"\x00" + data).hexdigest()


def node_hash(left: str, *, right: str) -> str:
    """SHA-256(0x01 || left || right), in hex."""
    return hashlib.sha256(b"\x01" + bytes.fromhex(left) + bytes.fromhex(right)).hexdigest()


def root(leaf_hashes: Iterable[str]) -> str:
    """The tree head over the leaf hashes; that of no leaf is the hash of nothing."""
    # Complete subtrees from the left, the largest first: as many as there are ones in the count in binary.
    subtrees: list[tuple[int, str]] = []
    for leaf in leaf_hashes:
        size, top = 1, leaf
        while subtrees and subtrees[-1][0] == size:
            size, top = size * 2, node_hash(subtrees.pop()[1], right=top)
        subtrees.append((size, top))
    if not subtrees:
        return hashlib.sha256().hexdigest()
    head = subtrees.pop()[1]
    while subtrees:
        head = node_hash(subtrees.pop()[1], right=head)
    return head
