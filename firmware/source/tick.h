/* The beat: 8000 times a second, everything that must not wait. */
#ifndef TICK_H
#define TICK_H

#include <stdint.h>

#define TICKS_PER_MS 8

void tick_start(void);

/* Ticks since the start, wrapping. */
uint16_t tick_count(void);

/* The same from within the interrupt. */
uint16_t tick_count_inside(void);

#endif
