#include "bounce.h"

#include <util/atomic.h>

#include "table.h"
#include "tick.h"

#define WATCHED 8
#define STALE_TICKS 400 /* moved, but was never believed: noise */

enum { FREE, RUNNING, DONE };

static struct {
    volatile uint8_t use;
    uint8_t bank, bit, changes;
    uint16_t first, last;
} watched[WATCHED];

volatile uint8_t bounce_watching;

void bounce_watch(uint8_t on)
{
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        bounce_watching = on;
        for (uint8_t i = 0; i < WATCHED; i++) {
            watched[i].use = FREE;
        }
    }
}

static uint8_t find(uint8_t bank, uint8_t bit)
{
    for (uint8_t i = 0; i < WATCHED; i++) {
        if (watched[i].use == RUNNING && watched[i].bank == bank && watched[i].bit == bit) {
            return i;
        }
    }
    return WATCHED;
}

static uint8_t find_free(uint16_t now)
{
    for (uint8_t i = 0; i < WATCHED; i++) {
        if (watched[i].use == FREE || (watched[i].use == RUNNING && now - watched[i].last > STALE_TICKS)) {
            return i;
        }
    }
    return WATCHED;
}

static void note(uint8_t bank, uint8_t bit, uint16_t now)
{
    uint8_t i = find(bank, bit);
    if (i < WATCHED && now - watched[i].last <= STALE_TICKS) {
        watched[i].last = now;
        if (watched[i].changes != 255) {
            watched[i].changes++;
        }
        return;
    }
    if (i == WATCHED) {
        i = find_free(now);
    }
    if (i < WATCHED) {
        watched[i].use = RUNNING;
        watched[i].bank = bank;
        watched[i].bit = bit;
        watched[i].changes = 1;
        watched[i].first = watched[i].last = now;
    }
}

/* Apart from the look whether anybody asks: seldom, and then few contacts. */
void __attribute__((noinline)) bounce_note_all(uint8_t bank, uint8_t moved)
{
    uint16_t now = tick_count();
    for (uint8_t bit = 0; moved != 0; bit++, moved >>= 1) {
        if (moved & 1) {
            note(bank, bit, now);
        }
    }
}

void __attribute__((noinline)) bounce_end_all(uint8_t bank, uint8_t ended)
{
    for (uint8_t bit = 0; ended != 0; bit++, ended >>= 1) {
        uint8_t i = ended & 1 ? find(bank, bit) : WATCHED;
        if (i < WATCHED) {
            watched[i].use = DONE;
        }
    }
}

uint8_t bounce_next(uint16_t *number, uint8_t *changes, uint8_t *ticks)
{
    for (uint8_t i = 0; i < WATCHED; i++) {
        if (watched[i].use == DONE) {
            uint16_t span = watched[i].last - watched[i].first;
            *number = table_number(watched[i].bank, watched[i].bit);
            *changes = watched[i].changes;
            *ticks = span > 255 ? 255 : (uint8_t)span;
            watched[i].use = FREE;
            return 1;
        }
    }
    return 0;
}
