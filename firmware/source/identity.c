/* What this image is and how much it holds, at a fixed place so that the program which joins a table to it can read it. */
#include "chip.h"

extern const uint8_t identity[16];

const uint8_t identity[16] __attribute__((section(".identity"), used, externally_visible)) = {
    'L', 'B', 'E', CHIP, ENGINE_VERSION, TABLE_VERSION, LINK_VERSION,
    MAX_BANKS, MAX_ENCODERS, MAX_ANALOG, MAX_INDICATORS, MAX_OUT_CHIPS, MAX_DIMMERS, 0xFF, 0xFF, 0xFF,
};
