/* Indicators: lamps that are on or off. */
#ifndef LAMPS_H
#define LAMPS_H

#include <stdint.h>

/* All off. */
void lamps_start(void);

void lamps_set(uint8_t lamp, uint8_t on);
uint8_t lamps_get(uint8_t lamp);

/* While on, every lamp shines; what is set meanwhile counts afterwards. */
void lamps_test(uint8_t on);

#endif
