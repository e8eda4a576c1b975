#include "dimmers.h"

#include <util/atomic.h>

#include "chip.h"
#include "keep.h"
#include "pins.h"
#include "table.h"

#define FIRST_LEVEL 16384
#define TICK_TIMER_TOP 249
#define POINTER 0x80 /* in the byte of the output: a meter, which shows nothing that nobody told it */

/* The 16-bit timers' registers have the same order on all chips; the place of the first differs. */
struct wide_timer {
    volatile uint8_t a, b, c, unused;
    volatile uint16_t count, top, match[3];
};

static uint16_t levels[MAX_DIMMERS];
static uint8_t testing;

static struct wide_timer *wide_timer(uint8_t timer)
{
    return (struct wide_timer *)(timer == 1 ? 0x80u : timer == 3 ? 0x90u : timer == 4 ? 0xA0u : 0x120u);
}

static uint8_t is_narrow(uint8_t timer) { return timer == 0 || timer == 2; }

static uint16_t top_of(uint8_t timer)
{
    if (timer == 0) {
        return TICK_TIMER_TOP;
    }
    return timer == 2 ? 255 : wide_timer(timer)->top;
}

/* Joins the pin to the timer or frees it; then it is what the port says, which is low. */
static void connect(uint8_t timer, uint8_t output, uint8_t on)
{
    volatile uint8_t *control = timer == 0 ? &TCCR0A : &wide_timer(timer)->a;
#ifdef TCCR2A
    if (timer == 2) {
        control = &TCCR2A;
    }
#endif
    uint8_t mask = (uint8_t)(0x80u >> 2 * output);
    *control = (uint8_t)((*control & ~mask) | (on ? mask : 0));
}

static void match(uint8_t timer, uint8_t output, uint16_t value)
{
    if (timer == 0) {
        OCR0B = (uint8_t)value; /* output A's register is the tick's */
    }
#ifdef TCCR2A
    else if (timer == 2 && output == 0) {
        OCR2A = (uint8_t)value;
    } else if (timer == 2) {
        OCR2B = (uint8_t)value;
    }
#endif
    else {
        wide_timer(timer)->match[output] = value;
    }
}

static void show(uint8_t dimmer)
{
    uint16_t at = table.at_dimmers + 3u * dimmer;
    uint8_t timer = table_byte(at + 1), output = table_byte(at + 2) & (uint8_t)~POINTER;
    uint16_t level = testing ? 65535u : levels[dimmer];
    uint32_t steps = (uint32_t)top_of(timer) + 1;
    uint32_t on = ((uint32_t)level * steps + 32767u) / 65535u; /* at most 65535 * 65536 + 32767: it fits */
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        if (on != 0) {
            match(timer, output, (uint16_t)(on - 1)); /* high from 0 to the match, both counted in */
        }
        connect(timer, output, on != 0);
    }
}

static void start_timer(uint16_t at)
{
    uint8_t timer = table_byte(at), clock = table_byte(at + 1);
    if (!is_narrow(timer)) {
        struct wide_timer *t = wide_timer(timer);
        t->top = table_word(at + 2);
        t->a = 0x02; /* fast PWM up to the top register */
        t->b = 0x18 | clock;
    }
#ifdef TCCR2A
    else if (timer == 2) {
        TCCR2A = 0x03; /* fast PWM up to 255 */
        TCCR2B = clock;
    }
#endif
}

void dimmers_start(void)
{
    for (uint8_t i = 0; i < table.timers; i++) {
        start_timer(table.at_timers + 4u * i);
    }
    for (uint8_t i = 0; i < table.dimmers; i++) {
        levels[i] = FIRST_LEVEL;
    }
    keep_load(levels);
    for (uint8_t i = 0; i < table.dimmers; i++) {
        if (table_byte(table.at_dimmers + 3u * i + 2) & POINTER) {
            levels[i] = 0;
        }
        pin_output(table_byte(table.at_dimmers + 3u * i), 0);
        show(i);
    }
}

void dimmers_set(uint8_t dimmer, uint16_t level)
{
    levels[dimmer] = level;
    show(dimmer);
}

uint16_t dimmers_get(uint8_t dimmer) { return levels[dimmer]; }

void dimmers_test(uint8_t on)
{
    testing = on != 0;
    for (uint8_t i = 0; i < table.dimmers; i++) {
        show(i);
    }
}
