/* The ATmega32U4's own USB: a game controller that needs no driver. Off where the table names no vendor and product. */
#ifndef USB_H
#define USB_H

#include <avr/io.h>

#ifdef UDCON

/* Switches it on and shows the panel to the host. After everything has settled. */
void usb_start(void);

/* Answers the host and sends what changed. From the main loop, at every turn; never waits. */
void usb_step(void);

/* Once a millisecond. */
void usb_ms(void);

#else

static inline void usb_start(void) {}
static inline void usb_step(void) {}
static inline void usb_ms(void) {}

#endif
#endif
