"""Measures the command line from outside, as a person at the keyboard has it: every figure includes the start of the
program, the opening of the record and the save. Only the standard library. Usage: bench.py PROGRAM

Printed: recording one answer (median and 99th percentile of 300), assessing the largest sample house (median of 5),
sealing 200 photographs of 4 MB beside `sha256sum` and `cp` of the same files.
"""

import os
import pathlib
import random
import shutil
import statistics
import subprocess
import sys
import tempfile
import time

PROGRAM = sys.argv[1]
SAMPLES = pathlib.Path("sample-surveys")
ANSWERS, PHOTOS, PHOTO_BYTES = 300, 200, 4_000_000


def run(*words, home):
    """Runs the program and returns how long it took, in seconds."""
    return measured(*words, home=home)[0]


def measured(*words, home):
    """Runs the program; how long it took, in seconds, and the most memory it held, in bytes."""
    command = [PROGRAM, "--home", str(home), "--by", "Bench", *map(str, words)]
    with tempfile.TemporaryFile() as said:
        before = time.perf_counter()
        child = subprocess.Popen(command, stdin=subprocess.DEVNULL, stdout=said, stderr=said)
        _, status, usage = os.wait4(child.pid, 0)
        took = time.perf_counter() - before
        child.returncode = os.waitstatus_to_exitcode(status)
        if child.returncode:
            said.seek(0)
            sys.exit(f"{' '.join(command)}\nexit {child.returncode}\n{said.read().decode()}")
    return took, usage.ru_maxrss * 1024  # Linux counts in KiB


def line(what, value):
    print(f"  {what:<58} {value}")


def ms(seconds):
    return f"{seconds * 1000:8.1f} ms"


def answers(room):
    """One answer after another into one house, corrections of each other, as a surveyor at the tape makes them."""
    run("new", "Bench house", home=room)
    took = []
    for n in range(ANSWERS):
        took.append(run("record", "Bench house", "stub-height", f"{18 + n % 3} {1 + 2 * (n % 8)}/16 in", home=room))
    took.sort()
    line(f"record one answer, saved to the disk: median of {ANSWERS}", ms(statistics.median(took)))
    line("  99th percentile", ms(took[int(0.99 * ANSWERS) - 1]))
    bare = sorted(run("show", home=room) for _ in range(50))
    line("  of which start of the program and opening (show): median", ms(statistics.median(bare)))


def assessment(room):
    """The largest sample house, replayed by the demo, assessed again."""
    made = room / "demo"
    run("demo", "--samples", SAMPLES, "--into", made, home=room / "unused")
    sizes = {}
    for folder in sorted(p for p in SAMPLES.iterdir() if (p / "survey.toml").is_file()):
        text = (folder / "survey.toml").read_text(encoding="utf-8")
        label = next(row.split("=", 1)[1].strip().strip('"') for row in text.splitlines() if row.startswith("label"))
        sizes[label] = text.count("[[entry]]")
    largest = max(sizes, key=sizes.get)
    took = [run("assess", largest, home=made / "device") for _ in range(5)]
    line(f"assess {largest} ({sizes[largest]} entries): median of 5", ms(statistics.median(took)))


def photographs(room):
    """Distinct files of camera size from the sample photographs: comment segments of random bytes, which any reader of
    JPEG skips."""
    folder = room / "photos"
    folder.mkdir()
    plain = sorted(SAMPLES.rglob("*.jpg"))
    draw = random.Random(1)
    for n in range(PHOTOS):
        data = plain[n % len(plain)].read_bytes()
        filler = bytearray()
        while len(data) + len(filler) < PHOTO_BYTES:
            filler += b"\xff\xfe\xff\xff" + draw.randbytes(0xFFFF - 2)
        # After the first APPn segments, where readers look for EXIF.
        at = 2
        while data[at] == 0xFF and 0xE0 <= data[at + 1] <= 0xEF:
            at += 2 + int.from_bytes(data[at + 2 : at + 4], "big")
        (folder / f"{n:02}.jpg").write_bytes(data[:at] + filler + data[at:])
    return sorted(folder.iterdir())


def sealing(room):
    files = photographs(room)
    run("new", "Photo house", home=room)
    for file in files:
        run("photo", "Photo house", file, home=room)
    run("assess", "Photo house", home=room)
    os.sync()
    took, peaks = [], []
    for n in range(3):
        into = room / f"packets-{n}"
        into.mkdir()
        seconds, most = measured("seal", "Photo house", "--into", into, home=room)
        took.append(seconds)
        peaks.append(most)
    before = time.perf_counter()
    subprocess.run(["sha256sum", *files], check=True, stdout=subprocess.DEVNULL)
    copies = room / "copies"
    copies.mkdir()
    subprocess.run(["cp", *files, copies], check=True)
    plain = time.perf_counter() - before
    megabytes = sum(file.stat().st_size for file in files) / 1e6
    line(f"seal {len(files)} photographs, {megabytes:.0f} MB: median of 3", ms(statistics.median(took)))
    line("  sha256sum and cp of the same files", ms(plain))
    line("  ratio", f"{statistics.median(took) / plain:8.2f}")
    line("  most memory", f"{max(peaks) / 1e6:8.1f} MB")


def main():
    room = pathlib.Path(tempfile.mkdtemp(prefix="underlath-bench-"))
    try:
        for measure in (answers, assessment, sealing):
            place = room / measure.__name__
            place.mkdir()
            measure(place)
    finally:
        shutil.rmtree(room)


main()
