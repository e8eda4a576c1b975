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

/* Stands in a register that one instruction sets or clears; the test bench watches it too. */
#define SCANNING (GPIOR0 & 1)

/*
 * Encoders are read at every beat, whatever else is under way: an edge that is missed is lost. Contacts and analog inputs may take longer
 * than a beat when many move at once; then the next beat leaves them alone, the column stays as it is, and nothing is lost but time.
 * The serial line may interrupt them, too: its bytes come every 40 us.
 */
ISR(TIMER0_COMPA_vect)
{
    ticks++;
    encoders_tick();
    if (SCANNING) {
        return;
    }
    GPIOR0 |= 1;
    sei();
    scan_tick();
    analog_tick();
    cli();
    GPIOR0 &= (uint8_t)~1;
}
