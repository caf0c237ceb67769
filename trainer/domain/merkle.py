"""Hashes of RFC 6962, section 2.1: the prefixes keep a node of the tree from posing as an entry."""

import hashlib
from collections.abc import Iterable, Sequence


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


def inclusion_proof(leaf_hashes: Sequence[str], *, position: int) -> tuple[str, ...]:
    """The audit path from one leaf up to the root; IndexError outside the tree."""
    if not 0 <= position < len(leaf_hashes):
        raise IndexError(f"leaf {position} of a tree of {len(leaf_hashes)}")
    if len(leaf_hashes) == 1:
        return ()
    split = _largest_power_below(len(leaf_hashes))
    left, right = leaf_hashes[:split], leaf_hashes[split:]
    if position < split:
        return (*inclusion_proof(left, position=position), root(right))
    return (*inclusion_proof(right, position=position - split), root(left))


def _largest_power_below(count: int) -> int:
    return 1 << (count - 1).bit_length() - 1
