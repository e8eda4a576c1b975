#include "debounce.h"

#include "bounce.h"
#include "changes.h"
#include "chip.h"
#include "table.h"

#ifndef LOCKOUT_TICKS
#define LOCKOUT_TICKS 160
#endif
#define STEADY_SCANS 15
#define STEADY_TICKS 90
#define START_TICKS 200

struct bank {
    uint8_t there;      /* contacts that exist */
    uint8_t steady;     /* those read steadily */
    uint8_t raw;        /* as read by the last scan */
    uint8_t state;      /* as believed */
    uint8_t counting;   /* those whose count runs: locked, or on the way to be believed */
    uint8_t count[8];   /* scans */
};

static struct bank banks[MAX_BANKS];
static uint8_t lockout_scans, steady_scans;
static volatile uint8_t start_scans;

static uint8_t scans_of(uint8_t ticks, uint8_t scan_length) { return (uint8_t)((ticks + scan_length - 1u) / scan_length); }

void debounce_start(uint8_t scan_length)
{
    for (uint8_t i = 0; i < table.banks; i++) {
        banks[i].there = table_byte(table_bank(i));
        banks[i].steady = table_byte(table_bank(i) + 1);
    }
    lockout_scans = scans_of(LOCKOUT_TICKS, scan_length);
    steady_scans = scans_of(STEADY_TICKS, scan_length);
    if (steady_scans < STEADY_SCANS) {
        steady_scans = STEADY_SCANS;
    }
    start_scans = scans_of(START_TICKS, scan_length) + 2;
}

uint8_t debounce_settled(void) { return start_scans == 0; }

uint8_t debounce_state(uint8_t bank) { return banks[bank].state; }

void debounce_scan_done(void)
{
    if (start_scans != 0) {
        start_scans--;
    }
}

static void believe(struct bank *b, uint8_t index, uint8_t bit, uint8_t mask)
{
    b->state ^= mask;
    changes_put(index, bit, b->state & mask);
}

/* Only contacts that move or whose count runs come here. */
static void settle(struct bank *b, uint8_t index, uint8_t moved, uint8_t differs)
{
    uint8_t look = differs | b->counting;
    for (uint8_t bit = 0, mask = 1; look != 0; bit++, mask <<= 1, look >>= 1) {
        if (!(look & 1)) {
            continue;
        }
        if (b->steady & mask) {
            if (!(differs & mask)) {
                b->counting &= (uint8_t)~mask;
            } else if (moved & mask) {
                b->counting |= mask;
                b->count[bit] = 1;
            } else if (++b->count[bit] >= steady_scans) {
                b->counting &= (uint8_t)~mask;
                believe(b, index, bit, mask);
                bounce_end(index, bit);
            }
        } else if (b->counting & mask) {
            if (--b->count[bit] == 0) {
                b->counting &= (uint8_t)~mask;
                bounce_end(index, bit);
            }
        } else if (!(moved & mask)) {
            believe(b, index, bit, mask);
            b->count[bit] = lockout_scans;
            if (lockout_scans != 0) {
                b->counting |= mask;
            }
        }
    }
}

void debounce(uint8_t index, uint8_t closed)
{
    struct bank *b = &banks[index];
    closed &= b->there;
    uint8_t moved = closed ^ b->raw;
    b->raw = closed;
    if (start_scans != 0) {
        b->state = closed;
        return;
    }
    if (moved != 0) {
        bounce_note(index, moved);
    }
    uint8_t differs = closed ^ b->state;
    if ((differs | b->counting) != 0) {
        settle(b, index, moved, differs);
    }
}
