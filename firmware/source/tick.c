#include "tick.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/atomic.h>

#include "analog.h"
#include "encoders.h"
#include "scan.h"

static volatile uint16_t ticks;

void tick_start(void)
{
    /* Fast PWM up to OCR0A, so that output B of this timer can still dim a lamp; 16 MHz / 8 / 250. */
    OCR0A = 249;
    TCCR0A = 0x03;
    TCCR0B = 0x08 | 0x02;
    TIMSK0 = 1 << OCIE0A;
}

uint16_t tick_count(void)
{
    uint16_t copy;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { copy = ticks; }
    return copy;
}

uint16_t tick_count_inside(void) { return ticks; }

/* After the encoders the serial line may interrupt: its bytes come every 40 us and can't wait for a whole tick. The tick itself may not. */
ISR(TIMER0_COMPA_vect)
{
    TIMSK0 = 0;
    ticks++;
    encoders_tick();
    sei();
    scan_tick();
    analog_tick();
    cli();
    TIMSK0 = 1 << OCIE0A;
}
