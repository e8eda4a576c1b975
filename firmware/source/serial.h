/* The serial line: two rings of bytes and their interrupts. */
#ifndef SERIAL_H
#define SERIAL_H

#include <stdint.h>

/* The divider less one; the highest bit asks for double speed, which hears less well. */
void serial_start(uint16_t rate);

/* The next received byte; 0 where there is none. */
uint8_t serial_get(uint8_t *byte);

/* Whether bytes were lost or broken since this was asked last. */
uint8_t serial_faults(void);

/* Bytes that can be put now. */
uint8_t serial_room(void);

/* Whether nothing waits to be sent. */
uint8_t serial_idle(void);

/* Only where there is room. */
void serial_put(uint8_t byte);

#endif
