/* Chains of shift registers, clocked by hand: 74HC165 that read, 74HC595 that drive. */
#ifndef SHIFT_H
#define SHIFT_H

#include <stdint.h>

/* Pins as outputs; all outputs of the chain off before anything else. */
void shift_start(void);

/* Eight inputs of the next chip, bit 0 for input A; the first of a round loads all chips. From the interrupt. */
uint8_t shift_in_byte(uint8_t load);

/* An output of the chain; it takes effect when the chain has been written. */
void shift_out_set(uint8_t output, uint8_t high);

/* Writes one byte of the chain, if there is any to write. From the main loop. */
void shift_out_step(void);

/* Writes the chain again though nothing changed: a disturbance must not last. */
void shift_out_refresh(void);

#endif
