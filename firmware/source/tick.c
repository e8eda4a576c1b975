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

/* They stand in a register of which one instruction sets or clears a bit; the test bench watches it too. */
#define SCANNING 1
#define OWED 2

/* Apart, so that a beat that leaves contacts alone does not save the registers they take. */
static void __attribute__((noinline)) look(void)
{
    sei();
    scan_tick();
    analog_tick();
    cli();
}

/* Early in a beat: a column that is driven now has half a beat at least until it is read. */
static uint8_t is_early(void) { return TCNT0 < OCR0A / 2; }

/*
 * Encoders are read at every beat, whatever else is under way: an edge that is missed is lost. Contacts and analog inputs may take longer
 * than a beat when many move at once; then the next beat leaves them alone, and they are made up for at once when the work is done. That is
 * done once and not again: the main loop must get on, too. Where it does not suffice the column stays as it is, and nothing is lost but time.
 * The serial line may interrupt them, too: its bytes come every 40 us.
 */
ISR(TIMER0_COMPA_vect)
{
    ticks++;
    encoders_tick();
    if (GPIOR0 & SCANNING) {
        GPIOR0 |= OWED;
        return;
    }
    GPIOR0 |= SCANNING;
    look();
    if ((GPIOR0 & OWED) && is_early()) {
        GPIOR0 &= (uint8_t)~OWED;
        look();
    }
    GPIOR0 &= (uint8_t)~SCANNING;
    GPIOR0 &= (uint8_t)~OWED;
}
