"""Surfaces and small parts shared by the scenes: wood, plaster, metal, pipes, tape, plates.

Everything is drawn from seeded noise and plain letters; no picture of anything real is used.
"""

from __future__ import annotations

import numpy as np
from PIL import Image, ImageDraw, ImageFont

from .tracer import Ball, Box, Cyl, Mat, Sheet, lin, noise


def _tint(color, amount):
    return lin(color)[None, :] * np.clip(1 + amount, 0.05, 1.9)[:, None]


def mix(a, b, k):
    """Blends two linear colors (n, 3) by k in 0..1."""
    k = np.clip(k, 0, 1)[:, None]
    return a * (1 - k) + b * k


def smooth(x, lo, hi):
    """Soft step from 0 at lo to 1 at hi."""
    t = np.clip((x - lo) / (hi - lo), 0, 1)
    return t * t * (3 - 2 * t)


def plain(color, depth=0.08, scale=20, seed=1, spec=0.0, gloss=30):
    """Paint or plastic with a faint unevenness."""
    return Mat(color, spec, gloss, lambda u, v, q, f: _tint(color, depth * noise(u, v, scale, seed)))


def wood(color, along="u", seed=2, grain=0.22, spec=0.03):
    """Sawn or varnished wood, grain along u or v of each face."""

    def tex(u, v, q, f):
        a, b = (u, v) if along == "u" else (v, u)
        rings = noise(a * 0.07, b, 5, seed, 0.9) + 0.5 * noise(a * 0.2, b * 3, 7, seed + 1, 0.8)
        return _tint(color, grain * rings)

    return Mat(color, spec, 18, tex)


def lumber(color=(176, 142, 98), axis=0, seed=4, grain=0.2):
    """Framing lumber; `axis` is the box axis the grain follows."""

    def tex(u, v, q, f):
        a = q[:, axis]
        b = q[:, (axis + 1) % 3] + 1.7 * q[:, (axis + 2) % 3]
        return _tint(color, grain * (noise(a * 0.05, b, 4, seed, 0.9) + 0.4 * noise(a * 0.3, b * 2, 6, seed + 1, 0.8)))

    return Mat(color, 0.02, 15, tex)


def metal(color, spec=0.55, gloss=45, seed=5, depth=0.12, spots=None, share=0.5, scale=5):
    """Metal; `spots` is a second color (rust, green) in blotches."""

    def tex(u, v, q, f):
        c = _tint(color, depth * noise(u, v, scale * 2, seed))
        if spots is not None:
            k = smooth(noise(u, v, scale, seed + 9, 1.3), share, share + 0.35)
            c = mix(c, _tint(spots, 0.25 * noise(u, v, 3, seed + 3)), k)
        return c

    return Mat(color, spec, gloss, tex)


def rough(color, depth=0.2, scale=6, bump=0.35, seed=6, speck=None):
    """Concrete, plaster or sprayed texture with a bumpy face."""

    def tex(u, v, q, f):
        n0 = noise(u, v, scale, seed, 1.1)
        c = _tint(color, depth * (0.6 * n0 + 0.6 * noise(u, v, scale * 9, seed + 1)))
        if speck is not None:
            c = mix(c, lin(speck)[None, :], smooth(noise(u, v, scale * 0.5, seed + 2, 0.8), 0.55, 0.8))
        e = 0.12
        gx = noise(u + e, v, scale, seed, 1.1) - n0
        gy = noise(u, v + e, scale, seed, 1.1) - n0
        z = np.zeros_like(gx)
        return c, -bump * np.stack([gx, z + gy * 0.5, gy], 1).astype(np.float32)

    return Mat(color, 0.0, 10, tex)


def boards(color, width=3.5, across="v", seed=8, gap=0.05):
    """Boards or planks side by side; `across` is the texture axis that crosses them."""

    def tex(u, v, q, f):
        a, b = (u, v) if across == "v" else (v, u)
        k = np.floor(b / width)
        shade = 0.16 * np.sin(k * 12.9898 + seed)
        r = b / width - k
        line = np.clip(1 - np.minimum(r, 1 - r) * width / gap / 2, 0, 1)
        c = _tint(color, shade + 0.2 * noise(a * 0.06 + k * 3.7, b, 4, seed, 0.9))
        return mix(c, lin((30, 22, 16))[None, :], line * 0.85)

    return Mat(color, 0.03, 18, tex)


def tiles(color, size=12.0, grout=(150, 146, 138), joint=0.25, seed=9, dark=0.0, spec=0.15, fleck=0.1):
    """Square tiles with joints; `dark` 0..1 blackens the joints in patches."""

    def tex(u, v, q, f):
        a, b = u / size, v / size
        ka, kb = np.floor(a), np.floor(b)
        ra, rb = a - ka, b - kb
        edge = np.minimum(np.minimum(ra, 1 - ra), np.minimum(rb, 1 - rb)) * size
        c = _tint(color, 0.07 * np.sin(ka * 7.1 + kb * 13.7 + seed) + fleck * noise(u, v, 5, seed, 1.1))
        g = _tint(grout, 0.15 * noise(u, v, 4, seed + 1))
        if dark:
            g = mix(g, lin((34, 32, 28))[None, :], dark * smooth(noise(u, v, 34, seed + 5), -0.45, 0.35))
        return mix(g, c, smooth(edge, joint * 0.35, joint * 0.65))

    return Mat(color, spec, 60, tex)


def stained(base: Mat, spots):
    """Lays stains over a surface; each spot is (u, v, radius, sRGB color, strength, ring) with a wavering edge."""

    def tex(u, v, q, f):
        c = base.tex(u, v, q, f) if base.tex else np.broadcast_to(lin(base.color), (len(u), 3)).copy()
        bump = None
        if isinstance(c, tuple):
            c, bump = c
        for i, (x, y, r, color, strength, ring) in enumerate(spots):
            d = np.hypot(u - x, v - y) + r * 0.2 * noise(u, v, r * 3, 21 + i, 1.0) + r * 0.14 * noise(u, v, r * 9, 25 + i, 1.5)
            k = strength * (0.55 if ring else 1.0) * (1 - smooth(d, r * 0.72, r))
            if ring:
                k = k + strength * np.exp(-(((d - r * 0.9) / (r * 0.07)) ** 2))
                k = k + 0.6 * strength * np.exp(-(((d - r * 0.62) / (r * 0.06)) ** 2))
            k = k * (0.86 + 0.3 * noise(u, v, 5, 29 + i, 0.9))
            c = mix(c, lin(color)[None, :], k)
        return (c, bump) if bump is not None else c

    return Mat(base.color, base.spec, base.gloss, tex)


CHROME = metal((205, 208, 212), 0.9, 60, 31, 0.06)
STEEL = metal((128, 122, 116), 0.3, 25, 32, 0.15, (112, 62, 34), 0.25, 5)
BRASS = metal((182, 146, 82), 0.6, 40, 33, 0.15, (96, 74, 44), 0.45)
COPPER = metal((184, 112, 74), 0.6, 40, 34, 0.15)
COPPER_GREEN = metal((168, 104, 72), 0.5, 35, 35, 0.15, (84, 152, 128), 0.3, 4)
IRON = metal((62, 58, 56), 0.14, 14, 36, 0.2)
IRON_RUST = metal((92, 66, 50), 0.08, 10, 37, 0.3, (128, 66, 30), 0.0, 4)
PVC = plain((232, 232, 226), 0.03, 10, 38, 0.35, 40)
LEAD = metal((118, 120, 124), 0.12, 12, 39, 0.1)
BLUE = plain((44, 92, 168), 0.05, 10, 40, 0.3, 35)
GRAY_PLASTIC = plain((148, 150, 152), 0.04, 10, 41, 0.25, 30)
GALV = metal((176, 180, 182), 0.35, 25, 42, 0.16, scale=3)
WHITE = plain((232, 230, 224), 0.03, 20, 43, 0.1)
DRYWALL = plain((214, 208, 196), 0.035, 40, 44)
PLASTER = plain((206, 196, 176), 0.06, 60, 45)
CONCRETE = rough((150, 146, 138), 0.22, 5, 0.3, 46)
SOIL = rough((104, 84, 64), 0.4, 4, 0.9, 47)
BLACK = plain((26, 26, 28), 0.1, 10, 48, 0.1)
RED = plain((168, 40, 34), 0.05, 10, 49, 0.3)
CABLE_YELLOW = plain((206, 178, 78), 0.05, 6, 50, 0.12)
CABLE_WHITE = plain((216, 212, 200), 0.05, 6, 51, 0.12)
CABLE_CLOTH = plain((74, 62, 50), 0.35, 1, 52)
PORCELAIN = plain((228, 222, 208), 0.03, 8, 53, 0.5, 50)
JOIST = lumber((150, 116, 78), 1, 54)
STUD = lumber((186, 152, 106), 2, 55)
OLD_STUD = lumber((132, 96, 62), 2, 56)


def pipe(points, r, mat):
    """A pipe along points, with rounded joints."""
    out = [Cyl(a, b, r, mat) for a, b in zip(points, points[1:])]
    return out + [Ball(p, r, mat) for p in points[1:-1]]


def bend(center, radius, start, stop, plane="xz", steps=9):
    """Points on an arc about `center`, from angle start to stop (degrees) in the plane named."""
    out = []
    for a in np.radians(np.linspace(start, stop, steps)):
        c, s = radius * np.cos(a), radius * np.sin(a)
        d = {"xz": (c, 0, s), "yz": (0, c, s), "xy": (c, s, 0)}[plane]
        out.append(tuple(np.add(center, d)))
    return out


def sag(a, b, drop, steps=9):
    """Points of a cable hanging from a to b."""
    a, b = np.asarray(a, float), np.asarray(b, float)
    return [tuple(a + (b - a) * t - np.array([0, 0, 4 * drop * t * (1 - t)])) for t in np.linspace(0, 1, steps)]


def font(px):
    """The letters that come with Pillow."""
    return ImageFont.load_default(px)


def letters(text, w, h, ink=(30, 30, 30), paper=(236, 232, 222), px=None, per_in=40):
    """A small lettered plate of w x h inches as a picture."""
    img = Image.new("RGBA", (max(2, int(w * per_in)), max(2, int(h * per_in))), (*paper, 255))
    d = ImageDraw.Draw(img)
    px = px or int(h * per_in * 0.7)
    d.text((img.width / 2, img.height / 2), text, fill=(*ink, 255), font=font(px), anchor="mm")
    return img


def tape_face(first, last, width=1.0, per_in=48, down=False):
    """The face of a tape from `first` to `last` inches: marks to 1/8 in, figures just before each inch line."""
    n = int(round((last - first) * per_in))
    w = int(width * per_in)
    img = Image.new("RGBA", (w, n), (238, 200, 60, 255))
    d = ImageDraw.Draw(img)

    def y(inch):
        return (inch - first) * per_in if down else n - (inch - first) * per_in

    for k in range(int(np.ceil(first * 8)), int(last * 8) + 1):
        part = {0: 0.62, 4: 0.44, 2: 0.32, 6: 0.32}.get(k % 8, 0.2)
        d.line([(0, y(k / 8)), (w * part, y(k / 8))], fill=(24, 22, 20, 255), width=3 if k % 8 == 0 else 2)
        if k % 8 == 0 and k > 0:
            d.text(
                (w * 0.70, y(k / 8) + (-1 if down else 1) * per_in * 0.02),
                str(k // 8),
                fill=(20, 18, 16, 255),
                font=font(int(per_in * 0.5)),
                anchor="mm",
            )
    d.rectangle([0, 0, w - 1, n - 1], outline=(150, 120, 20, 255))
    return img


def tape_up(x, y, z0, first, last, width=1.0):
    """A tape standing at (x, y) with its zero at height z0, shown from `first` to `last` inches, facing -y."""
    return Sheet((x - width / 2, y, z0 + first), (width, 0, 0), (0, 0, last - first), Mat(spec=0.2), tape_face(first, last, width))


def plate(x, z, y, kind="outlet"):
    """A wall plate on a wall facing -y."""
    out = [Box((x, y - 0.12, z), (2.8, 0.24, 4.6), WHITE)]
    dark = Mat((40, 38, 36))
    if kind == "outlet":
        for dz in (-0.95, 0.95):
            out.append(Cyl((x, y - 0.22, z + dz), (x, y - 0.3, z + dz), 0.68, plain((222, 219, 210), 0.02)))
            out += [Box((x + dx, y - 0.31, z + dz + 0.12), (0.09, 0.05, 0.36), dark) for dx in (-0.25, 0.25)]
            out.append(Cyl((x, y - 0.27, z + dz - 0.32), (x, y - 0.33, z + dz - 0.32), 0.11, dark))
    elif kind == "switch":
        out.append(Box((x, y - 0.35, z + 0.1), (0.4, 0.5, 0.9), WHITE, pitch=18))
    elif kind == "jack":
        out.append(Box((x, y - 0.25, z), (0.7, 0.1, 0.6), dark))
    return out


def frame_grille(center, w, h, bars=9, mat=None, normal="y"):
    """A register: a frame with blades; normal 'y' faces the viewer, 'z' lies flat."""
    mat = mat or plain((214, 210, 200), 0.03, 10, 60, 0.2)
    x, y, z = center
    out = []
    if normal == "y":
        out.append(Box((x, y + 0.05, z), (w, 0.1, h), Mat((30, 30, 30))))
        for dz in (-h / 2, h / 2):
            out.append(Box((x, y - 0.1, z + dz), (w + 1.2, 0.35, 0.7), mat))
        for dx in (-w / 2, w / 2):
            out.append(Box((x + dx, y - 0.1, z), (0.7, 0.35, h + 0.6), mat))
        for i in range(bars):
            out.append(Box((x, y - 0.08, z - h / 2 + (i + 1) * h / (bars + 1)), (w, 0.3, 0.12), mat, pitch=-30))
    else:
        out.append(Box((x, y, z - 0.05), (w, h, 0.1), Mat((30, 30, 30))))
        for dy in (-h / 2, h / 2):
            out.append(Box((x, y + dy, z + 0.1), (w + 1.2, 0.7, 0.3), mat))
        for dx in (-w / 2, w / 2):
            out.append(Box((x + dx, y, z + 0.1), (0.7, h + 0.6, 0.3), mat))
        for i in range(bars):
            out.append(Box((x - w / 2 + (i + 1) * w / (bars + 1), y, z + 0.08), (0.15, h, 0.25), mat))
    return out
