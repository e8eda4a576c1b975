#!/bin/sh
# Spreads a full A4 page at 1200 dpi (9921 x 14031 dots) by 12 and by 24 dots: ours, and four peers on the same picture in the same run, each on one core.
# What counts is the ratio; seconds belong to the machine. The set dots afterwards are compared as well.
# Usage: bench/spread.sh [RUNS]   (usually 3; needs python3 with OpenCV and SciPy, and ImageMagick:
# apt-get install python3-opencv python3-scipy imagemagick; takes some minutes and 6 GB of memory; nothing else should run)
set -eu

home=$(cd "$(dirname "$0")/.." && pwd -P)
runs=${1:-3}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
python=
for candidate in python3 /usr/bin/python3; do
    if "$candidate" -c 'import cv2, scipy.ndimage' 2> /dev/null; then python=$candidate; break; fi
done
[ -n "$python" ] || { echo "python3 with OpenCV and SciPy is missing (package python3-opencv, python3-scipy)" >&2; exit 3; }
command -v convert > /dev/null || { echo "convert is missing (package imagemagick)" >&2; exit 3; }

dotnet run --project "$home/bench/Lampblack.Bench" -c Release -- spread "$work/page.pbm" "$((2 * runs + 1))" > "$work/times"
"$python" "$home/bench/spread_peers.py" "$work/page.pbm" "$runs" "$work" >> "$work/times"

# Ratios are of processor time, which other programs disturb less.
awk '
    { wall[NR] = $3; used[$1, $2] = $4; set[$1, $2] = $5; names[NR] = $1; radii[NR] = $2; bytes[NR] = $6 }
    END {
        print "| what | dots | wall | processor | times ours on one core | times a plain copy | same dots |"
        print "|---|---|---|---|---|---|---|"
        for (i = 1; i <= NR; i++) {
            name = names[i]; radius = radii[i]; time = used[name, radius]; dots = set[name, radius]
            printf "| %s | %s | %.3f s | %.3f s | %s | %.1f | %s |\n", name, (radius ? radius : "-"), wall[i], time,
                (radius ? sprintf("%.1f", time / used["ours-one-core", radius]) : "-"), time / used["copy", 0],
                (radius ? (dots == set["ours-one-core", radius] || dots == "part" ? "yes" : sprintf("no: %+d", dots - set["ours-one-core", radius])) : "-")
            if (bytes[i] > most) most = bytes[i]
        }
        printf "\nAllocated by a spread, its result included: at most %.0f MB.\n", most / 1e6
    }' "$work/times"
