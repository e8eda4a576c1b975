/* Pins as the table names them: the port in the high four bits (0 for A, no I), the bit in the low four. */
#ifndef PINS_H
#define PINS_H

#include <stdint.h>

/* Three registers of a port follow each other. */
struct port {
    volatile uint8_t in;
    volatile uint8_t direction;
    volatile uint8_t out;
};

struct port *port_at(uint8_t number);

static inline struct port *pin_port(uint8_t pin) { return port_at(pin >> 4); }
static inline uint8_t pin_mask(uint8_t pin) { return (uint8_t)(1u << (pin & 7)); }

/* Each reads a register, changes one bit and writes it back: from the main loop only with interrupts off. */
void pin_pull_up(uint8_t pin);
void pin_output(uint8_t pin, uint8_t high);
void pin_write(uint8_t pin, uint8_t high);

#endif
