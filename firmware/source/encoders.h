/* Quadrature encoders, read every tick. */
#ifndef ENCODERS_H
#define ENCODERS_H

#include <stdint.h>

void encoders_start(void);

/* Once a tick, from the interrupt, first of all. */
void encoders_tick(void);

/* What has not been told of an encoder: edges (at most 127 either way), the place they lead to, illegal steps so far. 0 where there is nothing new. */
uint8_t encoders_news(uint8_t encoder, int8_t *delta, int16_t *position, uint8_t *illegal);

/* Where it stands, in edges, wrapping. */
int16_t encoders_position(uint8_t encoder);

/* The place that was last told. */
int16_t encoders_told(uint8_t encoder);

#endif
