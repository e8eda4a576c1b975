/* The engine that runs in the panel. What is wired where it reads from the desk's table; without one it only says hello. */
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>
#include <avr/wdt.h>

#include "analog.h"
#include "changes.h"
#include "chip.h"
#include "debounce.h"
#include "dimmers.h"
#include "encoders.h"
#include "ladders.h"
#include "lamps.h"
#include "link.h"
#include "pins.h"
#include "scan.h"
#include "serial.h"
#include "shift.h"
#include "table.h"
#include "tick.h"
#include "usb.h"

static uint8_t reset_cause __attribute__((section(".noinit")));

/* Before anything else: after its own reset the watchdog runs on, and short. */
void watchdog_off(void) __attribute__((naked, used, section(".init3")));
void watchdog_off(void)
{
    reset_cause = MCUSR;
    MCUSR = 0;
    wdt_disable();
}

/* Pins that the factory gave to the debugger become pins; a boot loader's USB is let go. */
static void free_pins(void)
{
#ifdef JTD
    uint8_t off = MCUCR | 1 << JTD;
    MCUCR = off; /* twice within four cycles */
    MCUCR = off;
#endif
#ifdef UDCON
    UDCON = 1 << DETACH;
    USBCON = 1 << FRZCLK;
#endif
}

static void start(void)
{
    cli();
    free_pins();
    table_open();
    shift_start();
    lamps_start();
    tick_start();
    dimmers_start();
    encoders_start();
    scan_start();
    debounce_start(scan_length());
    analog_start();
    serial_start(table.rate);
    link_start(reset_cause);
    sei();
    while (!debounce_settled() || !analog_settled()) {
    }
    changes_start();
    analog_tell_all();
    ladders_start();
    usb_start();
}

static void every_ms(void)
{
    static uint8_t until_refresh = 100;
    ladders_look();
    usb_ms();
    if (--until_refresh == 0) {
        until_refresh = 100;
        shift_out_refresh();
    }
}

int main(void)
{
    start();
    uint16_t last_ms = tick_count(), last_second = last_ms;
    wdt_enable(WDTO_500MS);
    set_sleep_mode(SLEEP_MODE_IDLE);
    for (;;) {
        usb_step();
        uint8_t busy = link_run();
        uint16_t now = tick_count();
        if ((uint16_t)(now - last_ms) >= TICKS_PER_MS) {
            last_ms += TICKS_PER_MS;
            wdt_reset(); /* the tick runs, and so does this loop */
            every_ms();
        }
        if ((uint16_t)(now - last_second) >= 1000u * TICKS_PER_MS) {
            last_second += 1000u * TICKS_PER_MS;
            link_second();
        }
        shift_out_step();
        if (!busy) {
            sleep_mode(); /* until the next interrupt: a tick at the latest */
        }
    }
}
