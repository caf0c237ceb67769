"""RFC 6962 hashes against the values that another implementation of the standard tests itself with."""

import pytest

from trainer.domain import merkle

# transparency-dev/merkle (Apache-2.0), testonly/constants.go: leaves, and the root over the first 0 to 8 of them
LEAVES = [
    bytes.fromhex(each)
    for each in (
        "",
        "00",
        "10",
        "2021",
        "3031",
        "40414243",
        "5051525354555657",
        "606162636465666768696a6b6c6d6e6f",
    )
]
ROOTS = [
    "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
    "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
    "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125",
    "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77",
    "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
    "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4",
    "76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef",
    "ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c",
    "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328",
]


@pytest.mark.parametrize("size", range(9))
def test_root_over_the_first_leaves_is_the_published_one(size: int) -> None:
    assert merkle.root(merkle.leaf_hash(leaf) for leaf in LEAVES[:size]) == ROOTS[size]


def test_leaf_hash_is_the_published_one() -> None:
    # transparency-dev/merkle, rfc6962/rfc6962_test.go: the leaf "L123456"
    expected = "395aa064aa4c29f7010acfe3f25db9485bbd4b91897b6ad7ad547639252b4d56"
    assert merkle.leaf_hash(b"L123456") == expected


@pytest.mark.parametrize("size", [1, 2, 3, 7, 64, 100, 257])
def test_root_is_that_of_another_library(size: int) -> None:
    """Independent library: pymerkle 7."""
    from pymerkle import InmemoryTree

    tree = InmemoryTree(algorithm="sha256")
    data = [f"entry {number}".encode() for number in range(size)]
    for each in data:
        tree.append_entry(each)
    assert merkle.root(merkle.leaf_hash(each) for each in data) == tree.get_root().hex()


def test_a_node_cannot_pose_as_a_leaf() -> None:
    left, right = merkle.leaf_hash(b"a"), merkle.leaf_hash(b"b")
    assert merkle.leaf_hash(bytes.fromhex(left + right)) != merkle.node_hash(left, right=right)
