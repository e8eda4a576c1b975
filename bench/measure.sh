#!/bin/sh
# Whole processes, cold, through ./lampblack: wall time, processor time and peak memory, the median of several runs, and in the same run a peer:
# Ghostscript drawing the front of the dome desk at 600 dpi. What counts is the ratio; seconds belong to the machine.
# Usage: bench/measure.sh [RUNS]   (usually 5; needs gs and GNU time; takes a few minutes; nothing else should run)
set -eu

home=$(cd "$(dirname "$0")/.." && pwd -P)
runs=${1:-5}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
for tool in gs /usr/bin/time; do
    command -v "$tool" > /dev/null || { echo "$tool is missing" >&2; exit 3; }
done

"$home/lampblack" --version > /dev/null
mkdir "$work/many"
dotnet run --project "$home/bench/Lampblack.Bench" -c Release -- desk a4 > "$work/many/desk.toml"
dotnet run --project "$home/bench/Lampblack.Bench" -c Release -- page "$work/page.png"

# measure NAME COMMAND...: a line of the table; leaves the median wall time in $wall.
measure() {
    name=$1
    shift
    : > "$work/times"
    count=0
    while [ "$count" -lt "$runs" ]; do
        /usr/bin/time -a -o "$work/times" -f '%e %U %S %M' "$@" > /dev/null 2> "$work/errors" || { cat "$work/errors" >&2; exit 1; }
        count=$((count + 1))
    done
    line=$(sort -n "$work/times" | sed -n "$(((runs + 1) / 2))p")
    wall=${line%% *}
    printf '%s\n' "$line" | awk -v name="$name" -v peer="${peer:-0}" '{ printf "| %s | %.2f s | %.2f s | %d MB | %s |\n", name, $1, $2 + $3, $4 / 1024, (peer > 0 ? sprintf("%.2f", $1 / peer) : "1") }'
}

echo "| what | wall | processor | peak memory | wall, as a share of the peer's |"
echo "|---|---|---|---|---|"
"$home/lampblack" build "$home/examples/dome-desk" -o "$work/peer" --paper A4 -q > /dev/null
measure "peer: Ghostscript draws the dome desk's front at 600 dpi" gs -q -dSAFER -dBATCH -dNOPAUSE -sDEVICE=tiffsep -sCompression=pack -r600 -o "$work/peer/page%d.tif" "$work/peer/sheet-1/front.pdf"
peer=$wall
measure "dome desk, everything" "$home/lampblack" build "$home/examples/dome-desk" -o "$work/dome" --paper A4 -q
measure "dome desk, sheets only" "$home/lampblack" build "$home/examples/dome-desk" -o "$work/dome-print" --paper A4 -q --only print
measure "400 controls, everything" "$home/lampblack" build "$work/many" -o "$work/many-all" --paper A4 -q
measure "400 controls, sheets only" "$home/lampblack" build "$work/many" -o "$work/many-print" --paper A4 -q --only print
measure "artwork, PNG of A4 at 600 dpi, everything" "$home/lampblack" separate "$work/page.png" --width 180mm --paper A4 -o "$work/page-all" -q
measure "artwork, PNG of A4 at 600 dpi, sheets only" "$home/lampblack" separate "$work/page.png" --width 180mm --paper A4 -o "$work/page-print" -q --only print
measure "artwork, the gauge as SVG, everything" "$home/lampblack" separate "$home/examples/gauge/gauge.svg" --width 90mm --paper A4 -o "$work/gauge" -q
