"""Which picture shows what, how the phone was held, and what its EXIF carries.

Coordinates are invented and lie in the open ocean, far from any house; they are there so that their removal can be tested.
Orientation is the EXIF number: 6 and 8 are pictures held upright (960 x 1280 when shown), 3 is a phone held upside down.
"""

from __future__ import annotations

from dataclasses import dataclass

from . import below, kitchen, opened, under_sink


@dataclass(frozen=True)
class Shot:
    """One picture: its name, the scene, how the phone was held, and the facts its EXIF carries."""

    name: str
    scene: object
    orientation: int = 1
    offset: bool = True
    gps: tuple | None = None
    seconds_before: int = 25
    warm: float = 1.0
    folder: str = "photos"


FOUND = "findings-photos"

ALBUM = {
    "alder-street": [
        Shot("sink-base", under_sink.base_floor, seconds_before=31, warm=1.05),
        Shot("under-sink", under_sink.with_tape, 3, gps=(-38.512, -24.207), seconds_before=18, warm=1.05),
        Shot("soffit", kitchen.soffit, seconds_before=40, warm=1.1),
        Shot("ceiling-ring", kitchen.ceiling, 3, offset=False, seconds_before=22, warm=1.12),
        Shot("wall-radiator", kitchen.wall, 6, seconds_before=35, warm=1.08),
        Shot("floor-edge", kitchen.floor_edge, seconds_before=27),
        Shot("range-gas", kitchen.range_gap, 8, offset=False, seconds_before=20, warm=1.05),
        Shot("joists-below", below.joists, gps=(-38.513, -24.205), seconds_before=44),
        Shot("pipe-wrap", below.pipe_wrap, seconds_before=16),
        Shot("panel", below.panel, 6, seconds_before=29),
        Shot("water-main", below.water_main, gps=(-38.511, -24.209), seconds_before=38),
        Shot("soffit-opened", opened.soffit, seconds_before=600, folder=FOUND),
        Shot("wall-opened", opened.wall, 8, offset=False, gps=(-38.512, -24.207), seconds_before=420, folder=FOUND),
    ],
    "quarry-bend": [
        Shot("under-sink", under_sink.no_tape, seconds_before=26),
        Shot("soffit", kitchen.soffit, gps=(-45.204, -130.118), seconds_before=33, warm=1.1),
        Shot("soffit-drop", kitchen.soffit_drop, 6, seconds_before=19, warm=1.06),
        Shot("ceiling-texture", kitchen.ceiling, 3, seconds_before=24, warm=1.1),
        Shot("wall-to-open", kitchen.wall, 8, offset=False, seconds_before=37, warm=1.06),
        Shot("floor-edge", kitchen.floor_edge, gps=(-45.205, -130.117), seconds_before=15),
        Shot("slab-crack", below.slab, seconds_before=28),
        Shot("panel", below.panel, 6, offset=False, seconds_before=21),
        Shot("water-main", below.water_main, seconds_before=42),
        Shot("roof-vents", below.roof, gps=(-45.203, -130.119), seconds_before=34, warm=0.99),
        Shot("soffit-opened", opened.soffit, 3, seconds_before=900, folder=FOUND),
        Shot("slab-trench", opened.trench, gps=(-45.204, -130.118), seconds_before=300, folder=FOUND),
    ],
    "heron-court": [
        Shot("under-sink", under_sink.with_tape, gps=(-48.871, -123.402), seconds_before=23),
        Shot("soffit", kitchen.soffit, 3, seconds_before=30, warm=1.08),
        Shot("wall-to-open", kitchen.wall, 6, seconds_before=36, warm=1.05),
        Shot("window-sill", kitchen.window_sill, offset=False, seconds_before=17, warm=0.98),
        Shot("floor-edge", kitchen.floor_edge, seconds_before=25),
        Shot("range-space", kitchen.range_gap, 8, seconds_before=32),
        Shot("crawl", below.crawl, gps=(-48.872, -123.401), offset=False, seconds_before=45),
        Shot("panel", below.panel, 8, seconds_before=20),
        Shot("water-main", below.water_main, seconds_before=39),
        Shot("attic", below.attic, 3, gps=(-48.870, -123.403), seconds_before=41),
        Shot("shower-floor", kitchen.shower_floor, 6, seconds_before=28),
        Shot("window-wall-opened", opened.window_wall, seconds_before=540, folder=FOUND),
        Shot("sill-opened", opened.sill, 1, offset=False, gps=(-48.871, -123.402), seconds_before=240, folder=FOUND),
    ],
}
