/* The beat: 8000 times a second, everything that must not wait. */
#ifndef TICK_H
#define TICK_H

#include <stdint.h>

#define TICKS_PER_MS 8

void tick_start(void);

/* Ticks since the start, wrapping; also from within interrupts, which may be interrupted by the next tick. */
uint16_t tick_count(void);

#endif
