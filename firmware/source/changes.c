#include "changes.h"

#include <util/atomic.h>

#include "chip.h"
#include "debounce.h"
#include "table.h"

#define ROOM 64 /* a power of two */
#define CLOSED 0x8000u

static volatile uint16_t queue[ROOM];
static volatile uint8_t head, tail;
static volatile uint8_t missed, puts;
static volatile uint16_t dropped;
static uint8_t told[MAX_CONTACTS / 8];

uint8_t changes_told(uint16_t number) { return told[number >> 3] >> (number & 7) & 1; }

static void note_told(uint16_t number, uint8_t closed)
{
    uint8_t mask = (uint8_t)(1u << (number & 7));
    if (closed) {
        told[number >> 3] |= mask;
    } else {
        told[number >> 3] &= (uint8_t)~mask;
    }
}

/* Finds a contact whose state is not what the host was told. */
static uint8_t find_difference(uint16_t *change)
{
    for (uint8_t bank = 0; bank < table.banks; bank++) {
        uint8_t there = table_byte(table_bank(bank));
        uint8_t state = debounce_state(bank);
        for (uint8_t bit = 0; bit < 8; bit++) {
            if (!(there >> bit & 1)) {
                continue;
            }
            uint16_t number = table_number(bank, bit);
            uint8_t closed = state >> bit & 1;
            if (closed != changes_told(number)) {
                note_told(number, closed);
                *change = number | (closed ? CLOSED : 0);
                return 1;
            }
        }
    }
    return 0;
}

/* What changes while this looks stands in the queue and is told if it is still news. */
void changes_start(void)
{
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { tail = head; }
    for (uint8_t bank = 0; bank < table.banks; bank++) {
        uint8_t there = table_byte(table_bank(bank));
        uint8_t state = debounce_state(bank);
        for (uint8_t bit = 0; bit < 8; bit++) {
            if (there >> bit & 1) {
                note_told(table_number(bank, bit), state >> bit & 1);
            }
        }
    }
}

void changes_put(uint8_t bank, uint8_t bit, uint8_t closed)
{
    puts++;
    uint8_t next = (head + 1) & (ROOM - 1);
    if (next == tail) {
        missed = 1;
        dropped++;
        return;
    }
    queue[head] = (uint16_t)bank << 3 | bit | (closed ? CLOSED : 0);
    head = next;
}

uint8_t changes_next(uint16_t *change)
{
    while (tail != head) {
        uint16_t entry = queue[tail];
        tail = (tail + 1) & (ROOM - 1);
        uint16_t number = table_number((uint8_t)((entry & ~CLOSED) >> 3), entry & 7);
        uint8_t closed = (entry & CLOSED) != 0;
        if (closed == changes_told(number)) {
            continue; /* already made up for */
        }
        note_told(number, closed);
        *change = number | (entry & CLOSED);
        return 1;
    }
    if (missed) {
        missed = 0;
        if (find_difference(change)) {
            missed = 1; /* there may be more */
            return 1;
        }
    }
    return 0;
}

uint16_t changes_dropped(void)
{
    uint16_t copy;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { copy = dropped; }
    return copy;
}

#ifdef UDCON
/* A second reader of the same queue, which never holds it up: what it came too late for it has to look up. */
static uint8_t beside, beside_puts;

void changes_beside_start(void)
{
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        beside = head;
        beside_puts = puts;
    }
}

uint8_t changes_beside(uint16_t *change)
{
    uint8_t there, at = beside;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { there = (uint8_t)(puts - beside_puts) != ((head - at) & (ROOM - 1)) ? CHANGES_LOST : at != head; }
    if (there == 1) {
        uint16_t entry = queue[at];
        beside = (at + 1) & (ROOM - 1);
        beside_puts++;
        *change = table_number((uint8_t)((entry & ~CLOSED) >> 3), entry & 7) | (entry & CLOSED);
    }
    return there;
}
#endif
