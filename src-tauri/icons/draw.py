#!/usr/bin/env python3
"""Draws icon.png: a wall cut through, three laths seen end-on and the plaster that has keyed behind them.

Our own drawing; needs nothing but Python. Usage: python3 draw.py > icon.png
"""
import struct
import sys
import zlib

SIZE = 512
OVER = 3  # samples each way per pixel
PAPER, INK, PLASTER, LATH, MARK = (245, 239, 225), (34, 29, 23), (233, 224, 205), (252, 249, 240), (75, 35, 148)

# In pixels. Three laths seen end-on, and the two gaps where the plaster went through and slumped down behind.
COAT = (64, 0, 176, SIZE)
LATHS = [(176, top, 248, top + 112) for top in (40, 200, 360)]
GAPS = [176, 336]
EDGE = 12


def within(x, y, box, by=0):
    left, top, right, bottom = box
    return left + by <= x < right - by and top + by <= y < bottom - by


def rounded(x, y, corner):
    dx = max(corner - x, 0, x - (SIZE - corner))
    dy = max(corner - y, 0, y - (SIZE - corner))
    return dx * dx + dy * dy <= corner * corner


def key(x, y):
    """A key of plaster: through the gap, then a drop that hangs lower than the gap."""
    for gap in GAPS:
        if 176 <= x < 270 and abs(y - gap) <= 24:
            return True
        if ((x - 282) / 88) ** 2 + ((y - gap - 22) / 68) ** 2 <= 1:
            return True
    return False


def colour(x, y):
    if not rounded(x, y, 80):
        return None
    for box in LATHS:
        if within(x, y, box):
            hatched = (x + y) % 32 < 8
            return LATH if within(x, y, box, EDGE) and not hatched else INK
    if within(x, y, COAT):
        return INK if x < COAT[0] + EDGE else PLASTER
    if key(x, y):
        return MARK
    return PAPER


def rows():
    for py in range(SIZE):
        row = bytearray([0])
        for px in range(SIZE):
            seen, total = 0, [0, 0, 0]
            for sy in range(OVER):
                for sx in range(OVER):
                    one = colour(px + (sx + 0.5) / OVER, py + (sy + 0.5) / OVER)
                    if one:
                        seen += 1
                        total = [a + b for a, b in zip(total, one)]
            row += bytes([round(c / seen) for c in total] if seen else [0, 0, 0])
            row.append(round(255 * seen / OVER**2))
        yield bytes(row)


def chunk(kind, data):
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


png = b"\x89PNG\r\n\x1a\n"
png += chunk(b"IHDR", struct.pack(">IIBBBBB", SIZE, SIZE, 8, 6, 0, 0, 0))
png += chunk(b"IDAT", zlib.compress(b"".join(rows()), 9))
png += chunk(b"IEND", b"")
sys.stdout.buffer.write(png)
