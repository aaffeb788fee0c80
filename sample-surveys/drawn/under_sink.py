"""Scenes inside the sink cabinet."""

from __future__ import annotations

from .surfaces import *  # noqa: F403 - the scene files are written in the words of `surfaces`
from .tracer import Ball, Box, Cyl, Mat, Scene, Sheet


def _cabinet(s, floor_top, floor_mat, inside, back):
    """An open sink base, 33 in wide, 22 in deep, its back wall at y = 22."""
    s.add(
        Box((0, 11, floor_top - 0.35), (33, 22, 0.7), floor_mat),
        Box((-16.9, 11, 20), (0.8, 23, 40), inside),
        Box((16.9, 11, 20), (0.8, 23, 40), inside),
        Box((0, 22.5, 20), (36, 1, 40), back),
        Box((0, 11, 36.2), (37, 25, 1.4), plain((120, 116, 108))),
        Box((-18.4, -0.4, 20), (2.4, 0.8, 36), inside),
        Box((18.4, -0.4, 20), (2.4, 0.8, 36), inside),
        Box((0, -0.4, floor_top - 1.2), (36, 0.8, 2.0), inside),
        Box((0, 3, 1.5), (36, 1, floor_top), Mat((60, 52, 44))),
        Box((0, -14, -0.5), (90, 30, 1), plain((150, 138, 118))),
    )


def _bowl(s, z, metal_mat):
    s.add(
        Box((0, 11, z + 4), (25, 16, 8), metal_mat),
        Cyl((-5, 11, z - 1.2), (-5, 11, z + 0.1), 2.1, CHROME),
        Cyl((-5, 11, z - 1.9), (-5, 11, z - 1.1), 1.5, CHROME),
    )


def _drain(s, bowl_z, stub, r, mat, nut, stub_mat, x=3.0):
    """Tailpiece, P-trap and arm to a stub-out in the wall at height `stub`."""
    x0 = -5
    low = stub - 3.6
    xu = x0 + 3.6
    pts = [(x0, 11, bowl_z - 1.5), (x0, 11, low)]
    pts += bend(((x0 + xu) / 2, 11, low), 1.8, 180, 360)[1:]
    pts += [(xu, 11, stub - 1.4)]
    pts += bend((xu, 12.4, stub - 1.4), 1.4, 180, 90, "yz", 6)[1:]
    pts += [(xu, 13.6, stub)]
    s.add(pipe(pts, r, mat))
    s.add(pipe([(xu, 13.6, stub), (x, 17.4, stub)], r, mat), Cyl((x, 17.2, stub), (x, 22, stub), r + 0.1, stub_mat))
    s.add(Cyl((x, 21.7, stub), (x, 22.05, stub), 2.0, stub_mat))
    for a, b in (
        ((x0, 11, low + 2.4), (x0, 11, low + 1.5)),
        ((xu, 11, low + 0.5), (xu, 11, low + 1.4)),
        ((x, 16.8, stub), (x, 17.8, stub)),
    ):
        s.add(Cyl(a, b, r + 0.34, nut))


def _stops(s, z, mat, hose):
    for x in (9.0, 12.4):
        s.add(Cyl((x, 22, z), (x, 19.5, z), 0.35, mat), Cyl((x, 21.7, z), (x, 22, z), 1.1, CHROME))
        s.add(Box((x, 19.4, z + 0.2), (1.0, 1.0, 1.5), mat), Cyl((x, 18.2, z), (x, 17.7, z), 0.75, mat))
        s.add(pipe([(x, 19.4, z + 1), (x + 0.4, 18.6, z + 4), (x * 0.75, 15.5, 26), (x * 0.55, 15, 34)], 0.24, hose))


def with_tape(house):
    """Trap, stub-out and shut-offs in one frame, a tape giving the height of the stub's center."""
    k = {
        "alder-street": dict(
            stub=18.5,
            floor=4.375,
            zero=0.0,
            tape_y=-1.0,
            mat=BRASS,
            stub_mat=STEEL,
            nut=BRASS,
            inside=plain((196, 188, 168), 0.1),
            back=plain((178, 168, 146), 0.14),
            bowl=25.5,
        ),
        "heron-court": dict(
            stub=17.5,
            floor=5.125,
            zero=5.125,
            tape_y=1.2,
            mat=PVC,
            stub_mat=PVC,
            nut=PVC,
            inside=wood((190, 152, 104), "v"),
            back=plain((206, 200, 186), 0.06),
            bowl=25.8,
        ),
    }[house]
    z = k["stub"]
    s = Scene(eye=(0.3, -19.5, z), look=(0.3, 8, z - 1.9), fov=64, flash=1.5, flash_reach=34, ambient_power=0.2)
    floor = (
        wood((172, 138, 96))
        if house == "heron-court"
        else stained(plain((176, 160, 128), 0.12), [(3, 5, 9, (84, 62, 40), 0.75, True), (-8, 2, 5, (70, 52, 36), 0.6, False)])
    )
    _cabinet(s, k["floor"], floor, k["inside"], k["back"])
    _bowl(s, k["bowl"], metal((186, 188, 190), 0.5, 30, 61))
    _drain(s, k["bowl"], z, 0.78, k["mat"], k["nut"], k["stub_mat"])
    _stops(
        s,
        14.5,
        metal((170, 160, 140), 0.4, 30, 62, 0.12, (92, 128, 112) if house == "alder-street" else None, 0.2, 2),
        CHROME if house == "heron-court" else COPPER,
    )
    s.add(tape_up(-8.6, k["tape_y"], k["zero"], 0, 22.5, 1.25))
    s.add(pipe([(-8.1, k["tape_y"] - 0.12, z), (3.0, 19.8, z)], 0.16, plain((196, 84, 40), 0.05)))
    if house == "heron-court":
        s.add(
            Cyl((11, 8, 5.1), (11, 8, 12), 2.2, plain((90, 140, 180), 0.04, spec=0.3)), Cyl((11, 8, 12), (11, 8, 13.5), 1.0, WHITE)
        )
    return s


def no_tape(house):
    """A dry cabinet floor, a copper-and-brass drain, shut-offs: the sink is to move, so nothing is measured here."""
    s = Scene(eye=(2.5, -19, 23), look=(-0.5, 11, 13.5), fov=66, flash=1.4, flash_reach=36, ambient_power=0.2, tilt=-2.5)
    _cabinet(s, 5, wood((186, 150, 100), seed=12), wood((162, 118, 74), "v", 14), plain((188, 184, 172), 0.08))
    _bowl(s, 26, metal((224, 222, 214), 0.3, 30, 63))
    _drain(s, 26, 17.25, 0.76, BRASS, BRASS, COPPER, x=3.5)
    _stops(s, 15, metal((168, 156, 132), 0.4, 30, 64, 0.12, (104, 138, 120), 0.25, 2), COPPER)
    s.add(
        Box((-10.5, 14, 8), (7, 5, 6), plain((196, 178, 150))),
        Cyl((10.5, 10, 5), (10.5, 10, 13), 2.3, plain((186, 62, 50), 0.05, spec=0.3)),
        Cyl((10.5, 10, 13), (10.5, 10, 14), 1.2, WHITE),
    )
    return s


def base_floor(house):
    """Looking down on the emptied cabinet floor: a swollen, stained board, and a pin meter on it."""
    s = Scene(eye=(-1.5, -9, 27), look=(0.8, 13, 5), fov=66, flash=1.5, flash_reach=30, ambient_power=0.22, tilt=3)
    board = stained(
        boards((178, 150, 108), 11, "v", 15, 0.08),
        [(3.5, 5.5, 8.5, (78, 56, 36), 0.8, True), (-9, 6, 4.5, (66, 48, 34), 0.7, True), (8, -4, 3.2, (96, 70, 46), 0.5, False)],
    )
    _cabinet(
        s, 4.4, board, plain((196, 188, 168), 0.12), stained(plain((182, 172, 150), 0.14), [(3, -14.5, 7, (96, 76, 52), 0.6, True)])
    )
    _drain(s, 25.5, 18.5, 0.78, BRASS, BRASS, STEEL)
    _stops(s, 12, metal((170, 160, 140), 0.4, 30, 62, 0.12, (92, 128, 112), 0.1, 2), COPPER)
    s.add(Box((3.6, 16.5, 4.75), (9, 0.16, 0.5), Mat((40, 30, 22)), turn=7))
    body = plain((222, 148, 40), 0.03, spec=0.2)
    s.add(
        Box((-7.5, 8.5, 5.15), (3.0, 6.4, 1.4), body, turn=-24),
        Sheet((-9.35, 8.2, 5.87), (2.1, -0.93, 0), (0.75, 1.7, 0), Mat(), letters("19", 2.2, 1.85, (24, 40, 24), (176, 196, 160))),
    )
    s.add(Cyl((-5.9, 11.6, 5.2), (-5.5, 12.7, 4.5), 0.06, CHROME), Cyl((-6.6, 11.9, 5.2), (-6.2, 13.0, 4.5), 0.06, CHROME))
    return s
