"""Scenes away from the room: basement, crawl space, panel, water main, slab, roof, attic."""

from __future__ import annotations

import numpy as np
from PIL import Image, ImageDraw

from .surfaces import *  # noqa: F403 - the scene files are written in the words of `surfaces`
from .tracer import Ball, Box, Cyl, Mat, Scene, Sheet, lin, noise


def joists(house):
    """From the basement, looking up: joists, two of them notched, an iron drain, cables on knobs, a stain at the sink."""
    s = Scene(eye=(-6, -26, 68), look=(6, 14, 90.5), fov=66, flash=1.9, flash_reach=48, ambient_power=0.2, tilt=-2.5)
    under = stained(
        boards((140, 108, 72), 3.4, "v", 101, 0.12), [(9, 6, 13, (52, 38, 28), 0.75, True), (16, -4, 6, (44, 34, 26), 0.7, False)]
    )
    s.add(Box((0, 0, 97), (150, 150, 1), under), Box((0, 76, 50), (150, 1, 100), rough((136, 128, 116), 0.3, 8, 0.5, 102)))
    old = lumber((128, 94, 60), 1, 103, 0.3)
    for i in range(-4, 5):
        x = i * 16 + 4
        if i in (0, 1):
            s.add(
                Box((x, -44, 92.8), (1.75, 64, 7.4), old),
                Box((x, 37, 92.8), (1.75, 82, 7.4), old),
                Box((x, -8, 94.3), (1.75, 8, 4.4), old),
            )
        else:
            s.add(Box((x, 0, 92.8), (1.75, 150, 7.4), old))
    s.add(
        pipe([(-60, 10, 88.6), (36, 10, 89.8), (44, 10, 89)], 2.0, IRON),
        [Cyl((x, 10, 88.9), (x + 3.2, 10, 88.95), 2.6, IRON) for x in (-34, 8)],
    )
    s.add(pipe([(8, 10, 89.4), (8, 10, 97)], 1.5, IRON), Cyl((8, 10, 92), (8, 10, 94.4), 2.0, IRON))
    for x in (-36, 24):
        s.add([Box((x + d, 10, 93), (0.1, 0.9, 7.5), GALV) for d in (-2.2, 2.2)])
    for k, y in enumerate((32, 38)):
        s.add(
            [Cyl((x, y, 89), (x, y, 90.2), 0.75, PORCELAIN) for x in range(-60, 72, 16)],
            pipe([(-70, y, 88.8), (70, y, 88.8)], 0.17, CABLE_CLOTH),
        )
    s.add(
        pipe(sag((-28, -20, 89), (-28, 60, 89), 1.5), 0.28, CABLE_WHITE),
        pipe(sag((20, -30, 89), (26, 62, 89), 2), 0.3, CABLE_CLOTH),
    )
    s.add(
        pipe([(-4, -8, 97), (-4, -8, 90.4), (28, -8, 90.4), (28, -8, 97)], 0.75, STEEL),
        Ball((-4, -8, 90.4), 1.0, STEEL),
        Ball((28, -8, 90.4), 1.0, STEEL),
    )
    s.add(pipe([(-44, -70, 87), (-44, 70, 87)], 0.7, STEEL))
    return s


def crawl(house):
    """In the crawl space: joists close overhead, a white drain, a black ground cover, two mud tubes on the wall, a stain."""
    s = Scene(eye=(-10, -46, 13), look=(4, 30, 15.5), fov=70, flash=2.0, flash_reach=64, ambient_power=0.15, tilt=3)
    under = stained(
        lumber((184, 148, 100), 0, 104, 0.25), [(14, 14, 15, (60, 46, 34), 0.8, True), (-26, 30, 12, (70, 52, 38), 0.7, True)]
    )
    s.add(Box((0, 10, 38.5), (170, 160, 1), under), Box((0, 10, -0.5), (170, 160, 1), plain((40, 40, 44), 0.5, 12, 105, 0.1)))

    def block(u, v, q, f):
        row = np.floor(v / 8)
        a = (u + 8 * (row % 2)) % 16
        b = v % 8
        e = np.minimum(np.minimum(a, 16 - a), np.minimum(b, 8 - b))
        c = (
            lin((146, 142, 134))[None, :]
            * (1 + 0.16 * noise(u, v, 5, 106, 1.0) + 0.06 * np.sin(row * 5 + np.floor((u + 8 * (row % 2)) / 16) * 3))[:, None]
        )
        return mix(lin((112, 108, 100))[None, :] * np.ones_like(c), c, smooth(e, 0.15, 0.4))

    s.add(Box((0, 66, 15), (170, 1, 34), Mat((146, 142, 134), tex=block)), Box((0, 64.5, 31.5), (170, 5, 1.6), STUD))
    for i in range(-4, 6):
        s.add(Box((i * 16 - 4, 10, 33.2), (1.5, 118, 9.6), lumber((176, 138, 92), 1, 107, 0.25)))
    s.add(
        pipe([(-70, 28, 24.5), (20, 28, 26)], 1.6, PVC),
        pipe([(20, 28, 26), (20, 28, 38)], 1.1, PVC),
        Cyl((18, 28, 25.9), (22.4, 28, 26), 2.0, PVC),
        [Cyl((x, 28, 25), (x + 3, 28, 25.1), 1.95, PVC) for x in (-40, -8)],
    )
    s.add([Box((x, 28, 29), (0.8, 0.1, 8), BLACK) for x in (-30, 8)])
    mud = rough((122, 88, 58), 0.3, 2, 0.9, 108)
    for x0, seed in ((-14, 1), (25, 2)):
        z = np.linspace(0, 31, 12)
        x = x0 + 1.6 * np.sin(z * 0.35 + seed) + 0.7 * np.sin(z * 1.1 + 2 * seed)
        s.add(pipe([(a, 65.3, b) for a, b in zip(x, z)], 0.62, mud))
    s.add(pipe([(x, 65.3, z) for x, z in ((25.5, 17), (29, 21), (30.5, 31))], 0.5, mud))
    s.add(
        pipe(sag((-70, 40, 30), (70, 44, 30), 2), 0.3, CABLE_WHITE),
        pipe([(-70, 18, 27), (70, 18, 27)], 0.5, GRAY_PLASTIC),
        pipe([(-70, 15, 27), (70, 15, 27)], 0.5, GRAY_PLASTIC),
    )
    return s


def pipe_wrap(house):
    """A heating pipe with chalky gray-white wrap, frayed at the elbow; looked at, not touched."""
    s = Scene(eye=(-7, -27, 62), look=(3, 6, 71), fov=60, flash=1.4, flash_reach=42, ambient_power=0.14, tilt=2)
    s.add(
        Box((0, 40, 60), (150, 1, 100), rough((142, 132, 118), 0.3, 8, 0.6, 109)),
        Box((0, 0, 97), (150, 120, 1), boards((140, 108, 72), 3.4, "v", 110, 0.12)),
    )
    s.add([Box((i * 16, 0, 91), (1.75, 120, 7.4), lumber((128, 94, 60), 1, 111, 0.3)) for i in range(-4, 5)])

    def wrap(u, v, q, f):
        c = lin((196, 192, 180))[None, :] * (1 + 0.16 * noise(u, v, 4, 112, 1.0))[:, None]
        band = np.abs((v + 0.5 * noise(u, v, 6, 113)) % 7.5 - 3.75)
        c = mix(c, lin((150, 144, 130))[None, :] * np.ones_like(c), (1 - smooth(band, 0.0, 0.5)) * 0.8)
        c = mix(c, lin((112, 104, 92))[None, :] * np.ones_like(c), smooth(noise(u, v, 7, 114, 1.3), 0.55, 0.75) * 0.7)
        e = 0.1
        g = noise(u + e, v, 2, 115, 1.0) - noise(u, v, 2, 115, 1.0)
        h = noise(u, v + e, 2, 115, 1.0) - noise(u, v, 2, 115, 1.0)
        return c, -0.7 * np.stack([g, h * 0.4, h], 1).astype(np.float32)

    w = Mat((196, 192, 180), tex=wrap)
    s.add(
        Cyl((-70, 6, 74), (-3.5, 6, 75), 2.7, w),
        Ball((4.0, 6, 74.9), 3.1, w),
        Cyl((4, 6, 75), (4, 6, 97), 2.7, w),
        pipe([(-4.2, 6, 75), (4, 6, 75)], 1.15, IRON_RUST),
    )
    s.add(Cyl((4, 6, 75), (4, 6, 44), 1.15, IRON_RUST), Cyl((4, 6, 66), (4, 6, 40), 2.6, w))
    for i, (x, z, a) in enumerate(((-3.4, 77.2, 30), (-3.1, 73.0, -40), (-2.8, 75.6, 10), (-3.5, 71.9, -15))):
        s.add(Box((x, 4.3 + 0.4 * i, z), (2.2, 0.3, 1.0), w, turn=20 * i, pitch=a, roll=a))
    s.add(pipe([(-70, 14, 82), (70, 14, 83)], 0.9, STEEL), pipe(sag((-60, 20, 88), (60, 18, 88), 3), 0.25, CABLE_CLOTH))
    s.add([Box((-30, 6 + d, 86), (0.9, 0.12, 22), GALV) for d in (-2.8, 2.8)])
    return s


def _handwriting(d, x, y, w, h, seed, ink):
    """Marks that look like a hand-lettered label and say nothing."""
    rng = np.random.default_rng(seed)
    n = int(w / h * 2.6)
    pts = [(x + w * i / n, y + h * (0.5 + 0.42 * rng.uniform(-1, 1) * (rng.uniform() > 0.25))) for i in range(n)]
    gap = rng.integers(n // 3, n // 2)
    d.line(pts[:gap], fill=ink, width=2)
    d.line(pts[gap + 1 :], fill=ink, width=2)


def panel(house):
    """The electrical panel: door open, cover on; labels, spaces and main in one frame.  No maker, no mark."""
    k = {
        "alder-street": dict(
            rows=10,
            empty=(),
            main="100",
            box=(150, 154, 152),
            toggle=(34, 34, 36),
            wall=rough((140, 132, 118), 0.3, 8, 0.5, 116),
            pitch=1.0,
        ),
        "quarry-bend": dict(
            rows=11,
            empty=((10, 1),),
            main="100",
            box=(126, 132, 134),
            toggle=(72, 60, 50),
            wall=plain((196, 188, 168), 0.1),
            pitch=0.78,
        ),
        "heron-court": dict(
            rows=13,
            empty=((10, 0), (10, 1), (11, 0), (11, 1), (12, 0), (12, 1)),
            main="200",
            box=(164, 166, 166),
            toggle=(26, 26, 28),
            wall=plain((206, 200, 190), 0.06),
            pitch=1.0,
        ),
    }[house]
    s = Scene(eye=(2.0, -30, 58.5), look=(-3.2, 0, 55), fov=56, flash=1.25, flash_reach=52, ambient_power=0.25, tilt=1.5)
    gray = plain(k["box"], 0.04, 20, 117, 0.25, 25)
    s.add(Box((0, 3, 50), (140, 1, 120), k["wall"]))
    h = k["rows"] * k["pitch"] + 10
    z1 = 55 + h / 2
    s.add(Box((0, 1, 55), (15.5, 4.5, h + 3), gray), Box((0, -1.4, 55), (16.2, 0.3, h + 4), gray))
    s.add(Box((-14.2, -4.5, 55), (14.6, 0.25, h + 1), gray, turn=28))
    card = Image.new("RGBA", (440, 720), (232, 228, 212, 255))
    d = ImageDraw.Draw(card)
    for i in range(k["rows"]):
        y = 30 + i * 660 // k["rows"]
        for c in (0, 1):
            x = 16 + c * 214
            d.rectangle([x, y, x + 200, y + 640 // k["rows"]], outline=(120, 116, 104, 255))
            d.text((x + 8, y + 6), str(2 * i + 1 + c), fill=(60, 58, 52, 255), font=font(22))
            if (i, c) not in k["empty"] and not (house == "alder-street" and (i + c) % 4 == 3):
                _handwriting(d, x + 46, y + 14, 120 - 11 * ((i * 3 + c) % 5), 22, i * 7 + c, (50, 60, 120, 255))
    a = np.radians(28)
    m = np.array([-14.2, -4.5, 55]) + np.array([np.sin(a), -np.cos(a), 0]) * 0.2
    s.add(
        Sheet(
            tuple(m + np.array([-5.2 * np.cos(a), -5.2 * np.sin(a), -7.5])),
            (10.4 * np.cos(a), 10.4 * np.sin(a), 0),
            (0, 0, 15),
            Mat(),
            card,
        )
    )
    tog = plain(k["toggle"], 0.05, 6, spec=0.25)
    s.add(
        Box((0, -1.7, z1 - 3.4), (5.2, 0.6, 4.6), tog),
        Box((0, -2.3, z1 - 3.2), (1.5, 1.0, 1.2), WHITE),
        Sheet(
            (-0.95, -2.05, z1 - 5.4), (1.9, 0, 0), (0, 0, 1.0), Mat(), letters(k["main"], 1.9, 1.0, (240, 240, 236), k["toggle"])
        ),
    )
    for i in range(k["rows"]):
        for c, x in ((0, -2.5), (1, 2.5)):
            z = z1 - 7.0 - i * k["pitch"]
            if (i, c) in k["empty"]:
                s.add(Box((x, -1.6, z), (4.4, 0.12, k["pitch"] * 0.88), plain((112, 114, 114), 0.05)))
                continue
            s.add(Box((x, -1.7, z), (4.4, 0.55, k["pitch"] * 0.9), tog))
            two = house == "quarry-bend" and i in (3, 4) and c == 0
            s.add(
                Box(
                    (x + (1.1 if c == 0 else -1.1), -2.2, z),
                    (1.0, 0.7, k["pitch"] * 0.42),
                    Mat((200, 196, 184)) if house != "quarry-bend" else plain((176, 164, 138)),
                    roll=4,
                )
            )
            if two and i == 3:
                s.add(Box((x + 1.1, -2.6, z - k["pitch"] / 2), (0.5, 0.25, k["pitch"] * 1.5), CHROME))
            s.add(
                Sheet(
                    (x + (-1.7 if c == 0 else 0.9), -2.0, z - 0.26),
                    (0.8, 0, 0),
                    (0, 0, 0.5),
                    Mat(),
                    letters("20" if (i * 2 + c) % 5 else "30", 0.8, 0.5, (236, 236, 230), k["toggle"], per_in=60),
                )
            )
    s.add([Box((x, -1.65, z), (0.5, 0.2, 0.5), CHROME) for x in (-7.4, 7.4) for z in (z1 + 0.8, 55 - h / 2 - 0.8)])
    top = z1 + 1.5
    cables = {
        "alder-street": [CABLE_CLOTH, CABLE_WHITE, CABLE_CLOTH, CABLE_CLOTH],
        "quarry-bend": [CABLE_WHITE] * 4,
        "heron-court": [CABLE_YELLOW, CABLE_WHITE, CABLE_YELLOW, CABLE_WHITE],
    }[house]
    for i, m2 in enumerate(cables):
        s.add(pipe([(-5 + 3 * i, 1.5, top), (-5 + 3.4 * i, 1.6, top + 7), (-6 + 4.2 * i, 1.9, top + 30)], 0.34, m2))
    s.add(Cyl((6.2, 1, top), (6.2, 1, top + 30), 1.0, GALV))
    if house == "alder-street":
        s.add(
            [Cyl((20 + 7 * i, 2.6, 75), (20 + 7 * i, 0.8, 75), 0.8, PORCELAIN) for i in range(3)],
            pipe([(17, 1.4, 75.8), (60, 1.4, 75.8)], 0.16, CABLE_CLOTH),
        )
    return s


def water_main(house):
    """Where the water comes in: pipe from the ground, main valve, meter."""
    s = Scene(eye=(-9, -29, 26), look=(2.5, 4, 15), fov=60, flash=1.4, flash_reach=44, ambient_power=0.16, tilt=-2)
    stone = rough((132, 124, 112), 0.32, 10, 0.8, 118)
    s.add(
        Box((0, 14, 30), (130, 1, 80), stone if house == "alder-street" else CONCRETE),
        Box((0, 0, -0.5), (130, 60, 1), rough((128, 122, 114), 0.3, 6, 0.4, 119)),
    )
    up = {"alder-street": STEEL, "quarry-bend": COPPER_GREEN, "heron-court": GRAY_PLASTIC}[house]
    feed = {"alder-street": LEAD, "quarry-bend": COPPER, "heron-court": BLUE}[house]
    y = 6
    if house == "alder-street":
        s.add(
            pipe([(-12, y, -1), (-11.6, y, 3), (-11.2, y, 6), (-10.4, y, 8.6), (-8.6, y, 10.3), (-6, y, 11)], 0.78, feed),
            Ball((-6.6, y, 10.9), 1.55, feed),
            Ball((-5.6, y, 11), 1.35, feed),
        )
        s.add(Cyl((-11.9, y - 0.62, 3.4), (-11.75, y - 0.62, 5.2), 0.2, Mat((225, 228, 232), 0.9, 20, glow=0.25)))
        s.add(
            Sheet((-22, 2, 0.1), (7, 0, 0), (0, 5, 0), Mat((60, 60, 60))),
            Cyl((-21, 1.4, 0), (-21, 1.4, 8.2), 3.6, plain((178, 176, 170), 0.1, spec=0.3)),
            Cyl((-21, 1.4, 8.2), (-21, 1.4, 8.7), 3.3, plain((52, 84, 120))),
        )
    else:
        s.add(pipe([(-12, y, -1), (-12, y, 9), (-11.5, y, 10.5), (-10, y, 11), (-6, y, 11)], 0.72, feed))
        s.add(Cyl((-12, y, -0.1), (-12, y, 0.2), 1.7, CONCRETE))
    s.add(Cyl((-6, y, 11), (-3.6, y, 11), 1.05, BRASS))
    body = metal((166, 130, 74), 0.4, 25, 120, 0.2, (96, 116, 92) if house != "heron-court" else None, 0.2, 3)
    s.add(
        Box((-2, y, 11), (3.4, 2.2, 2.4), body),
        Cyl((-2, y, 12), (-2, y, 15.2), 0.75, body),
        Cyl((-2, y, 13), (-2, y, 14), 1.1, body),
    )
    if house == "heron-court":
        s.add(Box((0.4, y, 15.4), (6.4, 1.2, 0.4), plain((186, 40, 36), spec=0.3)))
    else:
        wheel = plain((150, 40, 34), 0.2, 4, 121, 0.2)
        s.add(Cyl((-2, y, 15), (-2, y, 17), 0.35, body))
        pts = [(-2 + 2.5 * np.cos(t), y + 2.5 * np.sin(t), 16.6) for t in np.linspace(0, 2 * np.pi, 19)]
        s.add(
            pipe(pts, 0.42, wheel),
            [
                Cyl((-2, y, 16.6), (-2 + 2.5 * np.cos(t), y + 2.5 * np.sin(t), 16.6), 0.3, wheel)
                for t in np.linspace(0.4, 2 * np.pi + 0.4, 5)[:-1]
            ],
            Ball((-2, y, 16.7), 0.7, wheel),
        )
    s.add(Cyl((-0.4, y, 11), (4, y, 11), 0.85, up if house != "alder-street" else BRASS))
    face = Image.new("RGBA", (300, 300), (0, 0, 0, 0))
    d = ImageDraw.Draw(face)
    d.ellipse([4, 4, 296, 296], fill=(236, 236, 228, 255), outline=(60, 60, 60, 255), width=6)
    for i in range(10):
        t = np.radians(36 * i - 90)
        d.text((150 + 112 * np.cos(t), 150 + 112 * np.sin(t)), str(i), fill=(30, 30, 30, 255), font=font(30), anchor="mm")
    d.rectangle([90, 150, 210, 190], fill=(30, 30, 30, 255))
    d.text((150, 170), "004731", fill=(240, 240, 235, 255), font=font(30), anchor="mm")
    d.line([(150, 150), (202, 84)], fill=(190, 30, 30, 255), width=7)
    s.add(
        Cyl((4, y, 11), (12, y, 11), 1.2, BRASS),
        Cyl((8, y, 8.6), (8, y, 13.6), 3.6, BRASS),
        Cyl((8, y, 13.6), (8, y, 14.6), 3.2, plain((60, 62, 66))),
        Sheet((5.2, y - 2.8, 14.7), (5.6, 0, 0), (0, 5.6, 0.0), Mat(), face),
    )
    s.add(
        Cyl((12, y, 11), (16, y, 11), 0.85, up),
        pipe([(16, y, 11), (16, y, 60)], 0.8, up),
        Cyl((16, y, 10), (16, y, 12.4), 1.15, up),
    )
    if house == "heron-court":
        s.add(
            pipe([(16, y, 24), (26, y, 24), (26, y, 60)], 0.62, up),
            Cyl((16, y, 22.8), (16, y, 25.2), 1.1, COPPER),
            [Cyl((16, y, z), (16, y, z + 0.7), 0.95, COPPER) for z in (30, 36)],
            pipe([(20, y, 24), (20, y, 60)], 0.62, up),
        )
        s.add([Cyl((x, y, 24), (x + 0.7, y, 24), 0.78, COPPER) for x in (18, 22)])
    elif house == "alder-street":
        s.add(
            Box((16, y - 0.6, 20), (2.6, 1.6, 1.3), BRASS),
            pipe([(16, y - 1.6, 20), (19, y - 0.5, 24), (20, 12.8, 30), (20, 13.2, 60)], 0.26, COPPER),
        )
    else:
        s.add(
            pipe([(16, y, 30), (30, y, 30)], 0.62, up),
            Cyl((16, y, 28.8), (16, y, 31.2), 1.05, up),
            Ball((16.2, y - 0.6, 25), 0.55, plain((110, 178, 152))),
            Ball((21, y - 0.5, 30.3), 0.5, plain((110, 178, 152))),
        )
    return s


def slab(house):
    """The slab of the lower room: a crack running to pipes that rise through sleeves."""
    s = Scene(eye=(-16, -28, 40), look=(2, 10, 4), fov=60, flash=1.4, flash_reach=54, ambient_power=0.2, tilt=-3)
    base = rough((152, 148, 140), 0.2, 6, 0.3, 122)

    def cracked(u, v, q, f):
        c, b = base.tex(u, v, q, f)
        path = 0.5 * u + 7 * noise(u, 0 * u, 34, 123, 1.4) + 1.5 * noise(u, 0 * u, 7, 124, 0.9)
        c = c * (1 - 0.85 * np.exp(-(((v - path + 1) / (0.2 + 0.1 * np.abs(noise(u, v, 9, 125)))) ** 2)))[:, None]
        c = mix(c, lin((108, 96, 82))[None, :] * np.ones_like(c), 0.5 * np.exp(-(((v - path + 1) / 2.2) ** 2)))
        return c, b

    s.add(
        Box((0, 0, -0.5), (160, 120, 1), Mat((150, 146, 138), tex=cracked)),
        Box((0, 30.5, 40), (160, 1, 82), plain((190, 182, 164), 0.1, 40)),
        Box((0, 29.6, 2), (160, 1, 4), wood((120, 84, 50))),
    )
    for i, (x, m, r) in enumerate(((2, COPPER_GREEN, 0.56), (8, COPPER_GREEN, 0.56), (16, IRON_RUST, 2.0))):
        s.add(
            Cyl((x, 22, -0.2), (x, 22, 1.4), r + 0.7, plain((90, 90, 94), 0.2) if i < 2 else IRON),
            Cyl((x, 22, 0), (x, 22, 80), r, m),
        )
    s.add(Cyl((16, 22, 14), (16, 22, 17), 2.6, IRON_RUST), Box((5, 23.4, 40), (12, 1.5, 1.5), STUD))
    s.add(
        Cyl((-24, 18, 0), (-24, 18, 48), 9, plain((222, 220, 212), 0.04, spec=0.3)), Cyl((-24, 18, 0), (-24, 18, 1.5), 8.4, BLACK)
    )
    s.add(
        Sheet((2, -3.5, 0.12), (12.0, 2.0, 0), (-0.2, 1.2, 0), Mat(), tape_face(0, 12, 1.2).transpose(Image.Transpose.ROTATE_270))
    )
    return s


def roof(house):
    """The house from the ground: where the plumbing vents leave the roof, compared with the kitchen window."""
    s = Scene(
        eye=(-110, -430, 64),
        look=(20, 0, 120),
        fov=52,
        flash=0,
        ambient=(176, 198, 228),
        ambient_power=0.55,
        sky=(168, 196, 228),
        tilt=1.5,
        ao=0.5,
    )
    s.lamps.append(((-900, -1400, 1500), (255, 236, 200), 1.25, 9000))
    brick = Mat(
        (150, 92, 74),
        tex=lambda u, v, q, f: mix(
            lin((176, 166, 152))[None, :] * np.ones((len(u), 3), np.float32),
            lin((150, 88, 70))[None, :]
            * (1 + 0.2 * np.sin(np.floor(v / 2.7) * 9.1 + np.floor((u + 4 * (np.floor(v / 2.7) % 2)) / 8) * 5.3))[:, None],
            smooth(np.minimum(v % 2.7, 2.7 - v % 2.7), 0.12, 0.3)
            * smooth(np.minimum((u + 4 * (np.floor(v / 2.7) % 2)) % 8, 8 - (u + 4 * (np.floor(v / 2.7) % 2)) % 8), 0.12, 0.3),
        ),
    )
    shingle = Mat(
        (96, 88, 82),
        tex=lambda u, v, q, f: (
            lin((98, 90, 84))[None, :]
            * (
                1
                - 0.35 * (v % 6 < 0.8)
                + 0.2 * np.sin(np.floor(v / 6) * 3.3 + np.floor((u + 6 * (np.floor(v / 6) % 2)) / 12) * 7.7)
                + 0.15 * noise(u, v, 9, 126, 0.9)
            )[:, None]
        ),
    )
    siding = Mat((214, 208, 190), tex=lambda u, v, q, f: lin((216, 210, 192))[None, :] * (1 - 0.4 * (v % 8 < 0.7))[:, None])
    grass = Mat((88, 112, 58), tex=lambda u, v, q, f: lin((92, 116, 60))[None, :] * (1 + 0.4 * noise(u, v, 30, 127, 0.8))[:, None])
    s.add(
        Box((0, 0, -1), (4000, 3000, 2), grass),
        Box((0, 100, 52), (300, 200, 104), brick),
        Box((150, 90, 100), (200, 200, 200), siding),
    )
    s.add(
        Box((-50, 48, 137), (240, 150, 4), shingle, pitch=33),
        Box((-50, 170, 137), (240, 150, 4), shingle, pitch=-33),
        Box((150, 36, 233), (216, 140, 4), shingle, pitch=33),
        Box((150, 146, 233), (216, 140, 4), shingle, pitch=-33),
    )
    trim = plain((232, 230, 222), 0.02, 40)
    for x, z, y, w, h in (
        (-60, 66, 0, 44, 40),
        (-118, 62, 0, 34, 44),
        (110, 66, -10, 40, 44),
        (190, 66, -10, 40, 44),
        (110, 152, -10, 36, 44),
        (190, 152, -10, 36, 44),
    ):
        s.add(
            Box((x, y - 0.5, z), (w + 8, 3, h + 8), trim),
            Box(
                (x, y - 2, z),
                (w, 2, h),
                Mat(
                    (60, 74, 90),
                    0.6,
                    20,
                    lambda u, v, q, f: lin((70, 88, 108))[None, :] * (1 + 0.5 * smooth(u + v, -20, 30))[:, None],
                ),
            ),
            Box((x, y - 3, z), (2, 1.5, h), trim),
        )
    s.add(Box((10, -1, 42), (38, 3, 84), trim), Box((10, -3, 40), (32, 2, 78), wood((120, 70, 44), "v")))
    s.add(
        Cyl((-6, 62, 140), (-6, 62, 172), 3.2, IRON),
        Cyl((-6, 62, 142), (-6, 62, 147), 6, GALV),
        Cyl((176, 40, 232), (176, 40, 262), 3.2, IRON),
        Cyl((176, 40, 236), (176, 40, 240), 6, GALV),
    )
    s.add(Box((64, 150, 230), (34, 30, 150), brick), Box((64, 150, 306), (40, 36, 5), CONCRETE))
    s.add(Cyl((-82, -1, 28), (-82, -6, 28), 5, GALV), Cyl((-250, 160, 0), (-250, 160, 110), 9, wood((96, 72, 50), "v")))
    leaf = Mat((66, 96, 50), tex=lambda u, v, q, f: lin((70, 100, 52))[None, :] * (1 + 0.8 * noise(u, v, 26, 128, 0.7))[:, None])
    rng = np.random.default_rng(5)
    s.add([Ball((-250 + 70 * a, 160 + 40 * b, 170 + 55 * c), 34, leaf) for a, b, c in rng.uniform(-1, 1, (12, 3))])
    s.add([Ball((x, -22, 8), 17, leaf) for x in (-132, -104, 70, 150, 182, 214)])
    return s


def attic(house):
    """In the attic: three cables going down through the top plate on the line of the wall, loose fill between the joists."""
    s = Scene(eye=(-12, -26, 26), look=(3, 22, 8), fov=66, flash=1.9, flash_reach=52, ambient_power=0.14, tilt=-3)
    fluff = Mat(
        (196, 180, 178),
        tex=lambda u, v, q, f: (
            lin((200, 178, 176))[None, :] * (1 + 0.4 * noise(u, v, 7, 129, 0.8))[:, None],
            -1.6
            * np.stack(
                [
                    noise(u + 0.2, v, 7, 129, 0.9) - noise(u, v, 7, 129, 0.9),
                    noise(u, v + 0.2, 7, 129, 0.9) - noise(u, v, 7, 129, 0.9),
                    0 * u,
                ],
                1,
            ).astype(np.float32),
        ),
    )
    s.add(Box((0, 20, 2.2), (220, 200, 3), fluff))
    for i in range(-6, 7):
        s.add(Box((i * 16, 20, 2.2), (1.5, 200, 5), JOIST))
    s.add(Box((0, 22, 4.2), (220, 3.5, 1.5), STUD), Box((0, 22, 5.7), (220, 3.5, 1.5), STUD))
    for i, x in enumerate((-2, 2.2, 6.4)):
        s.add(
            Cyl((x, 22, 6.3), (x, 22, 6.55), 0.75, Mat((14, 12, 10))),
            pipe(
                [
                    (x, 22, 6.3),
                    (x, 22, 9),
                    (x + 0.4, 23.5, 10.6),
                    (x + 1 + i, 30, 9),
                    (x + 6 + 5 * i, 60, 7),
                    (x + 16 + 9 * i, 100, 7),
                ],
                0.34,
                CABLE_YELLOW if i != 1 else CABLE_WHITE,
            ),
        )
    for i in range(-3, 4):
        x = i * 32 + 8
        s.add(Box((x, 70, 36), (1.5, 130, 5.5), lumber((176, 142, 96), 1, 130), pitch=-26))
        s.add(Box((x, 40, 26), (1.5, 3.5, 48), STUD))
    s.add(Box((0, 70, 40), (300, 140, 1), boards((184, 152, 106), 48, "u", 131, 0.3), pitch=-26))
    return s
