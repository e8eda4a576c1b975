/* What is told to the host, and in which order: contacts first, everything else as state when the line is free. */
#ifndef LINK_H
#define LINK_H

#include <stdint.h>

/* The reason for the last start, as the chip tells it. */
void link_start(uint8_t reset_cause);

/* Receives and sends what can be now. From the main loop. 0 where there is nothing to do until the next interrupt. */
uint8_t link_run(void);

/* Once a second. */
void link_second(void);

void link_tell_hello(void);
void link_tell_snapshot(void);

/* Only while a command is handled, when there is room for it. */
void link_acknowledge(uint8_t sequence, uint8_t result);

#endif
