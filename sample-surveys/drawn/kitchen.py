"""Scenes in the room itself: soffit, ceiling, wall, floor edge, range, window sill, shower floor."""

from __future__ import annotations

import numpy as np

from .surfaces import *  # noqa: F403 - the scene files are written in the words of `surfaces`
from .tracer import Ball, Box, Cyl, Mat, Scene, Sheet, lin, noise

ROOM_LAMP = ((0, 40, 84), (255, 226, 180), 1.5, 70)


def _cabinets(s, x0, x1, y, z0, z1, mat, door=15.0, depth=12.0):
    """A run of upper cabinets against a wall at y, doors facing -y."""
    s.add(Box(((x0 + x1) / 2, y - depth / 2, (z0 + z1) / 2), (x1 - x0, depth, z1 - z0), mat))
    n = max(1, round((x1 - x0) / door))
    w = (x1 - x0) / n
    for i in range(n):
        c = x0 + (i + 0.5) * w
        s.add(
            Box((c, y - depth - 0.4, (z0 + z1) / 2), (w - 0.5, 0.8, z1 - z0 - 0.6), mat),
            Box((c, y - depth - 0.85, (z0 + z1) / 2), (w - 5, 0.3, z1 - z0 - 5.5), mat),
            Ball((c + (w / 2 - 1.4) * (1 if i % 2 else -1), y - depth - 1.5, z0 + 3), 0.6, BRASS),
        )


def soffit(house):
    """The soffit over the cabinets: stepped and on one side, along the cabinets with a register, or all round."""
    s = Scene(eye=(-14, -58, 56), look=(4, 60, 82), fov=68, flash=1.0, flash_reach=95, ambient_power=0.22, tilt=1.5)
    ceil = {"alder-street": 103.5, "quarry-bend": 96, "heron-court": 96}[house]
    drop = {"alder-street": 13, "quarry-bend": 12, "heron-court": 12}[house]
    wall = plain({"alder-street": (206, 198, 170), "quarry-bend": (196, 204, 190), "heron-court": (216, 206, 190)}[house], 0.06, 60)
    top = plain((218, 212, 200), 0.05, 60)
    box = plain({"alder-street": (198, 188, 164), "quarry-bend": (206, 210, 198), "heron-court": (220, 212, 198)}[house], 0.06, 50)
    cab = {
        "alder-street": plain((226, 220, 200), 0.05, 20, spec=0.1),
        "quarry-bend": wood((134, 88, 50), "v", 16, 0.3, 0.08),
        "heron-court": wood((196, 156, 104), "v", 17, 0.25, 0.08),
    }[house]
    s.add(
        Box((0, 60.5, 50), (240, 1, 110), wall),
        Box((75.5, 0, 50), (1, 160, 110), wall),
        Box((0, 0, ceil + 0.5), (240, 160, 1), top),
        Box((0, 48, 35.4), (150, 25, 1.4), plain((150, 140, 126), 0.2, 6)),
        Box((0, 60, 45), (150, 0.6, 18), tiles((226, 222, 206), 4.25, seed=18)),
    )
    zs = ceil - drop
    s.add((30, -10, ceil - 4) and Cyl((-10, 8, ceil - 3), (-10, 8, ceil), 6.5, Mat((255, 244, 220), glow=1.4)))
    s.lamps.append(((-10, 8, ceil - 5), (255, 222, 170), 0.75, 60))
    if house == "alder-street":
        _cabinets(s, -20, 75, 60, 54, zs, cab)
        s.add(Box((27.5, 53, zs + drop / 2), (95, 14, drop), box), Box((63, 51, zs + drop / 2 - 2.5), (24, 20, drop + 5), box))
        s.add(
            Box((-46, 59.8, 62), (34, 1.5, 44), plain((232, 226, 208))),
            Box((-46, 59.3, 62), (28, 1.5, 38), Mat((190, 210, 235), glow=0.75)),
            Box((-46, 58.5, 62), (28, 1, 1.6), plain((232, 226, 208))),
        )
    elif house == "quarry-bend":
        _cabinets(s, -58, 75, 60, 54, zs, cab)
        s.add(Box((8, 53.5, zs + drop / 2), (134, 13, drop), box))
        s.add(frame_grille((28, 46.9, zs + 6), 14, 6, 9))
        for x in (-34, 52):
            s.add(
                Cyl((x, 49, zs - 0.3), (x, 49, zs), 3, WHITE),
                Cyl((x, 49, zs - 0.35), (x, 49, zs - 0.2), 2.2, Mat((255, 240, 200), glow=1.6)),
            )
            s.lamps.append(((x, 46, zs - 2), (255, 220, 160), 0.22, 14))
    else:
        _cabinets(s, -58, 60, 60, 54, zs, cab)
        s.add(Box((8, 53.75, zs + drop / 2), (150, 12.5, drop), box), Box((69, 0, zs + drop / 2), (12.5, 150, drop), box))
        s.add(Box((69.5, 20, (54 + zs) / 2), (12, 52, zs - 54), cab))
        for y in (2, 20, 38):
            s.add(Box((63.2, y, (54 + zs) / 2), (0.8, 16.6, zs - 55), cab), Ball((62.3, y - 6, 57), 0.6, BRASS))
        s.add(Box((-52, 53.75, zs + drop / 2), (30, 12.5, drop), box))
    s.add(plate(-32 if house != "alder-street" else -8, 44, 60), plate(22, 44, 60))
    return s


def soffit_drop(house):
    """A tape hooked at the ceiling, hanging past the lower edge of the soffit at 12 in."""
    z0 = 84.0
    s = Scene(eye=(2.5, -21, z0 - 1.5), look=(1.2, 2, z0 + 3.2), fov=62, flash=1.2, flash_reach=42, ambient_power=0.26, tilt=-1.5)
    pop = rough((214, 208, 196), 0.12, 3.2, 1.1, 66)
    s.add(
        Box((0, 10, 96.5), (160, 120, 1), pop),
        Box((0, 8.5, z0 + 6), (160, 13, 12), plain((206, 210, 198), 0.06, 50)),
        Box((0, 15.5, 60), (160, 1, 80), plain((196, 204, 190), 0.05, 50)),
        Box((0, 9, z0 - 12), (70, 12, 23.4), wood((134, 88, 50), "v", 16, 0.3, 0.08)),
    )
    for x in (-17.2, 0.6, 18.4):
        s.add(Box((x, 2.6, z0 - 12.2), (17, 0.8, 22.4), wood((140, 92, 52), "v", 19, 0.3, 0.1)))
    s.add(Sheet((-2.2, 1.6, 96 - 15.5), (1.25, 0, 0), (0, 0, 15.5), Mat(spec=0.2), tape_face(0, 15.5, 1.25, down=True)))
    s.add(
        Box((-1.6, 1.5, 95.8), (1.4, 1.0, 0.25), CHROME),
        Box((-1.6, 1.2, 80.2), (3.2, 1.8, 3.0), plain((70, 74, 80), 0.05, spec=0.3)),
    )
    s.add(frame_grille((19, 1.9, z0 + 6.2), 12, 6, 9))
    return s


def ceiling(house):
    """Looking up: a dry brown ring beside a hairline crack in plaster, or a sprayed texture without marks."""
    if house == "alder-street":
        base = plain((206, 198, 180), 0.07, 60, 67)
        ring = stained(base, [(14, 10, 15, (132, 92, 48), 0.5, True), (21, 2, 7.5, (126, 90, 52), 0.35, True)])

        def tex(u, v, q, f):
            c = ring.tex(u, v, q, f)
            path = 0.42 * u + 6 * noise(u, 0 * u, 30, 68, 1.4) + 1.2 * noise(u, 0 * u, 8, 69, 1.0)
            c = c * (1 - 0.62 * np.exp(-(((v - path + 15) / 0.16) ** 2)))[:, None]
            return c

        top = Mat(base.color, tex=tex)
        wall = plain((206, 198, 170), 0.06, 60)
    else:
        top = rough((208, 202, 190), 0.14, 3.0, 1.25, 66)
        wall = plain((196, 204, 190), 0.05, 60)
    s = Scene(eye=(-18, -34, 58), look=(6, 8, 96), fov=66, flash=1.1, flash_reach=60, ambient_power=0.24, tilt=6)
    s.add(Box((0, 0, 96.5), (180, 160, 1), top), Box((0, 60, 48), (180, 1, 97), wall), Box((70, 0, 48), (1, 160, 97), wall))
    s.add(
        Box((0, 58.9, 94.2), (180, 1.6, 3.2), plain((228, 222, 206), 0.03)),
        Box((68.9, 0, 94.2), (1.6, 160, 3.2), plain((228, 222, 206), 0.03)),
    )
    s.add(Cyl((-24, 16, 95), (-24, 16, 96), 7, BRASS), Ball((-24, 16, 91.5), 5.6, Mat((255, 242, 214), glow=1.1)))
    s.lamps.append(((-24, 16, 85), (255, 220, 168), 0.9, 34))
    if house == "quarry-bend":
        s.add(frame_grille((26, 58, 82), 14, 7, 9))
    return s


def wall(house):
    """The whole wall to open or remove, floor to ceiling, with what is on it."""
    s = Scene(eye=(4, -104, 52), look=(0, 0, 47), fov=64, flash=1.0, flash_reach=130, ambient_power=0.36, tilt=-1)
    top = {"alder-street": 103.5}.get(house, 96)
    color = {"alder-street": (176, 188, 176), "quarry-bend": (214, 200, 168), "heron-court": (222, 214, 202)}[house]
    floor = {
        "alder-street": tiles((168, 150, 120), 9, (120, 106, 84), 0.12, 70),
        "quarry-bend": tiles((176, 160, 132), 9, (140, 126, 104), 0.1, 71),
        "heron-court": tiles((206, 192, 170), 12, seed=72),
    }[house]
    trim = plain((232, 226, 210), 0.03, 20, spec=0.1)
    paper = plain(color, 0.06, 70, 73)
    s.add(
        Box((0, 0.5, top / 2), (240, 1, top), paper),
        Box((0, -60, -0.5), (240, 122, 1), floor),
        Box((0, -60, top + 0.5), (240, 122, 1), plain((222, 216, 204), 0.04, 60)),
        Box((0, -0.6, 3), (240, 1.2, 6 if house == "alder-street" else 3.5), trim),
        Box((66, -60, top / 2), (1, 122, top), paper),
    )
    s.lamps.append(((-50, -70, 80), (255, 230, 190), 0.9, 70))
    if house == "alder-street":
        iron = plain((206, 200, 184), 0.05, 10, 74, 0.2)
        for i in range(11):
            x = -17 + i * 2.7
            for y in (-3.2, -6.0):
                s.add(Cyl((x, y, 5), (x, y, 28), 1.05, iron), Ball((x, y, 28), 1.05, iron))
            s.add(Box((x, -4.6, 5.5), (2.1, 5, 2.2), iron), Box((x, -4.6, 26.5), (2.1, 5, 2.2), iron))
        for x in (-17, 10):
            s.add(Box((x, -4.6, 2), (1.6, 3, 4.5), iron))
        s.add(
            Cyl((12, -4.6, 6), (17, -4.6, 6), 0.7, iron),
            Cyl((17, -4.6, 0), (17, -4.6, 6), 0.7, IRON_RUST),
            Ball((17, -4.6, 7.6), 1.5, BRASS),
        )
        s.add(
            Box((46, -0.4, 41), (34, 1.6, 84), trim),
            Box((46, -0.9, 40.5), (28, 1.5, 80), Mat((64, 50, 38))),
            Box((46, 0, 84.5), (38, 3, 5), trim),
        )
        s.add(plate(-34, 14, 0), plate(22, 14, 0), plate(24, 48, 0, "switch"), plate(-41, 14, 0, "jack"))
        s.add(
            Cyl((-28, -1.2, 60), (-28, 0, 60), 2.2, BRASS),
            Box((8, -0.5, 64), (22, 1, 16), wood((120, 84, 48))),
            Box((8, -1.1, 64), (19, 0.3, 13), plain((136, 150, 140), 0.5, 12, 75)),
        )
    else:
        n = 4
        for i in range(n):
            s.add(plate(-44 + i * 27, 14 if i != 2 else 46, 0, "outlet" if i != 2 else "switch"))
        s.add(
            Box((-20, -0.5, 60), (26, 1, 18), wood((92, 70, 50))),
            Box((-20, -1.1, 60), (23, 0.3, 15), plain((150, 160, 176), 0.6, 10, 76)),
        )
        if house == "heron-court":
            s.add(plate(-29, 14, 0, "jack"))
            s.add(Box((-30, -7, 29.4), (26, 11, 1.2), wood((150, 110, 70))))
            s.add([Box((x, -7, 14.5), (1.6, 9, 29), wood((150, 110, 70), "v")) for x in (-42, -18)])
            s.add(
                Box((-32, -7, 31.2), (9, 6, 2), BLACK),
                Cyl((-35, -5, 32), (-36.5, -5, 38), 0.3, BLACK),
                Cyl((-29, -5, 32), (-27.5, -5, 38), 0.3, BLACK),
            )
            s.add(pipe([(-31, -4, 30.6), (-26, -2, 24), (-27.5, -0.8, 17), (-29, -0.5, 14)], 0.2, plain((60, 100, 170))))
            s.add(Ball((-30.5, -10.1, 31.4), 0.25, Mat((90, 255, 120), glow=1.5)))
        else:
            s.add(
                Box((40, -7, 30), (22, 13, 1.4), wood((128, 86, 48))),
                [Box((x, -7, 15), (1.6, 11, 30), wood((128, 86, 48), "v")) for x in (31, 49)],
            )
            s.add(
                Cyl((40, -7, 30.7), (40, -7, 40), 2.4, plain((80, 110, 130), 0.1, spec=0.4)),
                Cyl((40, -7, 44), (40, -7, 55), 6, plain((230, 214, 178), 0.05)),
            )
    return s


def floor_edge(house):
    """The layers of the floor, seen at a threshold or at a lifted register."""
    s = Scene(eye=(1.5, -9.5, 10.5), look=(0.4, 2.6, -0.5), fov=56, flash=1.4, flash_reach=20, ambient_power=0.24, tilt=-2)
    if house == "alder-street":
        s.eye, s.look = (0.5, -11, 7.0), (0.6, 1.4, -0.1)
        s.add(Box((0, -12, -2.0), (80, 24, 1.0), boards((150, 104, 62), 2.4, "u", 78)))
        layers = [
            (1.0, boards((142, 108, 70), 3.4, "u", 79)),
            (0.3, plain((58, 54, 50), 0.3, 4)),
            (0.42, wood((170, 140, 92))),
            (0.22, tiles((120, 84, 66), 9, (60, 46, 38), 0.06, 80, fleck=0.3)),
            (0.12, Mat((28, 25, 22))),
            (0.5, wood((160, 128, 84), seed=23)),
            (0.16, tiles((196, 184, 150), 4.5, (150, 136, 104), 0.12, 81, fleck=0.3)),
        ]
        z, y = -1.6, 0.2
        for t, m in layers:
            s.add(Box((0, y + 25, z + t / 2), (80, 50, t), m))
            z += t
            y += 0.42
        s.add(
            Box((-17, 6, 12), (6, 12, 26), plain((226, 218, 198), 0.05, 10)),
            Sheet((6, -1.2, -1.5), (1.0, 0, 0), (0, 0.6, 3.0), Mat(spec=0.1), tape_face(0, 3.06, 1.0, 96)),
        )
        s.add(Box((7.2, -3.5, -0.6), (3.4, 3, 1.8), plain((70, 74, 80), 0.05, spec=0.3)))
        return s
    if house == "quarry-bend":
        base, stack = (
            CONCRETE,
            [
                (0.12, Mat((22, 20, 18))),
                (0.34, tiles((142, 120, 96), 9, (70, 58, 48), 0.06, 82, fleck=0.35)),
                (0.1, Mat((24, 22, 20))),
                (0.3, tiles((196, 186, 158), 6, (160, 146, 120), 0.12, 83, fleck=0.25)),
            ],
        )
    else:
        base, stack = (
            lumber((190, 156, 108), 0, 84, 0.3),
            [(0.28, plain((170, 166, 156), 0.2, 3)), (0.5, tiles((206, 190, 166), 12, (150, 140, 126), 0.3, 85, spec=0.3))],
        )
    hole, far = 5.0, 40
    thick = 1.6 if house == "quarry-bend" else 0.75
    z = -thick - sum(t for t, _ in stack) + 0.6
    ledge = 0.0
    for t, m in [(thick, base), *stack]:
        for dx, dy, w, h in (
            (0, hole / 2 + ledge + far / 2, 90, far),
            (0, -hole / 2 - ledge - far / 2, 90, far),
            (-7 - ledge - 20, 0, 40, hole + 2 * ledge),
            (7 + ledge + 20, 0, 40, hole + 2 * ledge),
        ):
            s.add(Box((dx, dy + 1.2, z + t / 2), (w, h, t), m))
        z += t
        ledge += 0.22
    for dx, dy, w, h in ((0, hole / 2, 14.4, 0.1), (0, -hole / 2, 14.4, 0.1), (-7.1, 0, 0.1, hole), (7.1, 0, 0.1, hole)):
        s.add(Box((dx, dy + 1.2, -5.6), (w, h, 9), GALV))
    s.add(Box((0, 1.2, -10), (15, 6, 0.3), GALV))
    grille = plain((122, 88, 52), 0.1, spec=0.3) if house == "quarry-bend" else WHITE
    lid = frame_grille((-1.5, 9.2, z + 0.2), 11, 4.4, 13, grille, "z")
    s.add(lid)
    s.add(Box((11.0, 3, z + 0.1), (0.9, 5.5, 0.16), plain((210, 190, 60)), turn=28))
    return s


def range_gap(house):
    """Beside and behind the range, low: what joins it to gas, or which outlet feeds it."""
    s = Scene(eye=(-15, -20, 14), look=(6, 12, 10.5), fov=62, flash=1.5, flash_reach=34, ambient_power=0.2, tilt=2)
    old = house == "alder-street"
    s.add(
        Box((0, 20.5, 30), (120, 1, 60), plain((188, 176, 146), 0.16, 30, 86) if old else plain((210, 202, 190), 0.06)),
        Box(
            (0, 0, -0.5),
            (120, 80, 1),
            tiles((178, 160, 124), 4.5, (140, 124, 94), 0.12, 87, fleck=0.3) if old else tiles((206, 190, 166), 12, seed=88),
        ),
        Box((0, 19.7, 2), (120, 1.2, 4), plain((224, 216, 196))),
    )
    body = plain((226, 224, 216), 0.03, 20, 89, 0.35)
    s.add(
        Box((29, -2, 20), (26, 24, 32), body),
        Box((29, 10.4, 20), (22, 0.8, 28), GALV),
        Box((29, -2, 2.5), (24, 20, 3), BLACK),
        Box((29, -2, 36.6), (27, 25, 1.2), BLACK),
    )
    s.add(Box((-31, 4, 17), (24, 32, 34), wood((150, 112, 70), "v", 90)))
    dust = plain((120, 110, 96), 0.5, 3, 91)
    s.add([Ball((x, y, 0.2), r, dust) for x, y, r in ((-4, 12, 0.5), (3, 9, 0.35), (8, 15, 0.6), (-9, 6, 0.3), (0, 16, 0.45))])
    if old:
        s.add(Cyl((2, 20, 5), (2, 15.5, 5), 0.55, IRON_RUST), Cyl((2, 20, 5), (2, 19.4, 5), 1.3, IRON_RUST))
        s.add(
            Box((2, 14.6, 5), (1.5, 1.8, 1.7), BRASS),
            Box((2, 14.6, 6.7), (0.5, 2.6, 0.5), BRASS, turn=0),
            Cyl((2, 13.8, 5), (2, 12.6, 5), 0.75, BRASS),
        )
        pts = [(2, 12.6, 5), (2, 9.5, 5.4), (4, 7.5, 7.5), (8, 9, 9.5), (11, 12, 9), (14, 13, 8)]
        pts2 = []
        for a, b in zip(pts, pts[1:]):
            pts2 += [tuple(np.array(a) + (np.array(b) - np.array(a)) * t) for t in np.linspace(0, 1, 8)[:-1]]
        pts2.append(pts[-1])
        s.add(pipe(pts2, 0.36, BRASS))
        s.add([Cyl(p, tuple(np.add(p, np.subtract(n, p) * 0.45)), 0.5, BRASS) for p, n in zip(pts2, pts2[1:])])
        s.add(Cyl((14, 13, 8), (17, 12, 8), 0.7, BRASS))
    else:
        s.add(Box((5, 19.6, 7), (5, 1.2, 5), BLACK), Cyl((5, 19, 7), (5, 18.6, 7), 2.0, plain((44, 42, 40), 0.05, spec=0.3)))
        for a in (90, 215, 325):
            c, d = np.cos(np.radians(a)), np.sin(np.radians(a))
            s.add(Box((5 + 1.0 * c, 18.5, 7 + 1.0 * d), (0.25, 0.2, 0.8), Mat((6, 6, 6)), roll=a - 90))
        s.add(
            pipe(sag((16, 12, 10), (9, 14, 1.0), 1.0) + [(-3, 12, 0.8), (-6, 14, 0.8)], 0.45, BLACK),
            Box((-7.5, 14.6, 1.2), (3.2, 2.6, 1.8), BLACK, turn=30),
        )
        s.add(plate(-6, 16, 20))
    return s


def window_sill(house):
    """The kitchen window from inside: a stained, soft sill with lifting paint."""
    s = Scene(eye=(-5, -21, 52), look=(1.5, 6, 43), fov=62, flash=1.0, flash_reach=38, ambient_power=0.3, tilt=-2)
    trim = plain((228, 222, 208), 0.04, 12)
    wallm = stained(
        plain((216, 206, 190), 0.06, 40), [(6, -17, 9, (150, 116, 76), 0.65, True), (-8, -19, 5, (128, 104, 72), 0.5, True)]
    )
    s.add(
        Box(
            (0, 5.5, 20),
            (100, 1, 38),
            stained(
                plain((216, 206, 190), 0.06, 40), [(5, 14, 9, (150, 116, 76), 0.65, True), (-9, 15, 5.5, (118, 100, 72), 0.6, True)]
            ),
        )
    )
    s.add(Box((-38, 5.5, 60), (40, 1, 50), wallm), Box((38, 5.5, 60), (40, 1, 50), plain((216, 206, 190), 0.06, 40)))
    sill = stained(
        plain((226, 220, 206), 0.05, 8),
        [(5, -1, 6.5, (84, 62, 42), 0.85, False), (-9, 0.5, 4, (104, 80, 54), 0.7, False), (12, 1, 3, (60, 46, 34), 0.8, False)],
    )
    s.add(Box((0, 4.4, 39.5), (42, 6, 1.1), sill), Box((0, 4.2, 37.4), (38, 1.0, 3.2), trim))
    for x in (-18.6, 18.6):
        s.add(Box((x, 4.6, 58), (3, 1.2, 38), trim))
    s.add(Box((0, 7, 41.3), (35, 1.6, 2.2), trim), Box((0, 7, 60), (35, 1.6, 2.0), trim), Box((0, 7, 50), (0.9, 1.2, 20), trim))
    s.add(
        Box(
            (0, 9, 60),
            (40, 0.2, 42),
            Mat(
                (196, 214, 232),
                glow=0.75,
                tex=lambda u, v, q, f: mix(
                    lin((196, 214, 234))[None, :] * np.ones((len(u), 3), np.float32),
                    lin((112, 132, 84))[None, :] * (1 + 0.4 * noise(u, v, 12, 92, 0.9))[:, None],
                    smooth(1.6 * noise(u, v, 30, 96, 1.2) - (v + 10) * 0.25, -0.3, 0.3),
                ),
            ),
        )
    )
    s.lamps.append(((0, 6, 66), (220, 232, 255), 0.5, 30))
    flake = plain((222, 214, 196), 0.1, 3)
    for x, y, a, w in (
        (3, 2.6, 30, 1.5),
        (7, 3.4, -20, 2.0),
        (9.5, 2.2, 70, 1.2),
        (-8, 3, 15, 1.6),
        (12.6, 3.2, -50, 1.0),
        (5, 4.6, 80, 1.2),
    ):
        s.add(Box((x, y, 40.25), (w, 0.9, 0.06), flake, turn=a, pitch=24))
    s.add(
        Cyl((-14, 4.5, 40), (-14, 4.5, 43), 1.8, plain((178, 96, 64), 0.1)),
        [
            Ball((-14 + dx, 4.5 + dy, 44.5 + dz), 1.1, plain((70, 116, 60), 0.3, 4))
            for dx, dy, dz in ((0, 0, 0), (1, 0.5, 0.8), (-1, 0.2, 0.9), (0.2, -0.6, 1.6))
        ],
    )
    return s


def shower_floor(house):
    """Shower floor and lowest tiles: joints dark, one tile loose, drain in the middle."""
    s = Scene(eye=(-6, -30, 40), look=(1, 6, 1), fov=60, flash=1.4, flash_reach=48, ambient_power=0.25, tilt=3)
    small = tiles((210, 204, 190), 2.0, (176, 170, 158), 0.22, 93, 0.95, 0.3)
    big = tiles((222, 218, 206), 4.25, (186, 180, 168), 0.2, 94, 0.9, 0.35)
    s.add(
        Box((0, 0, -0.5), (34, 34, 1), small),
        Box((0, 17.5, 25), (36, 1, 52), big),
        Box((-17.5, 0, 25), (1, 36, 52), big),
        Box((17.5, 0, 25), (1, 36, 52), big),
    )
    s.add(Box((0, -18.5, 1.5), (36, 4, 5), big), Box((0, -29, -2), (60, 18, 1), tiles((190, 180, 164), 8, seed=95)))
    s.add(
        Cyl((0, 1, 0), (0, 1, 0.12), 2.1, CHROME),
        [
            Cyl((0.9 * np.cos(a), 1 + 0.9 * np.sin(a), 0.1), (0.9 * np.cos(a), 1 + 0.9 * np.sin(a), 0.15), 0.28, Mat((20, 20, 20)))
            for a in np.linspace(0, 2 * np.pi, 7)[:-1]
        ],
    )
    s.add(
        Box((10.2, 16.6, 6.4), (4.0, 0.5, 4.0), plain((216, 210, 198), 0.06, 5, spec=0.3), roll=7),
        Box((10.3, 16.95, 6.3), (4.3, 0.15, 4.3), Mat((30, 26, 22))),
    )
    s.add(Box((-11, 13.5, 0.9), (4, 2.4, 1.6), plain((236, 222, 196), 0.05, spec=0.2), turn=20))
    return s
