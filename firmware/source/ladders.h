/* Selectors that are read through a ladder of resistors. */
#ifndef LADDERS_H
#define LADDERS_H

#include <stdint.h>

#define LADDER_NONE 0xFF

/* The positions at the start are nobody's change. */
void ladders_start(void);

/*
 * Once a millisecond, from the main loop, and less often where interrupts leave it little time: so beats are counted, not looks.
 * A position counts once it has stood for 20 ms; between two of them there is none for a moment.
 */
void ladders_look(void);

/* A ladder whose position changed since it was told; LADDER_NONE where there is none. */
uint8_t ladders_waiting(void);

/* Its position and reading, which then are told. */
void ladders_tell(uint8_t ladder, uint8_t *position, uint16_t *value);

/* The position that counts now. */
uint8_t ladders_position(uint8_t ladder);

/* The position that was last told. */
uint8_t ladders_told(uint8_t ladder);

#endif
