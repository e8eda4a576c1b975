/* Keeps the dimmers' levels over power-off, when the host asks for it and only then: the memory wears with every writing. */
#ifndef KEEP_H
#define KEEP_H

#include <stdint.h>

/* Fills in the levels that were kept for this very table; else leaves them. */
void keep_load(uint16_t *levels);

/* Begins to keep the levels as they are. 0 where an earlier keeping is still under way. */
uint8_t keep_begin(void);

/* Writes a byte if the memory is ready. Tells once, with 1, that all is written. From the main loop. */
uint8_t keep_step(void);

#endif
