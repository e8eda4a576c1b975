#include "encoders.h"

#include <util/atomic.h>

#include "chip.h"
#include "pins.h"
#include "table.h"

struct encoder {
    volatile uint8_t *in_a, *in_b;
    uint8_t mask_a, mask_b;
    uint8_t code; /* as below */
    volatile uint8_t illegal;
    volatile int16_t position;
};

static struct encoder encoders[MAX_ENCODERS];
static int16_t told[MAX_ENCODERS];
static uint8_t told_illegal[MAX_ENCODERS];

/*
 * A code has bit 2 where A is closed and bit 3 where B is, so that the code before it fits below: the place in this list.
 * A ahead of B counts up. Both at once can't be: 2 stands for illegal.
 */
#define CLOSED_A 4
#define CLOSED_B 8
static const int8_t steps[16] = {0, -1, 1, 2, 1, 0, 2, -1, -1, 2, 0, 1, 2, 1, -1, 0};

void encoders_start(void)
{
    uint16_t at = table.at_encoders;
    for (struct encoder *e = encoders; e < encoders + table.encoders; e++, at += 2) {
        uint8_t a = table_byte(at), b = table_byte(at + 1);
        pin_pull_up(a);
        pin_pull_up(b);
        e->in_a = &pin_port(a)->in;
        e->in_b = &pin_port(b)->in;
        e->mask_a = pin_mask(a);
        e->mask_b = pin_mask(b);
    }
}

static uint8_t known;

/* Where each stands at the start is nobody's turn; after that every edge counts. */
static void __attribute__((noinline)) forget_first(void)
{
    for (struct encoder *e = encoders; e < encoders + table.encoders; e++) {
        e->position = 0;
        e->illegal = 0;
    }
    known = 1;
}

void encoders_tick(void)
{
    struct encoder *e = encoders;
    for (uint8_t left = table.encoders; left != 0; left--, e++) {
        uint8_t code = 0;
        if (!(*e->in_a & e->mask_a)) {
            code = CLOSED_A;
        }
        if (!(*e->in_b & e->mask_b)) {
            code |= CLOSED_B;
        }
        uint8_t before = e->code;
        if (code == before) {
            continue;
        }
        e->code = code;
        int8_t step = steps[(uint8_t)(before >> 2 | code)];
        if (step == 2) {
            e->illegal++;
        } else {
            e->position += step;
        }
    }
    if (!known) {
        forget_first();
    }
}

uint8_t encoders_news(uint8_t encoder, int8_t *delta, int16_t *position, uint8_t *illegal)
{
    int16_t now = encoders_position(encoder);
    uint8_t bad = encoders[encoder].illegal;
    int16_t moved = (int16_t)((uint16_t)now - (uint16_t)told[encoder]);
    if (moved == 0 && bad == told_illegal[encoder]) {
        return 0;
    }
    *delta = (int8_t)(moved > 127 ? 127 : moved < -127 ? -127 : moved);
    told[encoder] = (int16_t)((uint16_t)told[encoder] + (uint16_t)*delta);
    told_illegal[encoder] = bad;
    *position = told[encoder];
    *illegal = bad;
    return 1;
}

int16_t encoders_position(uint8_t encoder)
{
    int16_t now;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { now = encoders[encoder].position; }
    return now;
}

int16_t encoders_told(uint8_t encoder) { return told[encoder]; }
