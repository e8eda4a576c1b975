#include "encoders.h"

#include <util/atomic.h>

#include "chip.h"
#include "pins.h"
#include "table.h"

struct encoder {
    volatile uint8_t *in_a, *in_b;
    uint8_t mask_a, mask_b;
    uint8_t code; /* B closed, A closed */
    volatile uint8_t illegal;
    volatile int16_t position;
};

static struct encoder encoders[MAX_ENCODERS];
static int16_t told[MAX_ENCODERS];
static uint8_t told_illegal[MAX_ENCODERS];

/* From the old code (times four) and the new one: A ahead of B counts up. Both at once can't be: 2 stands for illegal. */
static const int8_t steps[16] = {0, 1, -1, 2, -1, 0, 2, 1, 1, 2, 0, -1, 2, -1, 1, 0};

static uint8_t read_code(const struct encoder *e)
{
    uint8_t code = 0;
    if (!(*e->in_a & e->mask_a)) {
        code = 1;
    }
    if (!(*e->in_b & e->mask_b)) {
        code |= 2;
    }
    return code;
}

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

/* Where each stands at the start is nobody's turn; after that every edge counts. */
static uint8_t known;

void encoders_tick(void)
{
    for (struct encoder *e = encoders; e < encoders + table.encoders; e++) {
        uint8_t code = read_code(e);
        if (code == e->code) {
            continue;
        }
        int8_t step = steps[e->code << 2 | code];
        e->code = code;
        if (!known) {
            continue;
        }
        if (step == 2) {
            e->illegal++;
        } else {
            e->position += step;
        }
    }
    known = 1;
}

uint8_t encoders_news(uint8_t encoder, int8_t *delta, int16_t *position, uint8_t *illegal)
{
    int16_t now;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { now = encoders[encoder].position; }
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

int16_t encoders_told(uint8_t encoder) { return told[encoder]; }
