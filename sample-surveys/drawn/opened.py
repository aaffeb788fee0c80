"""Scenes after demolition, for the findings."""

from __future__ import annotations

import numpy as np

from .surfaces import *  # noqa: F403 - the scene files are written in the words of `surfaces`
from .tracer import Ball, Box, Cyl, Mat, Scene, Sheet, lin, noise

LATH = boards((150, 116, 78), 1.6, "v", 141, 0.3)


def soffit(house):
    """The soffit with its face off: an iron branch with steel pipes, or a duct with six cables."""
    s = Scene(eye=(-9, -24, 82), look=(3, 10, 92), fov=62, flash=1.5, flash_reach=60, ambient_power=0.2, tilt=2)
    back = LATH if house == "alder-street" else plain((150, 132, 104), 0.25, 10, 142)
    s.add(
        Box((0, 18, 90), (170, 1, 26), back),
        Box((0, 17.5, 50), (170, 1, 56), plain((206, 198, 170), 0.06, 60)),
        Box((0, -20, 102.5), (170, 90, 1), plain((216, 210, 196), 0.05, 60)),
    )
    stud = OLD_STUD if house == "alder-street" else STUD
    s.add(
        Box((0, 3.5, 87.2), (170, 3.4, 1.6), lumber((150, 112, 70), 0, 143)),
        Box((0, 3.5, 101), (170, 3.4, 1.6), lumber((150, 112, 70), 0, 143)),
    )
    for i in range(-5, 6):
        s.add(Box((i * 17, 3.5, 94), (1.6, 3.2, 12.4), stud))
    if house == "alder-street":
        s.add(
            pipe([(-80, 11, 93.2), (18, 11, 94.2), (24, 11, 97), (24, 11, 110)], 1.7, IRON_RUST),
            [Cyl((x, 11, 93.5), (x + 3.4, 11, 93.55), 2.3, IRON_RUST) for x in (-38, 4)],
        )
        s.add(
            pipe([(-80, 7, 98.4), (80, 7, 98.4)], 0.62, STEEL),
            pipe([(-80, 7, 90.2), (80, 7, 90.2)], 0.62, STEEL),
            Cyl((-10, 7, 98.4), (-7, 7, 98.4), 0.95, STEEL),
        )
        for y in (14.0,):
            s.add(
                [Cyl((x, 15.4, 99), (x, 16.8, 99), 0.75, PORCELAIN) for x in (-40, -12, 16, 44)],
                pipe([(-80, 15.4, 98.3), (80, 15.4, 98.3)], 0.16, CABLE_CLOTH),
            )
    else:
        s.add(Box((0, 11.5, 94.6), (170, 9, 8), GALV), [Box((x, 11.5, 94.6), (1.0, 9.5, 8.5), GALV) for x in (-42, 8, 58)])
        for i in range(6):
            s.add(
                pipe(
                    sag((-80, 5.4 + 0.2 * i, 91.2 + 0.7 * i), (80, 5.4 + 0.2 * i, 91.0 + 0.7 * i), 0.9 + 0.3 * (i % 3), 13),
                    0.27,
                    CABLE_WHITE if i % 3 else plain((176, 172, 160), 0.1),
                )
            )
    rng = np.random.default_rng(7)
    rubble = plain((206, 198, 182), 0.15, 4)
    s.add(Box((0, 6, 59.4), (170, 26, 1), plain((120, 108, 92), 0.3, 8)))
    s.add(
        [
            Box((x, 2 + 5 * y, 60.4), (2 + 2 * a, 1.5 + b, 0.5), rubble, turn=90 * a, roll=25 * b)
            for x, y, a, b in zip(rng.uniform(-46, 46, 26), rng.uniform(-1, 1, 26), rng.uniform(0, 1, 26), rng.uniform(0, 1, 26))
        ]
    )
    return s


def wall(house):
    """The dining wall opened: studs, lath behind, and a capped gas-light pipe nobody knew of."""
    s = Scene(eye=(-8, -44, 56), look=(3, 4, 50), fov=62, flash=1.5, flash_reach=60, ambient_power=0.2, tilt=-2)
    s.add(Box((0, 5, 52), (170, 0.6, 110), LATH))
    for i in range(-4, 5):
        s.add(Box((i * 16 + 5, 2, 52), (1.75, 3.6, 110), OLD_STUD))
    edge = plain((206, 198, 178), 0.1, 20)
    s.add(
        Box((-55, -0.5, 52), (46, 0.9, 110), edge),
        Box((52, -0.5, 60), (34, 0.9, 90), edge),
        Box((0, -0.6, 98), (150, 0.9, 20), edge),
    )
    rng = np.random.default_rng(9)
    s.add(
        [
            Box((-32 + 1.6 * a, -0.6, z), (4.5, 0.9, 3), edge, roll=50 * b)
            for a, b, z in zip(rng.uniform(-1, 1, 24), rng.uniform(-1, 1, 24), np.linspace(10, 92, 24))
        ]
    )
    s.add(
        pipe([(-3.2, 2.4, -10), (-3.2, 2.4, 62)], 0.62, IRON_RUST),
        Cyl((-3.2, 2.4, 60), (-3.2, 2.4, 63.5), 1.0, IRON_RUST),
        pipe([(-3.2, 2.4, 60), (-3.2, -1.4, 60)], 0.5, IRON_RUST),
        Cyl((-3.2, -1.2, 60), (-3.2, -2.6, 60), 0.95, BRASS),
    )
    s.add(
        Sheet((0.6, -0.2, 55), (6.4, 0, 0), (0, 0, 3), Mat(), letters("gas? ask", 6.4, 3, (170, 30, 30), (240, 224, 120), 54)),
        pipe([(-2.6, -1.2, 60), (1.8, -0.3, 57.8)], 0.06, plain((210, 200, 170))),
    )
    s.add(pipe([(14, 2.4, -10), (14, 2.4, 120)], 0.9, STEEL), pipe(sag((-80, 1, 78), (80, 1, 78), 0.5), 0.26, CABLE_CLOTH))
    return s


def trench(house):
    """The slab cut open: soil, and an iron drain whose bottom is gone."""
    s = Scene(eye=(-14, -26, 34), look=(2, 4, -3), fov=60, flash=1.5, flash_reach=46, ambient_power=0.2, tilt=4)
    for y, w in ((-32, 46), (38, 50)):
        s.add(Box((0, y, -2), (160, w, 4), CONCRETE))
    s.add(Box((0, 1, -16), (160, 40, 2), SOIL), Box((0, -9.6, -8), (160, 1, 12), SOIL), Box((0, 14, -8), (160, 1, 12), SOIL))
    iron = IRON_RUST
    s.add(
        pipe([(-70, 3, -9.5), (-9, 3, -9.7)], 2.1, iron),
        Cyl((-24, 3, -9.6), (-20, 3, -9.6), 2.8, iron),
        pipe([(13, 3, -10), (70, 3, -10.2)], 2.1, iron),
    )
    for i in range(11):
        x = -9 + i * 2.0
        top = 1.25 - 0.25 * np.sin(i * 2.1)
        s.add(
            Cyl((x, 3 + 1.7, -9.4), (x + 2.1, 3 + 1.7, -9.5), 0.45, iron),
            Cyl((x, 3 - 1.7, -9.4 - 0.3 * (i % 3)), (x + 2.1, 3 - 1.7, -9.6), 0.4, iron),
        )
        if i not in (4, 5, 6):
            s.add(
                Cyl((x, 3 + 0.8, -8.4), (x + 2.1, 3 + 0.8, -8.4), 0.6 * top, iron),
                Cyl((x, 3 - 0.6, -8.3), (x + 2.1, 3 - 0.6, -8.4), 0.6 * top, iron),
            )
    s.add(Box((2, 3, -11.4), (22, 2.6, 0.4), Mat((36, 30, 24), 0.5, 60)))
    rng = np.random.default_rng(11)
    s.add(
        [
            Ball((x, y, -14.7), r, SOIL)
            for x, y, r in zip(rng.uniform(-34, 38, 40), rng.uniform(-8, 13, 40), rng.uniform(0.4, 1.3, 40))
        ]
    )
    s.add(
        [
            Box((x, -17 + y, 0.9), (a, b, 1.8), CONCRETE, turn=60 * (b - 3), pitch=8 * y)
            for x, y, a, b in ((-20, 1, 7, 5), (-9, -2, 5, 4), (14, 0, 8, 5), (24, 2, 4, 4))
        ]
    )
    s.add(
        Sheet(
            (-4, -10.4, 0.12),
            (0.3, 24.4, 0),
            (-1.2, 0, 0),
            Mat(),
            tape_face(0, 24.4, 1.2, 40).transpose(Image.Transpose.ROTATE_270),
        )
    )
    return s


def window_wall(house):
    """The wall under the window opened from inside: black sheathing, a stud eaten away at its foot."""
    s = Scene(eye=(-10, -46, 48), look=(2, 4, 34), fov=70, flash=1.5, flash_reach=50, ambient_power=0.2, tilt=-2)
    sheath = stained(
        lumber((170, 138, 96), 0, 144, 0.25),
        [
            (4, 4, 15, (32, 26, 22), 0.92, False),
            (-9, -6, 10, (40, 32, 26), 0.85, False),
            (14, -10, 9, (30, 24, 20), 0.9, False),
            (3, 13, 7, (50, 40, 30), 0.8, True),
        ],
    )
    s.add(
        Box((0, 5, 24), (130, 0.8, 48), sheath),
        Box((0, 2, 1.0), (130, 3.6, 1.6), stained(lumber((160, 126, 84), 0, 145), [(4, 0, 12, (44, 34, 26), 0.9, False)])),
        Box((0, -14, -0.6), (130, 34, 1), lumber((190, 156, 108), 0, 146, 0.3)),
    )
    for i in range(-4, 5):
        x = i * 16 + 2
        if i == 0:
            s.add(
                Box((x, 2, 31), (1.5, 3.5, 26), STUD),
                Box((x - 0.2, 2.2, 14), (1.1, 2.6, 10), stained(STUD, [(0, 0, 9, (48, 36, 26), 0.9, False)]), roll=3),
                Box((x + 0.3, 2.6, 6), (0.7, 1.6, 8), Mat((52, 40, 30)), roll=-6),
            )
        else:
            s.add(Box((x, 2, 22), (1.5, 3.5, 42), STUD))
    trim = plain((226, 220, 206), 0.05, 10)
    s.add(
        Box((0, 1, 45), (130, 4.5, 1.6), STUD),
        Box((2, 0.4, 47), (42, 6, 1.2), stained(trim, [(4, 0, 7, (84, 62, 42), 0.8, False)])),
        Box((2, 8, 62), (40, 0.4, 30), Mat((196, 214, 232), glow=0.7)),
        Box((2, 6, 49), (36, 2, 2.4), trim),
    )
    for x in (-18, 22):
        s.add(Box((x, 3, 62), (3, 4, 30), trim))
    s.add(Box((-45, 3, 70), (50, 1, 50), DRYWALL), Box((49, 3, 70), (50, 1, 50), DRYWALL))
    s.add(Box((-44, -0.3, 28), (30, 0.6, 56), DRYWALL), Box((48, -0.3, 28), (30, 0.6, 56), DRYWALL))
    pink = plain((206, 150, 150), 0.35, 3, 147)
    s.add([Box((-22, 2.2, z), (13.6, 3, 7.4), pink, roll=2 * (z % 3 - 1)) for z in (8, 16, 24, 32)])
    rng = np.random.default_rng(13)
    s.add(
        [
            Box((x, -8 + 4 * y, 0.3), (1 + 1.6 * a, 0.8, 0.5), Mat((58, 44, 32)), turn=180 * a)
            for x, y, a in zip(rng.uniform(-16, 22, 24), rng.uniform(-1, 1, 24), rng.uniform(0, 1, 24))
        ]
    )
    return s


def sill(house):
    """The sill plate opened: galleries along the grain, a joist end eaten."""
    s = Scene(eye=(-8, -21, 13.2), look=(1.5, 4, 9.6), fov=64, flash=2.0, flash_reach=36, ambient_power=0.26, tilt=3)
    base = lumber((176, 138, 92), 0, 148, 0.25)

    def eaten(u, v, q, f):
        c = base.tex(u, v, q, f)
        lines = noise(q[:, 0] * 0.16, q[:, 1] + q[:, 2], 3.2, 149, 0.9)
        k = smooth(lines, 0.12, 0.35) * smooth(noise(u, v, 30, 150, 1.4) + 0.55 - np.abs(q[:, 0] - 2) / 26, -0.1, 0.4)
        return mix(c, lin((44, 30, 20))[None, :] * np.ones_like(c), k * 0.95)

    s.add(
        Box((0, 6, 3), (150, 8, 8), CONCRETE),
        Box((0, 5.2, 7.75), (150, 5.5, 1.5), Mat((176, 138, 92), tex=eaten)),
        Box((0, 8.6, 13.2), (150, 1.5, 9.4), Mat((176, 138, 92), tex=eaten)),
    )
    for i in (-3, -2, -1, 1, 2, 3):
        s.add(Box((i * 16 + 2, -20, 13.2), (1.5, 56, 9.4), lumber((176, 138, 92), 1, 151, 0.25)))
    bad = Mat(
        (150, 112, 72),
        tex=lambda u, v, q, f: mix(
            lumber((168, 130, 86), 1, 152).tex(u, v, q, f),
            lin((40, 28, 18))[None, :] * np.ones((len(u), 3), np.float32),
            0.95 * smooth(noise(q[:, 1] * 0.2, q[:, 2] * 1.2, 3, 153, 0.9) + smooth(q[:, 1], 0, 26) * 0.9, 0.35, 0.75),
        ),
    )
    s.add(
        Box((2, -22, 13.8), (1.5, 52, 8.2), bad),
        Box((2.1, 5.4, 11.2), (0.8, 3.0, 3.0), bad, roll=8),
        Box((1.7, 5.8, 15.5), (0.5, 3.2, 2.2), bad, roll=-10),
    )
    s.add(Box((0, 0, 18.5), (150, 80, 1), lumber((186, 150, 102), 0, 154, 0.3)))
    mud = rough((122, 88, 58), 0.3, 2, 0.9, 155)
    s.add(
        pipe([(7 + 0.8 * np.sin(z), 1.7, z) for z in np.linspace(-2, 8, 7)], 0.5, mud),
        pipe([(-12 + 0.6 * np.sin(z * 1.3), 1.7, z) for z in np.linspace(-2, 8, 7)], 0.45, mud),
    )
    rng = np.random.default_rng(15)
    s.add(
        [
            Box((x, 2.7 + y, 8.6), (0.4 + 1.4 * a, 0.3, 0.25), plain((196, 160, 108), 0.2), turn=180 * a)
            for x, y, a in zip(rng.uniform(-9, 14, 30), rng.uniform(0, 2.6, 30), rng.uniform(0, 1, 30))
        ]
    )
    s.add(Cyl((13, -2, 9.2), (21, 1.5, 8.8), 0.6, plain((196, 60, 40), spec=0.3)), Cyl((8, -4.2, 9.4), (13, -2, 9.2), 0.18, CHROME))
    return s
