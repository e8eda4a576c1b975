#include "ladders.h"

#include "analog.h"
#include "chip.h"
#include "table.h"

#define STEADY_MS 20

static struct {
    uint8_t seen, stands_ms;
    uint8_t position, told;
} ladders[MAX_ANALOG];

static uint8_t position_of(uint16_t at, uint16_t value)
{
    uint16_t count = (value + 2) >> 2;
    uint8_t positions = table_byte(at + 1);
    at += 2;
    for (uint8_t i = 0; i < positions; i++, at += 4) {
        if (count >= table_word(at) && count <= table_word(at + 2)) {
            return i;
        }
    }
    return LADDER_NONE;
}

static void look(uint8_t first)
{
    uint16_t at = table.at_ladders;
    for (uint8_t i = 0; i < table.ladders; i++) {
        uint8_t position = position_of(at, analog_value(table.wipers + i));
        if (first) {
            ladders[i].told = ladders[i].position = ladders[i].seen = position;
        } else if (position != ladders[i].seen) {
            ladders[i].seen = position;
            ladders[i].stands_ms = 0;
        } else if (ladders[i].stands_ms < STEADY_MS) {
            ladders[i].stands_ms++;
        } else {
            ladders[i].position = position;
        }
        at += 2u + 4u * table_byte(at + 1);
    }
}

void ladders_start(void) { look(1); }

void ladders_look(void) { look(0); }

uint8_t ladders_news(uint8_t ladder, uint8_t *position, uint16_t *value)
{
    if (ladders[ladder].position == ladders[ladder].told) {
        return 0;
    }
    *position = ladders[ladder].told = ladders[ladder].position;
    *value = analog_value(table.wipers + ladder);
    return 1;
}

uint8_t ladders_position(uint8_t ladder) { return ladders[ladder].position; }

uint8_t ladders_told(uint8_t ladder) { return ladders[ladder].told; }
