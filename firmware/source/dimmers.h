/* Dimmed channels: fast PWM of the timers, duty in proportion to the level. */
#ifndef DIMMERS_H
#define DIMMERS_H

#include <stdint.h>

/* Timers run, all channels at the levels that were kept, else at a quarter. */
void dimmers_start(void);

/* 0 is off without a spike, 65535 on without a gap. */
void dimmers_set(uint8_t dimmer, uint16_t level);
uint16_t dimmers_get(uint8_t dimmer);

/* While on, every channel is fully on; what is set meanwhile counts afterwards. */
void dimmers_test(uint8_t on);

#endif
