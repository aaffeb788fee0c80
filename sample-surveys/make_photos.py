#!/usr/bin/env python3
"""Draws the photographs of the invented houses: JPEG files with EXIF, as a phone would have left them.

Use:  python3 -m venv .venv && .venv/bin/pip install -r sample-surveys/requirements.txt
      .venv/bin/python sample-surveys/make_photos.py            all pictures (several minutes)
      .venv/bin/python sample-surveys/make_photos.py alder-street/under-sink …   only these
      … --draft FOLDER                                          small, quick, unlettered, elsewhere

With the pinned versions of requirements.txt a second run on the same machine gives the same bytes.
Which picture shows what, how it is held, and what its EXIF says: `drawn/album.py`.
Times are not kept here: each picture is taken a little before the first entry of survey.toml (or findings.toml) that names it.
"""

from __future__ import annotations

import argparse
import sys
import tomllib
from datetime import datetime, timedelta
from io import BytesIO
from pathlib import Path

from PIL import Image, ImageDraw
from PIL.TiffImagePlugin import IFDRational

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE))

from drawn.album import ALBUM  # noqa: E402
from drawn.surfaces import font  # noqa: E402
from drawn.tracer import photograph  # noqa: E402

LIMIT = 110_000
TURN_TO_STORE = {1: None, 3: Image.Transpose.ROTATE_180, 6: Image.Transpose.ROTATE_90, 8: Image.Transpose.ROTATE_270}


def taken_at(house: str, name: str, seconds: int) -> datetime:
    """When the picture was taken: `seconds` before the entry, or the record of findings, that first names it."""
    folder = HERE / house
    survey = tomllib.loads((folder / "survey.toml").read_text("utf-8"))
    for e in survey["entry"]:
        if f"photos/{name}.jpg" in e.get("photos", []):
            start = datetime.fromisoformat(survey["started"])
            return start + timedelta(minutes=e["minutes_after_start"], seconds=-seconds)
    findings = tomllib.loads((folder / "findings.toml").read_text("utf-8"))
    if any(f.get("photo") == f"findings-photos/{name}.jpg" for f in findings["finding"]):
        return datetime.fromisoformat(findings["recorded_at"]) - timedelta(seconds=seconds)
    raise SystemExit(f"{house}/{name}: no entry of survey.toml or findings.toml names this picture")


def degrees(x: float):
    """A coordinate as EXIF wants it: whole degrees, whole minutes, seconds to a hundredth."""
    x = abs(x)
    d = int(x)
    m = int((x - d) * 60)
    return (float(d), float(m), round(((x - d) * 60 - m) * 60, 2))


def exif_of(shot, when: datetime, size) -> Image.Exif:
    """The EXIF block of one picture."""
    e = Image.Exif()
    stamp = when.strftime("%Y:%m:%d %H:%M:%S")
    e[0x010E] = "Drawn stand-in; the house is invented"
    e[0x010F] = "Example Camera"
    e[0x0110] = "Example Camera"
    e[0x0112] = shot.orientation
    e[0x0132] = stamp
    e[0x011A] = e[0x011B] = IFDRational(72)
    e[0x0128] = 2
    e[0x0213] = 1
    sub = e.get_ifd(0x8769)
    sub[0x9000] = b"0232"
    sub[0xA000] = b"0100"
    sub[0x9003] = stamp
    sub[0x9004] = stamp
    if shot.offset:
        z = when.strftime("%z")
        for tag in (0x9010, 0x9011, 0x9012):
            sub[tag] = f"{z[:3]}:{z[3:]}"
    sub[0xA001] = 1
    sub[0xA002], sub[0xA003] = size
    if shot.gps:
        lat, lon = shot.gps
        g = e.get_ifd(0x8825)
        g[0] = b"\x02\x03\x00\x00"
        g[1], g[2] = ("N" if lat >= 0 else "S"), degrees(lat)
        g[3], g[4] = ("E" if lon >= 0 else "W"), degrees(lon)
    return e


def strip(img: Image.Image) -> Image.Image:
    """Letters the strip that says what the picture is."""
    d = ImageDraw.Draw(img, "RGBA")
    text = "drawn stand-in, invented house"
    f = font(19)
    w = d.textlength(text, font=f)
    x, y = img.width - w - 22, img.height - 32
    d.rectangle([x - 9, y - 5, img.width, img.height], fill=(20, 20, 20, 190))
    d.text((x, y), text, font=f, fill=(238, 234, 220, 255))
    return img


def draw(house, shot, draft=None):
    """Draws one picture and writes it; returns its path and size in bytes."""
    upright = (960, 1280) if shot.orientation in (6, 8) else (1280, 960)
    size = tuple(n // 2 for n in upright) if draft else upright
    seed = sum(ord(c) * (i + 1) for i, c in enumerate(house + shot.name))
    light = shot.scene(house).render(*size, fine=not draft)
    img = photograph(light, seed, warm=shot.warm, bow=((seed % 7 - 3) / 25, (seed % 5 - 2) / 25))
    if draft:
        path = Path(draft) / f"{house}--{shot.name}.jpg"
        path.parent.mkdir(parents=True, exist_ok=True)
        img.save(path, quality=80)
        return path, path.stat().st_size
    img = strip(img)
    turn = TURN_TO_STORE[shot.orientation]
    stored = img.transpose(turn) if turn is not None else img
    exif = exif_of(shot, taken_at(house, shot.name, shot.seconds_before), stored.size)
    for quality in range(84, 40, -4):
        out = BytesIO()
        stored.save(out, "JPEG", quality=quality, optimize=True, exif=exif)
        if out.tell() <= LIMIT:
            break
    path = HERE / house / shot.folder / f"{shot.name}.jpg"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(out.getvalue())
    return path, out.tell()


def main():
    a = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    a.add_argument("only", nargs="*", help="HOUSE or HOUSE/PICTURE")
    a.add_argument("--draft", metavar="FOLDER", help="small quick versions, written elsewhere")
    args = a.parse_args()
    for house, shots in ALBUM.items():
        for shot in shots:
            if args.only and house not in args.only and f"{house}/{shot.name}" not in args.only:
                continue
            path, n = draw(house, shot, args.draft)
            print(f"{path.relative_to(HERE) if not args.draft else path}  {n / 1000:.0f} kB", flush=True)


if __name__ == "__main__":
    main()
