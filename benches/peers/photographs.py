"""Times both previews of photographs (1600 and 320 pixels, upright) beside vipsthumbnail making the same two sizes and
sha256sum reading the same files, taking turns. Only the standard library. Usage: photographs.py PROGRAM FOLDER

Printed: milliseconds of wall clock and of processor for each photograph (median of the rounds) and the most memory held,
on one processor and on two.
"""

import os
import pathlib
import shutil
import statistics
import subprocess
import sys
import tempfile
import time

PROGRAM, FOLDER = sys.argv[1], pathlib.Path(sys.argv[2])
ROUNDS = int(os.environ.get("BENCH_ROUNDS", "3"))
FILES = sorted(map(str, FOLDER.glob("*.jpg")))


def run(commands, processors):
    """Runs commands side by side on so many processors; seconds of wall clock and processor, megabytes of memory."""
    usable = sorted(os.sched_getaffinity(0))[:processors]
    environment = dict(os.environ, VIPS_CONCURRENCY="1")
    before = time.perf_counter()
    children = [
        subprocess.Popen(
            command,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            env=environment,
            preexec_fn=lambda: os.sched_setaffinity(0, usable),
        )
        for command in commands
    ]
    processor = memory = 0.0
    for child in children:
        _, status, used = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
        if child.returncode:
            sys.exit(f"{commands[0][0]} failed")
        processor += used.ru_utime + used.ru_stime
        memory += used.ru_maxrss / 1024
    return time.perf_counter() - before, processor, memory


def shares(count):
    return [FILES[n::count] for n in range(count)]


def main():
    if not FILES:
        sys.exit(f"no photographs in {FOLDER}")
    size = sum(os.path.getsize(file) for file in FILES) / len(FILES) / 1e6
    print(f"  {len(FILES)} photographs of 12 megapixels, {size:.1f} MB each; {ROUNDS} rounds")
    out = pathlib.Path(tempfile.mkdtemp(prefix="underlath-bench-"))
    tools = {"both previews, and a look at them": lambda n: [[PROGRAM, "previews", str(n), *FILES]]}
    if shutil.which("vipsthumbnail"):
        for pixels in (1600, 320):
            options = ["--size", str(pixels), "-o", f"{out}/{pixels}-%s.jpg[Q=82,strip]"]
            tools[f"vipsthumbnail {pixels}"] = lambda n, options=options: [
                ["vipsthumbnail", *share, *options] for share in shares(n)
            ]
    else:
        print("  vipsthumbnail is not here (package libvips-tools): left out")
    tools["sha256sum"] = lambda n: [["sha256sum", *share] for share in shares(n)]
    try:
        for processors in (1, 2):
            if processors > len(os.sched_getaffinity(0)):
                print("  only one processor here")
                break
            took = {name: [] for name in tools}
            for _ in range(ROUNDS):
                for name, commands in tools.items():
                    took[name].append(run(commands(processors), processors))
            print(f"  on {processors} processor{'s' if processors > 1 else ''}:        wall     processor    memory")
            middle = {}
            for name, rounds in took.items():
                wall, processor, memory = (statistics.median(one) for one in zip(*rounds))
                middle[name] = processor
                each = 1000 / len(FILES)
                print(f"    {name:<36} {wall * each:7.1f} ms {processor * each:7.1f} ms {memory:7.0f} MB")
            both = middle.get("vipsthumbnail 1600", 0) + middle.get("vipsthumbnail 320", 0)
            if both:
                ours = middle["both previews, and a look at them"]
                print(f"    vipsthumbnail making both sizes takes {both / ours:.2f} times the processor")
    finally:
        shutil.rmtree(out)


main()
