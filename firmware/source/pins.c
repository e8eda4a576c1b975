#include "pins.h"

/* Ports A to G lie at 0x20 and up, H to L at 0x100, three registers each; the same on every chip that has them. */
struct port *port_at(uint8_t number)
{
    uint16_t address = number < 7 ? 0x20u + 3u * number : 0x100u + 3u * (number - 7u);
    return (struct port *)address;
}

void pin_pull_up(uint8_t pin)
{
    struct port *port = pin_port(pin);
    port->direction &= (uint8_t)~pin_mask(pin);
    port->out |= pin_mask(pin);
}

void pin_write(uint8_t pin, uint8_t high)
{
    struct port *port = pin_port(pin);
    if (high) {
        port->out |= pin_mask(pin);
    } else {
        port->out &= (uint8_t)~pin_mask(pin);
    }
}

void pin_output(uint8_t pin, uint8_t high)
{
    pin_write(pin, high); /* the level first, so that it never drives the other one */
    pin_port(pin)->direction |= pin_mask(pin);
}
