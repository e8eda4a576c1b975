#include "lamps.h"

#include <util/atomic.h>

#include "chip.h"
#include "pins.h"
#include "shift.h"
#include "table.h"

#define ON_CHAIN 0x8000u

static uint8_t levels[MAX_INDICATORS];
static uint8_t testing;

static uint16_t place(uint8_t lamp) { return table_word(table.at_indicators + 2u * lamp); }

static void show(uint8_t lamp)
{
    uint16_t where = place(lamp);
    uint8_t on = levels[lamp] || testing;
    if (where & ON_CHAIN) {
        shift_out_set((uint8_t)where, on);
    } else {
        ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { pin_write((uint8_t)where, on); }
    }
}

void lamps_start(void)
{
    for (uint8_t lamp = 0; lamp < table.indicators; lamp++) {
        uint16_t where = place(lamp);
        if (!(where & ON_CHAIN)) {
            pin_output((uint8_t)where, 0);
        }
    }
}

void lamps_set(uint8_t lamp, uint8_t on)
{
    levels[lamp] = on != 0;
    show(lamp);
}

uint8_t lamps_get(uint8_t lamp) { return levels[lamp]; }

void lamps_test(uint8_t on)
{
    testing = on != 0;
    for (uint8_t lamp = 0; lamp < table.indicators; lamp++) {
        show(lamp);
    }
}
