#include "snapshot.h"

#include "analog.h"
#include "changes.h"
#include "dimmers.h"
#include "encoders.h"
#include "ladders.h"
#include "lamps.h"
#include "table.h"

#define ROOM 8 /* bytes of entries in a frame */

enum { CONTACTS, ENCODERS, WIPERS, LADDERS, INDICATORS, DIMMERS, KINDS, END = 0xFF };

static uint8_t kind = END, ended = 1;
static uint16_t first;

void snapshot_begin(void)
{
    kind = CONTACTS;
    first = 0;
    ended = 0;
}

static uint16_t count(void)
{
    switch (kind) {
    case CONTACTS: return table.contacts;
    case ENCODERS: return table.encoders;
    case WIPERS: return table.wipers;
    case LADDERS: return table.ladders;
    case INDICATORS: return table.indicators;
    default: return table.dimmers;
    }
}

/* Puts one entry, of contacts eight, and tells how many bytes it takes. */
static uint8_t put(uint8_t *to, uint16_t entry)
{
    uint16_t word;
    uint8_t i = (uint8_t)entry;
    switch (kind) {
    case CONTACTS:
        *to = 0;
        for (uint8_t bit = 0; bit < 8 && entry + bit < table.contacts; bit++) {
            *to |= (uint8_t)(changes_told(entry + bit) << bit);
        }
        return 1;
    case INDICATORS: *to = lamps_get(i); return 1;
    case ENCODERS: word = (uint16_t)encoders_told(i); break;
    case WIPERS: word = analog_told(i); break;
    case DIMMERS: word = dimmers_get(i); break;
    default:
        *to++ = ladders_told(i);
        word = analog_value(table.wipers + i);
        to[0] = (uint8_t)word;
        to[1] = (uint8_t)(word >> 8);
        return 3;
    }
    to[0] = (uint8_t)word;
    to[1] = (uint8_t)(word >> 8);
    return 2;
}

uint8_t snapshot_next(uint8_t *data)
{
    if (ended) {
        return 0;
    }
    while (kind < KINDS && first >= count()) {
        kind++;
        first = 0;
    }
    if (kind >= KINDS) {
        ended = 1;
        data[0] = END;
        data[1] = data[2] = 0;
        return 3;
    }
    data[0] = kind;
    data[1] = (uint8_t)first;
    data[2] = (uint8_t)(first >> 8);
    uint8_t step = kind == CONTACTS ? 8 : 1;
    uint8_t size = kind == LADDERS ? 3 : kind == CONTACTS || kind == INDICATORS ? 1 : 2;
    uint8_t length = 0;
    while (first < count() && length + size <= ROOM) {
        length += put(data + 3 + length, first);
        first += step;
    }
    return 3 + length;
}
