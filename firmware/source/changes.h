/* Changes of contacts on their way from the interrupt to the link, in order. */
#ifndef CHANGES_H
#define CHANGES_H

#include <stdint.h>

/* After the first states are known: they count as told. */
void changes_start(void);

/* From the interrupt. Where there is no room the change is made up for later, out of order, and counted. */
void changes_put(uint8_t bank, uint8_t bit, uint8_t closed);

/* The next change to tell: the contact's number, and the highest bit where it closed. 0 where there is none. */
uint8_t changes_next(uint16_t *change);

/* Whether the host was told that this contact is closed. */
uint8_t changes_told(uint16_t number);

uint16_t changes_dropped(void);

/* For a second reader: from now on; then the next change it has not seen, 0 where there is none, CHANGES_LOST where it must look up all states. */
#define CHANGES_LOST 2
void changes_beside_start(void);
uint8_t changes_beside(uint16_t *change);

#endif
