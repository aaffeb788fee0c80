"""Holds what the encoders at hand make of previews, and what libwebp and libjpeg-turbo would, against the pixels they were
given. Needs Pillow and scikit-image. Usage: preview_formats.py FOLDER, as `previews formats FOLDER FILE…` wrote it.

Printed for each: kilobytes, milliseconds of encoding (those of the program itself are printed by it), and the likeness to
the pixels given: SSIM of the brightness and PSNR, medians over the pictures.
"""

import io
import pathlib
import statistics
import sys
import time

import numpy
from PIL import Image
from skimage.metrics import structural_similarity

FOLDER = pathlib.Path(sys.argv[1])


def likeness(given, made):
    grey = lambda picture: numpy.asarray(picture.convert("L"), dtype=float)
    ssim = structural_similarity(grey(given), grey(made), data_range=255)
    apart = numpy.asarray(given, dtype=float) - numpy.asarray(made, dtype=float)
    mean = (apart**2).mean()
    return ssim, 99.0 if mean == 0 else 10 * numpy.log10(255**2 / mean)


def encoded(picture, kind, options):
    out = io.BytesIO()
    start = time.process_time()
    picture.save(out, kind, **options)
    return out.getvalue(), (time.process_time() - start) * 1000


def main():
    ways = {f"libwebp {q}, method {m}": ("WEBP", {"quality": q, "method": m}) for q, m in ((75, 0), (75, 4), (80, 4), (84, 4))}
    ways["libjpeg-turbo 82"] = ("JPEG", {"quality": 82, "subsampling": 2})
    found = {}
    for path in sorted(FOLDER.glob("*.png")):
        given = Image.open(path).convert("RGB")
        for ending in ("jpg", "webp"):
            bytes_ = path.with_suffix(f".{ending}").read_bytes()
            found.setdefault(f"here: {ending}", []).append((bytes_, None, given))
        for name, (kind, options) in ways.items():
            found.setdefault(name, []).append((*encoded(given, kind, options), given))
    for name, made in found.items():
        likes = [likeness(given, Image.open(io.BytesIO(bytes_)).convert("RGB")) for bytes_, _, given in made]
        size = statistics.median(len(bytes_) for bytes_, _, _ in made) / 1000
        times = [ms for _, ms, _ in made if ms is not None]
        took = f"{statistics.median(times):6.1f} ms" if times else "        –"
        ssim, psnr = (statistics.median(one) for one in zip(*likes))
        print(f"  {name:<22} {size:7.1f} kB {took}  SSIM {ssim:.4f}  PSNR {psnr:.1f} dB")


main()
