#include "scan.h"

#include "debounce.h"
#include "pins.h"
#include "shift.h"
#include "table.h"

#define SHORTEST_SCAN 4
#define MOST_PORTS 11

static volatile uint8_t *row_in[MOST_PORTS];
static volatile uint8_t *direct_in[MOST_PORTS];
static uint8_t slot, length;

/* A column is driven low or floats. It is never driven high: two closed switches would join it to one that is low. */
static void drive_column(uint8_t column)
{
    uint8_t pin = table_byte(table.at_columns + column);
    pin_port(pin)->direction |= pin_mask(pin);
}

static void release_column(uint8_t column)
{
    uint8_t pin = table_byte(table.at_columns + column);
    pin_port(pin)->direction &= (uint8_t)~pin_mask(pin);
}

static void pull_up_ports(uint16_t at, uint8_t ports, volatile uint8_t **in)
{
    for (uint8_t i = 0; i < ports; i++, at += 2) {
        struct port *port = port_at(table_byte(at));
        uint8_t mask = table_byte(at + 1);
        port->direction &= (uint8_t)~mask;
        port->out |= mask;
        in[i] = &port->in;
    }
}

uint8_t scan_length(void) { return length; }

void scan_start(void)
{
    for (uint8_t column = 0; column < table.columns; column++) {
        pin_write(table_byte(table.at_columns + column), 0);
        release_column(column);
    }
    pull_up_ports(table.at_row_ports, table.row_ports, row_in);
    pull_up_ports(table.at_direct_ports, table.direct_ports, direct_in);

    uint8_t slots = table.columns + (table.direct_ports != 0) + table.in_chips;
    length = slots < SHORTEST_SCAN ? SHORTEST_SCAN : slots;
    if (table.columns != 0) {
        drive_column(0);
    }
}

/* All ports are read before anything is switched: a column has had a whole tick to settle by then. */
static void read_ports(volatile uint8_t **in, uint8_t ports, uint8_t *levels)
{
    for (; ports != 0; ports--) {
        *levels++ = **in++;
    }
}

void scan_tick(void)
{
    uint8_t levels[MOST_PORTS];
    uint8_t is_column = slot < table.columns;
    uint8_t after = slot - table.columns; /* counted from the first slot that is no column */
    uint8_t ports = 0;

    if (is_column) {
        ports = table.row_ports;
        read_ports(row_in, ports, levels);
        release_column(slot);
    } else if (after == 0 && table.direct_ports != 0) {
        ports = table.direct_ports;
        read_ports(direct_in, ports, levels);
    } else {
        after -= table.direct_ports != 0;
        if (after < table.in_chips) {
            levels[0] = shift_in_byte(after == 0);
            ports = 1;
        }
    }

    if (++slot == length) {
        slot = 0;
    }
    if (slot < table.columns) {
        drive_column(slot);
    }

    debounce(levels, ports);
    if (slot == 0) {
        debounce_scan_done();
    }
}
