/* Reads contacts: one column of the matrix a tick, or all pins of their own, or one 74HC165. */
#ifndef SCAN_H
#define SCAN_H

#include <stdint.h>

/* Pull-ups on, columns floating, the first column driven. */
void scan_start(void);

/* Once a tick, from the timer's interrupt. */
void scan_tick(void);

/* Ticks that a whole scan takes: never fewer than four, so that two scans that agree are half a millisecond apart. */
uint8_t scan_length(void);

#endif
