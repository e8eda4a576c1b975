#!/usr/bin/env python3
"""The peer of bench/photo.sh: a plain pipeline of OpenCV's own functions for the same photos. Usage: photo_peer.py DIR RUNS.

Threshold, contours, ellipses, numbers from the cells around them, one camera calibration from the windows' middles, discs by their centroids, six numbers by least squares.
For each photo: name, median seconds (wall and processor), error at the worst corner in mm; then the most memory that the process had, in bytes."""
import resource
import statistics
import sys
import time

import cv2
import numpy

folder, runs = sys.argv[1], int(sys.argv[2])
MASK = (1 << 12) - 1


def turned(code, cells):
    return ((code << cells) | (code >> (12 - cells))) & MASK if cells else code


def mirrored(code):
    return sum(((code >> cell) & 1) << (11 - cell) for cell in range(12))


def alike(code):
    return [turned(code, turn) for turn in range(12)] + [turned(mirrored(code), turn) for turn in range(12)]


def codes():
    chosen = []
    for code in range(1, MASK):
        if 4 <= bin(code).count("1") <= 8 and min(alike(code)) == code and all(bin(code ^ other).count("1") >= 2 for other in alike(code)[1:]) \
                and all(bin(code ^ other).count("1") >= 2 for known in chosen for other in alike(known)):
            chosen.append(code)
    return chosen


# Every code as seen, in every turn; photos here show the front.
NUMBERS = {turned(code, turn): number + 1 for number, code in enumerate(codes()) for turn in range(12)}

# The sheet's windows, in mm, y upwards: 4 columns, 6 rows on A4 (src/Lampblack/Calibration/CalibrationPlan.cs).
NEAR = 8 + 9.5
PITCH_X, PITCH_Y = (210 - 2 * NEAR - 8) / 3, (297 - 2 * NEAR - 10) / 5
PLACES = {row * 4 + column + 1: (NEAR + 8 + column * PITCH_X, NEAR + 10 + row * PITCH_Y) for row in range(6) for column in range(4)}
LINEAR = numpy.array([(v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4) for v in numpy.arange(256) / 255], numpy.float32)


def number_of(light, ellipse):
    (x, y), (width, height), angle = ellipse
    cos, sin = numpy.cos(numpy.radians(angle)), numpy.sin(numpy.radians(angle))

    def ring(radius):
        t = numpy.arange(144) * 2 * numpy.pi / 144
        # Counter-clockwise as seen, y downwards, from the photo's right.
        u, v = numpy.cos(t), -numpy.sin(t)
        along, across = u * cos + v * sin, -u * sin + v * cos
        along, across = along * width / 2 * radius, across * height / 2 * radius
        px, py = x + along * cos - across * sin, y + along * sin + across * cos
        return cv2.remap(light, px.astype(numpy.float32).reshape(1, -1), py.astype(numpy.float32).reshape(1, -1), cv2.INTER_LINEAR)[0]

    cells, half = ring(8 / 6), (ring(0.8).mean() + ring(6.6 / 6).mean()) / 2
    bits = cells > half
    best = None
    for phase in range(12):
        groups = numpy.roll(bits, -phase).reshape(12, 12)[:, 1:11].sum(axis=1)
        misfit = numpy.minimum(groups, 10 - groups).sum()
        if best is None or misfit < best[0]:
            best = (misfit, sum(1 << cell for cell in range(12) if groups[cell] > 5))
    return NUMBERS.get(best[1]) if best[0] <= 12 else None


def solve(path):
    photo = cv2.imread(path, cv2.IMREAD_GRAYSCALE)
    light = LINEAR[photo]
    _, bright = cv2.threshold(photo, 0, 255, cv2.THRESH_BINARY | cv2.THRESH_OTSU)
    contours, _ = cv2.findContours(bright, cv2.RETR_CCOMP, cv2.CHAIN_APPROX_NONE)
    seen, places, discs = [], [], []
    for contour in contours:
        if len(contour) < 60:
            continue
        ellipse = cv2.fitEllipse(contour)
        area = cv2.contourArea(contour)
        round_area = numpy.pi / 4 * ellipse[1][0] * ellipse[1][1]
        if area < 500 or ellipse[1][0] < 0.5 * ellipse[1][1] or abs(area / round_area - 1) > 0.04:
            continue
        number = number_of(light, ellipse)
        if number not in PLACES:
            continue
        # The disc: the dark blob nearest to the middle, by its centroid.
        (x, y), (width, height), _ = ellipse
        reach = int(height / 2 * 0.95)
        left, top = int(x) - reach, int(y) - reach
        part = light[top:top + 2 * reach, left:left + 2 * reach]
        paper = numpy.percentile(part, 80)
        dark = ((part < paper / 2) * 255).astype(numpy.uint8)
        count, labels, stats, middles = cv2.connectedComponentsWithStats(dark)
        scale = numpy.sqrt(width * height) / 12
        # As large as the disc; what else is, in the square's corners or among the cells, lies farther from the middle.
        good = sorted((i for i in range(1, count) if abs(stats[i, cv2.CC_STAT_AREA] / (numpy.pi * (1.5 * scale) ** 2) - 1) < 0.4),
                      key=lambda i: numpy.hypot(*(middles[i] - reach)))
        if not good:
            continue
        ys, xs = numpy.mgrid[0:part.shape[0], 0:part.shape[1]]
        blob = cv2.dilate((labels == good[0]).astype(numpy.uint8), numpy.ones((5, 5), numpy.uint8)) > 0
        weight = numpy.clip(paper - part, 0, None) * blob
        seen.append((x, y))
        places.append(PLACES[number])
        discs.append((left + (weight * xs).sum() / weight.sum(), top + (weight * ys).sum() / weight.sum()))
    if len(seen) < 8:
        return None, len(seen)
    world = numpy.array([(x, -y, 0) for x, y in places], numpy.float32)
    first = numpy.array(seen, numpy.float32).reshape(-1, 1, 2)
    size = (photo.shape[1], photo.shape[0])
    guess = numpy.array([[size[0], 0, size[0] / 2], [0, size[0], size[1] / 2], [0, 0, 1]], float)
    flags = cv2.CALIB_USE_INTRINSIC_GUESS | cv2.CALIB_FIX_PRINCIPAL_POINT | cv2.CALIB_FIX_ASPECT_RATIO | cv2.CALIB_ZERO_TANGENT_DIST | cv2.CALIB_FIX_K2 | cv2.CALIB_FIX_K3
    _, camera, lens, _, _ = cv2.calibrateCamera([world], [first], size, guess, None, flags=flags)
    straight = cv2.undistortPoints(first, camera, lens).reshape(-1, 2)
    back = cv2.undistortPoints(numpy.array(discs, numpy.float32).reshape(-1, 1, 2), camera, lens).reshape(-1, 2)
    sheet = numpy.array(places, numpy.float64)
    plane, _ = cv2.findHomography(straight, sheet, cv2.RANSAC, 0.5)
    off = cv2.perspectiveTransform(back.reshape(-1, 1, 2).astype(float), plane).reshape(-1, 2) - cv2.perspectiveTransform(straight.reshape(-1, 1, 2).astype(float), plane).reshape(-1, 2)
    design = numpy.column_stack([sheet, numpy.ones(len(sheet))])
    keep = numpy.ones(len(sheet), bool)
    for _ in range(2):
        fit, *_ = numpy.linalg.lstsq(design[keep], off[keep], rcond=None)
        left = numpy.linalg.norm(off - design @ fit, axis=1)
        keep = left < 4 * numpy.median(left) + 0.01
    return numpy.column_stack([fit.T]) + numpy.array([[1, 0, 0], [0, 1, 0]]), len(seen)


with open(folder + "/truth") as file:
    for line in file:
        name, *numbers = line.split()
        truth = numpy.array(numbers, float).reshape(2, 3)
        walls, processors = [], []
        for _ in range(runs):
            start, used = time.perf_counter(), time.process_time()
            fit, count = solve(folder + "/" + name)
            walls.append(time.perf_counter() - start)
            processors.append(time.process_time() - used)
        worst = float("nan") if fit is None else max(
            numpy.linalg.norm((fit - truth) @ numpy.array([x, y, 1.0])) for x in (0, 210) for y in (0, 297))
        print("peer", name, f"{statistics.median(walls):.4f} {statistics.median(processors):.4f} {worst:.4f}", flush=True)
print("peer memory", resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024)
