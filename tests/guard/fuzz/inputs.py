# SPDX-License-Identifier: MIT
"""Choices and numbers out of bytes, for the fuzzers in Python, and playing what they kept."""
import base64
import math
import pathlib
import struct
import sys

NUMBERS = [math.nan, math.inf, -math.inf, -0.0, 5e-324, sys.float_info.max, 1e300, 1e-300, 1e6, 2 ** 63, -2 ** 63, 2 ** 64, 2 ** 31,
           10 ** 400, -1, 3, 255, 0.5, True]


class Input:
    """The bytes, one after the other; 0 where they have ended."""

    def __init__(self, data):
        self.data, self.at = data, 0

    def byte(self):
        self.at += 1
        return self.data[self.at - 1] if self.at <= len(self.data) else 0

    def take(self, count):
        part = self.data[self.at:self.at + count]
        self.at += count
        return part + bytes(count - len(part))

    def choose(self, items):
        return items[self.byte() % len(items)]


def number(source, limits):
    usual, lower, upper = limits
    way = source.byte() % 8
    if way == 1:
        return usual * (1 + (source.byte() - 128) / 256)
    if way == 2:
        return lower + (upper - lower) * source.byte() / 255
    if way == 3:
        return struct.unpack("<d", source.take(8))[0]
    if way == 4:
        return source.choose(NUMBERS)
    return usual


def play_lists(play):
    """Plays the inputs of the lists that the command line names, one in base64 a line."""
    lines = [line for path in sys.argv[1:] for line in pathlib.Path(path).read_text().splitlines()]
    for line in lines:
        try:
            play(base64.b64decode(line))
        except BaseException:
            print(f"broken by {line}")
            raise
    print(f"{len(lines)} inputs")
    sys.exit(not lines)
