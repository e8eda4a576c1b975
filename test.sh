#!/usr/bin/env bash
# Builds everything and runs every test. Last line: "N passed, N failed" (and ", N skipped" where something was). Options: --long runs the long sets too.
set -uo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")" || exit 2

for option in "$@"; do
    case $option in
        --long) export LAMPBLACK_LONG=1 ;;
        -h | --help) echo "usage: ./test.sh [--long]"; exit 0 ;;
        *) echo "test.sh: unknown option '$option' (there is only --long)" >&2; exit 2 ;;
    esac
done

export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1 DOTNET_CLI_UI_LANGUAGE=en
passed=0
failed=0
skipped=0

# Everything together ends within 75 minutes, hung or not.
deadline=$((SECONDS + 74 * 60))
limited() {
    local left=$((deadline - SECONDS))
    [ "$left" -gt 0 ] || left=1
    if command -v timeout > /dev/null; then timeout --kill-after=20 "$left" "$@"; else "$@"; fi
}

summary() {
    local line="$passed passed, $failed failed"
    [ "$skipped" -eq 0 ] || line="$line, $skipped skipped"
    printf '%s\n' "$line"
    [ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
    exit
}

# What the output is checked against, and the package it comes in. A path stands for what is no program: headers, libraries.
needs="gs:ghostscript pdftoppm:poppler-utils pdfinfo:poppler-utils mutool:mupdf-tools ngspice:ngspice povray:povray qpdf:qpdf rsvg-convert:librsvg2-bin convert:imagemagick chromium:chromium
    gcc:gcc avr-gcc:gcc-avr avr-objcopy:binutils-avr /usr/lib/avr/include/avr/io.h:avr-libc /usr/include/simavr/sim_avr.h:libsimavr-dev avrdude:avrdude
    socat:socat /usr/sbin/mosquitto:mosquitto mosquitto_sub:mosquitto-clients"
if [ -n "${LAMPBLACK_LONG:-}" ]; then needs="$needs qemu-system-x86_64:qemu-system-x86"; fi
is_there() { case $1 in /*) [ -e "$1" ] ;; *) command -v "$1" > /dev/null ;; esac }
missing=()
for pair in $needs; do
    is_there "${pair%%:*}" || missing+=("${pair#*:}")
done
if [ "${#missing[@]}" -gt 0 ] && command -v apt-get > /dev/null; then
    as_root=()
    if [ "$(id -u)" -ne 0 ]; then as_root=(sudo -n); fi
    if [ "$(id -u)" -eq 0 ] || sudo -n true 2> /dev/null; then
        echo "Installing what the tests need: ${missing[*]}"
        "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -o DPkg::Lock::Timeout=500 update -qq
        "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -o DPkg::Lock::Timeout=500 install -y -qq "${missing[@]}" > /dev/null
    fi
fi
for pair in $needs; do
    is_there "${pair%%:*}" || echo "Missing: ${pair%%:*} (package ${pair#*:}); tests that use it are skipped, or fail where everything is asked for."
done

# The panel as a game controller is tried by a kernel in an emulator: unpacked into the cache, not installed.
if [ -n "${LAMPBLACK_LONG:-}" ] && [ -z "${LAMPBLACK_KERNEL:-}" ]; then
    kernel=${XDG_CACHE_HOME:-$HOME/.cache}/lampblack-kernel
    if [ ! -d "$kernel" ] && command -v apt-get > /dev/null && command -v dpkg-deb > /dev/null; then
        package=$(apt-cache depends linux-image-amd64 2> /dev/null | awk '/Depends:/ {print $2; exit}')
        work=$(mktemp -d)
        if [ -n "$package" ] && (cd "$work" && echo "Fetching $package" && apt-get -o APT::Sandbox::User=root download -qq "$package" && mkdir kernel &&
            dpkg-deb --fsys-tarfile ./*.deb | tar -x -C kernel --wildcards './boot/vmlinuz-*' '*/drivers/usb/*' '*/drivers/hid/*' '*/drivers/input/*' '*/intel/e1000/*'); then
            mkdir -p "$(dirname "$kernel")" && mv "$work/kernel" "$kernel"
        fi
        rm -rf "$work"
    fi
    export LAMPBLACK_KERNEL=$kernel
fi

if ! command -v dotnet > /dev/null; then
    echo "Missing: dotnet. The .NET 10 SDK is needed: https://dotnet.microsoft.com/download"
    failed=1
    summary
fi

if ! limited dotnet build Lampblack.slnx -c Release -v quiet -nologo; then
    echo "The solution does not build."
    failed=$((failed + 1))
    summary
fi

# One number of a report's <Counters .../> line.
counter() { sed -n "s/.*<Counters[^>]* $2=\"\([0-9]*\)\".*/\1/p" "$1" | head -n 1; }

results=$(mktemp -d)
trap 'rm -rf "$results"' EXIT
for project in tests/*/*.csproj; do
    name=$(basename "$project" .csproj)
    echo "== $name"
    limited dotnet test --project "$project" -c Release --no-build --results-directory "$results/$name" --report-xunit-trx --report-xunit-trx-filename "$name.trx"
    code=$?
    report=$results/$name/$name.trx
    total=0
    bad=0
    if [ -f "$report" ]; then
        total=$(counter "$report" total)
        good=$(counter "$report" passed)
        bad=$(counter "$report" failed)
        passed=$((passed + ${good:-0}))
        failed=$((failed + ${bad:-0}))
        skipped=$((skipped + ${total:-0} - ${good:-0} - ${bad:-0}))
    fi

    # A project that tells no counts, or ends badly without a failed test, has crashed or hung: that is a failure, not a pass.
    if [ "${total:-0}" -eq 0 ]; then
        echo "$name gave no counts (exit code $code)."
        failed=$((failed + 1))
    elif [ "$code" -ne 0 ] && [ "${bad:-0}" -eq 0 ]; then
        echo "$name ended with exit code $code though no test failed."
        failed=$((failed + 1))
    fi
done
summary
