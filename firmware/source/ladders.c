#include "ladders.h"

#include "analog.h"
#include "chip.h"
#include "table.h"
#include "tick.h"

#define STEADY_TICKS (20 * TICKS_PER_MS)

static struct {
    uint16_t since; /* the beat at which it was first seen where it is seen now */
    uint8_t seen;
    uint8_t position, told;
} ladders[MAX_ANALOG];

static uint8_t __attribute__((noinline)) holds(uint16_t window, uint16_t count) { return count >= table_word(window) && count <= table_word(window + 2); }

/* Windows do not overlap, so that the one which held the last reading may be tried first: most looks end there. */
static uint8_t position_of(uint16_t at, uint16_t value, uint8_t last)
{
    uint16_t count = (value + 2) >> 2;
    uint8_t positions = table_byte(at + 1);
    at += 2;
    if (last < positions && holds(at + 4u * last, count)) {
        return last;
    }
    for (uint8_t i = 0; i < positions; i++, at += 4) {
        if (holds(at, count)) {
            return i;
        }
    }
    return LADDER_NONE;
}

static void look(uint8_t first)
{
    uint16_t at = table.at_ladders, now = tick_count();
    for (uint8_t i = 0; i < table.ladders; i++) {
        uint8_t position = position_of(at, analog_value(table.wipers + i), ladders[i].seen);
        if (first) {
            ladders[i].told = ladders[i].position = ladders[i].seen = position;
        } else if (position != ladders[i].seen) {
            ladders[i].seen = position;
            ladders[i].since = now;
        } else if ((uint16_t)(now - ladders[i].since) >= STEADY_TICKS) {
            ladders[i].position = position;
        }
        at += 2u + 4u * table_byte(at + 1);
    }
}

void ladders_start(void) { look(1); }

void ladders_look(void) { look(0); }

uint8_t ladders_waiting(void)
{
    for (uint8_t i = 0; i < table.ladders; i++) {
        if (ladders[i].position != ladders[i].told) {
            return i;
        }
    }
    return LADDER_NONE;
}

void ladders_tell(uint8_t ladder, uint8_t *position, uint16_t *value)
{
    *position = ladders[ladder].told = ladders[ladder].position;
    *value = analog_value(table.wipers + ladder);
}

uint8_t ladders_position(uint8_t ladder) { return ladders[ladder].position; }

uint8_t ladders_told(uint8_t ladder) { return ladders[ladder].told; }
