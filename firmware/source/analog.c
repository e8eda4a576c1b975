#include "analog.h"

#include <util/atomic.h>

#include "chip.h"
#include "table.h"

#define READINGS 4
#define FULL (READINGS * 1023)
#define STEP 4 /* one step of 10 bits: less is noise */

static volatile uint16_t values[MAX_ANALOG];
static uint16_t told[MAX_ANALOG];
static uint8_t channels[MAX_ANALOG];
static uint8_t sources, source, taken, fresh;
static uint16_t sum;
static volatile uint8_t rounds;

/* Only between conversions: the chip takes a new channel for the next one. */
static void select_channel(uint8_t channel)
{
    ADMUX = (1 << REFS0) | (channel & 7);
#ifdef MUX5
    ADCSRB = channel & 8 ? 1 << MUX5 : 0;
#endif
}

static void silence_digital(uint8_t channel)
{
    if (channel < 8) {
        DIDR0 |= (uint8_t)(1u << channel);
    }
#ifdef DIDR2
    else {
        DIDR2 |= (uint8_t)(1u << (channel - 8));
    }
#endif
}

void analog_start(void)
{
    sources = table.wipers + table.ladders;
    uint16_t at = table.at_wipers;
    for (uint8_t i = 0; i < sources; i++) {
        channels[i] = table_byte(at);
        silence_digital(channels[i]);
        at += i < table.wipers ? 1 : 2u + 4u * table_byte(at + 1);
    }
    if (sources != 0) {
        select_channel(channels[0]);
        ADCSRA = (1 << ADEN) | (1 << ADSC) | (1 << ADPS2) | (1 << ADPS1) | (1 << ADPS0); /* 125 kHz: 104 us each */
    }
}

static void next_source(void)
{
    values[source] = sum;
    sum = 0;
    taken = 0;
    fresh = 0;
    if (++source == sources) {
        source = 0;
        if (rounds < 2) {
            rounds++;
        }
    }
    select_channel(channels[source]);
}

void analog_tick(void)
{
    if (sources == 0 || (ADCSRA & (1 << ADSC))) {
        return;
    }
    uint16_t reading = ADC;
    if (fresh) {
        sum += reading;
        if (++taken == READINGS) {
            next_source();
        }
    } else {
        fresh = 1;
    }
    ADCSRA |= 1 << ADSC;
}

uint8_t analog_settled(void) { return sources == 0 || rounds >= 2; }

uint16_t analog_value(uint8_t i)
{
    uint16_t copy;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { copy = values[i]; }
    return copy;
}

uint8_t analog_news(uint8_t wiper, uint16_t *value)
{
    uint16_t now = analog_value(wiper), last = told[wiper];
    uint16_t apart = now > last ? now - last : last - now;
    if (apart < STEP && (apart == 0 || (now != 0 && now != FULL))) {
        return 0;
    }
    told[wiper] = *value = now;
    return 1;
}

uint16_t analog_told(uint8_t wiper) { return told[wiper]; }

void analog_tell_all(void)
{
    for (uint8_t i = 0; i < table.wipers; i++) {
        told[i] = analog_value(i);
    }
}
