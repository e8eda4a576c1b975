/* Analog inputs, one conversion a tick. Of each channel the first conversion is thrown away and four are added. */
#ifndef ANALOG_H
#define ANALOG_H

#include <stdint.h>

void analog_start(void);

/* Once a tick, from the interrupt. */
void analog_tick(void);

/* Whether every channel has been read at least twice. */
uint8_t analog_settled(void);

/* Sum of four readings of 10 bits. Wipers come first, then ladders. */
uint16_t analog_value(uint8_t source);

/* A wiper's value where it is far enough from what was told, or at an end. 0 where there is nothing new. */
uint8_t analog_news(uint8_t wiper, uint16_t *value);

/* The value that was last told. */
uint16_t analog_told(uint8_t wiper);

/* After the first readings: they count as told. */
void analog_tell_all(void);

#endif
