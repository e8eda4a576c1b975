"""Draws the example artwork: a pressure gauge for a workshop compressor, as if by hand. Invented.

python3 make-gauge.py writes gauge.svg beside this script; with rsvg-convert at hand it also writes gauge.png at 600 dots to the inch.
The same script always draws the same picture.
"""
import math
import pathlib
import random
import shutil
import subprocess

SIZE = 90.0
CENTRE = (45.0, 43.0)
HERE = pathlib.Path(__file__).parent
hand = random.Random(7)


def wobble(mm):
    return hand.uniform(-mm, mm)


def on_circle(radius, degrees):
    turn = math.radians(degrees)
    return CENTRE[0] + radius * math.sin(turn), CENTRE[1] - radius * math.cos(turn)


def smooth(points, closed=False):
    """A path through points, as a hand draws it (Catmull-Rom as cubic curves)."""
    count = len(points)
    at = (lambda i: points[i % count]) if closed else (lambda i: points[max(0, min(count - 1, i))])
    text = f"M{points[0][0]:.2f} {points[0][1]:.2f}"
    for i in range(count if closed else count - 1):
        a, b, c, d = at(i - 1), at(i), at(i + 1), at(i + 2)
        one = (b[0] + (c[0] - a[0]) / 6, b[1] + (c[1] - a[1]) / 6)
        two = (c[0] - (d[0] - b[0]) / 6, c[1] - (d[1] - b[1]) / 6)
        text += f"C{one[0]:.2f} {one[1]:.2f} {two[0]:.2f} {two[1]:.2f} {c[0]:.2f} {c[1]:.2f}"
    return text + ("Z" if closed else "")


def ring(radius, shake):
    return smooth([on_circle(radius + wobble(shake), degrees) for degrees in range(0, 360, 15)], closed=True)


def arc(radius, start, end, shake):
    steps = max(3, round(abs(end - start) / 10))
    return smooth([on_circle(radius + wobble(shake), start + (end - start) * i / steps) for i in range(steps + 1)])


DIGITS = {
    "0": [[(0.5, 0), (0.95, 0.5), (0.5, 1), (0.05, 0.5)]],
    "2": [[(0.08, 0.82), (0.5, 1), (0.85, 0.75), (0.45, 0.35), (0.05, 0)], [(0.05, 0), (0.95, 0.02)]],
    "4": [[(0.7, 0), (0.7, 1), (0.05, 0.32)], [(0.05, 0.32), (1, 0.32)]],
    "6": [[(0.8, 0.95), (0.3, 0.75), (0.05, 0.3), (0.5, 0), (0.92, 0.28), (0.5, 0.56), (0.1, 0.35)]],
    "8": [[(0.5, 0.55), (0.15, 0.78), (0.5, 1), (0.85, 0.78), (0.5, 0.55), (0.08, 0.25), (0.5, 0), (0.92, 0.25), (0.5, 0.55)]],
    "1": [[(0.2, 0.78), (0.6, 1), (0.6, 0)]],
    "b": [[(0.1, 1), (0.1, 0)], [(0.1, 0.45), (0.55, 0.62), (0.9, 0.3), (0.55, 0), (0.1, 0.12)]],
    "a": [[(0.85, 0.55), (0.45, 0.64), (0.08, 0.3), (0.45, 0), (0.85, 0.14)], [(0.88, 0.62), (0.86, 0)]],
    "r": [[(0.15, 0.62), (0.15, 0)], [(0.15, 0.4), (0.45, 0.64), (0.8, 0.55)]],
}


def word(text, middle, height, width):
    paths, left = [], middle[0] - (len(text) * width * 1.35 - width * 0.35) / 2
    for letter in text:
        for stroke in DIGITS[letter]:
            points = [(left + x * width + wobble(0.06), middle[1] + height / 2 - y * height + wobble(0.06)) for x, y in stroke]
            closed = letter == "0"
            paths.append(smooth(points, closed) if len(points) > 2 and letter not in "14" else "M" + "L".join(f"{x:.2f} {y:.2f}" for x, y in points))
        left += width * 1.35
    return paths


def main():
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{SIZE:.0f}mm" height="{SIZE:.0f}mm" viewBox="0 0 {SIZE:.0f} {SIZE:.0f}">',
        "<title>Compressor gauge, drawn as if by hand</title>",
        f'<rect width="{SIZE:.0f}" height="{SIZE:.0f}" fill="#111318"/>',
        '<g fill="none" stroke="#ffffff" stroke-linecap="round" stroke-linejoin="round">',
        f'<path stroke-width="1.1" d="{ring(36, 0.25)}"/>',
        f'<path stroke-width="0.45" d="{ring(34.2, 0.2)}"/>',
    ]
    for step in range(0, 51):
        degrees = -135 + 270 * step / 50
        long = step % 10 == 0
        start, end = on_circle((25.5 if long else 28.2) + wobble(0.15), degrees + wobble(0.3)), on_circle(30.6 + wobble(0.15), degrees + wobble(0.3))
        lines.append(f'<path stroke-width="{0.9 if long else 0.4}" d="M{start[0]:.2f} {start[1]:.2f}L{end[0]:.2f} {end[1]:.2f}"/>')
    for index, text in enumerate(["0", "2", "4", "6", "8", "10"]):
        for path in word(text, on_circle(21, -135 + 54 * index), 4.6, 2.7):
            lines.append(f'<path stroke-width="0.75" d="{path}"/>')
    for path in word("bar", (CENTRE[0], CENTRE[1] + 17), 4.4, 2.8):
        lines.append(f'<path stroke-width="0.6" d="{path}"/>')
    lines.append("</g>")
    lines.append(f'<path fill="none" stroke="#e0452c" stroke-width="1.6" stroke-linecap="round" d="{arc(32.7, 81, 135, 0.1)}"/>')
    lines.append(f'<path fill="none" stroke="#e8a33d" stroke-width="1.6" stroke-linecap="round" d="{arc(32.7, 27, 78, 0.1)}"/>')
    tip, left, right = on_circle(27, -41), on_circle(3.2, -134), on_circle(3.2, 52)
    back = on_circle(9, 139)
    lines.append(f'<path fill="#ffffff" d="M{tip[0]:.2f} {tip[1]:.2f}L{left[0]:.2f} {left[1]:.2f}L{back[0]:.2f} {back[1]:.2f}L{right[0]:.2f} {right[1]:.2f}Z"/>')
    lines.append(f'<circle cx="{CENTRE[0]}" cy="{CENTRE[1]}" r="1.7" fill="#111318"/>')
    for x, y in ((5, 5), (85, 5), (5, 85), (85, 85)):
        lines.append(f'<circle id="hole-{x}-{y}" cx="{x}" cy="{y}" r="1.6" fill="#ff00ff"/>')
    lines.append("</svg>")
    (HERE / "gauge.svg").write_text("\n".join(lines) + "\n", encoding="utf-8")
    if shutil.which("rsvg-convert"):
        dots = round(SIZE / 25.4 * 600)
        subprocess.run(["rsvg-convert", "-w", str(dots), "-h", str(dots), "-o", str(HERE / "gauge.png"), str(HERE / "gauge.svg")], check=True)


main()
