#!/bin/sh
# Reads drawn photos of 12 million dots of a calibration sheet: ours, and a plain pipeline of OpenCV on the same files in the same run.
# What counts is the ratio; seconds belong to the machine. Ours tells more of each photo: blacks, growth, colours, uncertainties.
# Usage: bench/photo.sh [PHOTOS [RUNS]]   (usually 10 and 3; needs python3 with OpenCV: apt-get install python3-opencv; nothing else should run)
set -eu

home=$(cd "$(dirname "$0")/.." && pwd -P)
photos=${1:-10}
runs=${2:-3}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
python=
for candidate in python3 /usr/bin/python3; do
    if "$candidate" -c 'import cv2' 2> /dev/null; then python=$candidate; break; fi
done
[ -n "$python" ] || { echo "python3 with OpenCV is missing (package python3-opencv)" >&2; exit 3; }

dotnet build "$home/bench/Lampblack.Bench" -c Release -v q -nologo > "$work/build" || { cat "$work/build" >&2; exit 3; }
bench="$home/bench/Lampblack.Bench/bin/Release/net10.0/Lampblack.Bench.dll"
dotnet "$bench" photos "$work" "$photos"
dotnet "$bench" photo-times "$work" "$runs" > "$work/times"
"$python" "$home/bench/photo_peer.py" "$work" "$runs" >> "$work/times"

awk '
    function middle(list, count,   i, j, kept) {
        for (i = 2; i <= count; i++) { kept = list[i]; for (j = i - 1; j > 0 && list[j] > kept; j--) list[j + 1] = list[j]; list[j + 1] = kept }
        return list[int((count + 1) / 2)]
    }
    $2 == "memory" { memory[$1] = $3; next }
    { n[$1]++; wall[$1, n[$1]] = $3; used[$1, n[$1]] = $4; if ($5 != "nan" && $5 != "NaN") { off[$1, ++good[$1]] = $5 } }
    END {
        print "| what | wall | processor | photos read | error at the worst corner, median and worst | most memory |"
        print "|---|---|---|---|---|---|"
        split("ours peer", names, " ")
        for (k = 1; k <= 2; k++) {
            name = names[k]
            for (i = 1; i <= n[name]; i++) { a[i] = wall[name, i]; b[i] = used[name, i] }
            for (i = 1; i <= good[name]; i++) c[i] = off[name, i]
            m = middle(c, good[name])
            printf "| %s | %.2f s | %.2f s | %d of %d | %.3f and %.3f mm | %.0f MB |\n", (name == "ours" ? "ours" : "OpenCV"), middle(a, n[name]), middle(b, n[name]), good[name], n[name], m, c[good[name]], memory[name] / 1e6
            w[name] = middle(a, n[name])
        }
        printf "\nOurs takes %.2f times the wall time of the peer.\n", w["ours"] / w["peer"]
    }' "$work/times"
