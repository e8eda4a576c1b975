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

/*
 * Counts stand upright: bit 3 of the six bytes is the count of contact 3, so that all eight count at once. However many contacts of a bank
 * bounce, a bank takes the same time. They count up to the overflow, which needs no look at bytes that the carry does not reach.
 */
#define COUNT_BITS 6
#define OVERFLOW (1 << COUNT_BITS)

struct bank {
    uint8_t there;             /* contacts that exist */
    uint8_t steady;            /* those read steadily */
    uint8_t raw;               /* as read by the last scan */
    uint8_t state;             /* as believed */
    uint8_t counting;          /* those whose count runs: locked, or on the way to be believed */
    uint8_t count[COUNT_BITS]; /* scans, up to the overflow */
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

/* So many scans until the count is over. */
static void __attribute__((noinline)) load(struct bank *b, uint8_t mask, uint8_t scans)
{
    uint8_t from = OVERFLOW - scans, others = (uint8_t)~mask;
#define DIGIT(i) b->count[i] = from & 1 << i ? b->count[i] | mask : b->count[i] & others;
    DIGIT(0)
    DIGIT(1)
    DIGIT(2)
    DIGIT(3)
    DIGIT(4)
    DIGIT(5)
#undef DIGIT
}

/* Counts one scan for each in the mask, and tells whose count is over. */
static inline uint8_t count(struct bank *b, uint8_t carry)
{
    uint8_t old;
#define DIGIT(i)                \
    old = b->count[i];          \
    b->count[i] = old ^ carry;  \
    carry &= old;
    DIGIT(0)
    DIGIT(1)
    if (carry == 0) {
        return 0;
    }
    DIGIT(2)
    DIGIT(3)
    if (carry == 0) {
        return 0;
    }
    DIGIT(4)
    DIGIT(5)
#undef DIGIT
    return carry;
}

/* Few contacts come here at once. */
static void __attribute__((noinline)) tell(uint8_t index, uint8_t believed, uint8_t state)
{
    for (uint8_t bit = 0; believed != 0; bit++, believed >>= 1, state >>= 1) {
        if (believed & 1) {
            changes_put(index, bit, state & 1);
        }
    }
}

/* Only banks with contacts that move or whose counts run come here. */
static void __attribute__((noinline)) settle(struct bank *b, uint8_t index, uint8_t moved)
{
    uint8_t steady = b->steady, counting = b->counting, differs = b->raw ^ b->state, holds = differs & (uint8_t)~moved;
    uint8_t believed = holds & (uint8_t)~(steady | counting);
    uint8_t restarted = steady & differs & moved;

    uint8_t ended = count(b, counting & ((uint8_t)~steady | holds));
    counting &= (uint8_t)~(ended | (steady & (uint8_t)~differs));
    if (restarted != 0) {
        load(b, restarted, steady_scans - 1);
        counting |= restarted;
    }
    if (believed != 0 && lockout_scans != 0) {
        load(b, believed, lockout_scans);
        counting |= believed;
    }
    b->counting = counting;

    believed |= ended & steady;
    if (believed != 0) {
        b->state ^= believed;
        tell(index, believed, b->state);
    }
    if (ended != 0) {
        bounce_end(index, ended);
    }
}

static struct bank *next_bank = banks;
static uint8_t next_index;

void debounce(const uint8_t *levels, uint8_t count)
{
    struct bank *b = next_bank;
    uint8_t index = next_index, starting = start_scans;
    for (; count != 0; count--, b++, index++) {
        uint8_t closed = (uint8_t)~*levels++ & b->there;
        uint8_t moved = closed ^ b->raw;
        b->raw = closed;
        if (starting != 0) {
            b->state = closed;
            continue;
        }
        if (moved != 0) {
            bounce_note(index, moved);
        }
        if (((closed ^ b->state) | b->counting) != 0) {
            settle(b, index, moved);
        }
    }
    next_bank = b;
    next_index = index;
}

void debounce_scan_done(void)
{
    next_bank = banks;
    next_index = 0;
    if (start_scans != 0) {
        start_scans--;
    }
}
