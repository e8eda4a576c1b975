#!/usr/bin/env bash
# Builds the engine for each chip into firmware/built, or into the folder given: build.sh [FOLDER [CHIP [MORE OPTIONS...]]].
# The images in firmware/built were made by avr-gcc 5.4.0 (Debian's gcc-avr); the same compiler makes the same bytes again.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/source"
folder=${1:-../built}
chips=${2:-ATmega2560 ATmega328P ATmega32U4}
if [ $# -ge 2 ]; then shift 2; else shift $#; fi

for chip in $chips; do
    elf=$(mktemp)
    # The desk's table begins at 0x6000: the link fails where the engine would reach into it.
    avr-gcc -mmcu="${chip,,}" -std=c11 -DF_CPU=16000000UL -Os -flto -Wall -Wextra -Wpedantic -Werror "$@" \
        -ffunction-sections -fdata-sections -Wl,--gc-sections -Wl,--defsym=__TEXT_REGION_LENGTH__=0x6000 \
        -Wl,--section-start=.identity=0x5fe0 -Wl,--undefined=identity -o "$elf" ./*.c
    avr-objcopy -O ihex -R .eeprom "$elf" "$elf.hex"
    tr -d '\r' < "$elf.hex" > "$folder/$chip.hex"
    echo "$chip: $(avr-size -A "$elf" | awk '/^\.text/ {text = $2} /^\.data/ {data = $2} /^\.bss|^\.noinit/ {bss += $2} END {print text + data " bytes of flash, " data + bss " of RAM"}')"
    rm -f "$elf" "$elf.hex"
done
