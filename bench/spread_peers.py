#!/usr/bin/env python3
"""The peers of bench/spread.sh, each on one core, on the page that our program wrote: name, radius, median seconds (wall and processor), set dots afterwards."""
import resource
import statistics
import subprocess
import sys
import time

import cv2
import numpy
import scipy.ndimage

cv2.setNumThreads(1)
path, runs, work = sys.argv[1], int(sys.argv[2]), sys.argv[3]

with open(path, "rb") as file:
    assert file.readline() == b"P4\n"
    width, height = map(int, file.readline().split())
    packed = numpy.frombuffer(file.read(), numpy.uint8).reshape(height, (width + 7) // 8)
page = numpy.unpackbits(packed, axis=1)[:, :width] * numpy.uint8(255)


def disc(radius):
    y, x = numpy.mgrid[-radius:radius + 1, -radius:radius + 1]
    return (x * x + y * y <= radius * radius).astype(numpy.uint8)


def line(name, radius, count, job, dots):
    walls, processors = [], []
    for _ in range(count):
        start, used = time.perf_counter(), time.process_time()
        result = job()
        walls.append(time.perf_counter() - start)
        processors.append(time.process_time() - used)
    print(name, radius, f"{statistics.median(walls):.5f} {statistics.median(processors):.5f}", dots(result), flush=True)


def magick(rows, radius):
    """The whole program, its disc of the same dots; reading and writing are little beside its work."""
    with open(work + "/part.pbm", "wb") as file:
        file.write(b"P4\n%d %d\n" % (width, rows))
        file.write(packed[:rows].tobytes())
    subprocess.run(["convert", "-limit", "thread", "1", work + "/part.pbm", "-negate", "-morphology", "Dilate", f"Disk:{radius}", "-negate", work + "/grown.pbm"], check=True)
    with open(work + "/grown.pbm", "rb") as file:
        file.readline()
        file.readline()
        return numpy.unpackbits(numpy.frombuffer(file.read(), numpy.uint8).reshape(rows, -1), axis=1)[:, :width]


for radius in (12, 24):
    kernel = disc(radius)
    line("opencv-dilate", radius, runs, lambda: cv2.dilate(page, kernel), numpy.count_nonzero)

    # Distances are 32-bit floats there; the square root of the next whole number lies 0.02 dots further out.
    line("opencv-distance", radius, 1, lambda: cv2.distanceTransform(255 - page, cv2.DIST_L2, cv2.DIST_MASK_PRECISE) <= radius + 1e-3, numpy.count_nonzero)
    line("scipy-distance", radius, 1, lambda: scipy.ndimage.distance_transform_edt(page == 0) <= radius, numpy.count_nonzero)

# A sixteenth of the page, which its usual limits allow, times 16; compared with OpenCV's dots of that part.
rows = height // 16
start = time.perf_counter()
part = magick(rows, 12)
wall = (time.perf_counter() - start) * height / rows
processor = resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime * height / rows
same = numpy.array_equal(part != 0, cv2.dilate(page[:rows], disc(12)) != 0)
print("imagemagick-disc-of-a-sixteenth-times-16", 12, f"{wall:.5f} {processor:.5f}", "part" if same else "other", flush=True)
