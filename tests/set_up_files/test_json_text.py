"""JSON text that a set-up never needs is refused with one plain line."""

import pytest

from trainer.set_up_files import LARGEST_BYTES, SetUpFaults, read_json


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "line 1, column 1: this is not JSON"),
        (b"{", "line 1, column 2: this is not JSON"),
        (b'{"wait": "6 min",}', "this is not JSON"),
        (b'{"wait": "6 min", "wait": "7 min"}', "the key 'wait' stands twice"),
        (b'{"vent": {"height": 1, "height": 1}}', "the key 'height' stands twice"),
        (b'{"vent": {"height": NaN}}', "NaN is not a number"),
        (b'{"vent": {"height": -Infinity}}', "-Infinity is not a number"),
        (b"\xff\xfe{}", "not UTF-8: byte 0"),
        (b"[" * 200_000, "nested too deeply"),
        (b'{"a":' * 100_000 + b"1" + b"}" * 100_000, "nested too deeply"),
        (b'{"vent": {"count": 1' + b"0" * 5000 + b"}}", "thousands of digits"),
        (b" " * (LARGEST_BYTES + 1), "accepted up to 1000000"),
    ],
    ids=lambda value: repr(value[:24]),
)
def test_bad_text_is_refused_in_one_line(data, says):
    with pytest.raises(SetUpFaults) as caught:
        read_json(data)
    (fault,) = caught.value.faults
    assert says in fault.line
    assert "\n" not in fault.line


def test_a_byte_order_mark_is_taken_for_what_it_is():
    assert read_json(b'\xef\xbb\xbf{"wait": "6 min"}') == {"wait": "6 min"}
