#include "shift.h"

#include <util/atomic.h>

#include "chip.h"
#include "pins.h"
#include "table.h"

static uint8_t outputs[MAX_OUT_CHIPS];
static uint8_t left, again;

static struct {
    struct port *load, *clock, *data;
    uint8_t load_mask, clock_mask, data_mask;
} in;

static void write_atomically(uint8_t pin, uint8_t high)
{
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { pin_write(pin, high); }
}

void shift_start(void)
{
    if (table.in_chips != 0) {
        pin_output(table.in_load, 1);
        pin_output(table.in_clock, 0);
        pin_pull_up(table.in_data);
        in.load = pin_port(table.in_load);
        in.clock = pin_port(table.in_clock);
        in.data = pin_port(table.in_data);
        in.load_mask = pin_mask(table.in_load);
        in.clock_mask = pin_mask(table.in_clock);
        in.data_mask = pin_mask(table.in_data);
    }
    if (table.out_chips != 0) {
        pin_output(table.out_data, 0);
        pin_output(table.out_clock, 0);
        pin_output(table.out_latch, 0);
        shift_out_refresh();
        while (left != 0) {
            shift_out_step();
        }
    }
}

uint8_t shift_in_byte(uint8_t load)
{
    if (load) {
        in.load->out &= (uint8_t)~in.load_mask;
        in.load->out |= in.load_mask;
    }
    uint8_t byte = 0;
    for (uint8_t i = 0; i < 8; i++) { /* input H comes first */
        byte <<= 1;
        if (in.data->in & in.data_mask) {
            byte |= 1;
        }
        in.clock->out |= in.clock_mask;
        in.clock->out &= (uint8_t)~in.clock_mask;
    }
    return byte;
}

void shift_out_refresh(void)
{
    if (left == 0) {
        left = table.out_chips;
    } else {
        again = 1;
    }
}

void shift_out_set(uint8_t output, uint8_t high)
{
    uint8_t mask = (uint8_t)(1u << (output & 7));
    if (high) {
        outputs[output >> 3] |= mask;
    } else {
        outputs[output >> 3] &= (uint8_t)~mask;
    }
    shift_out_refresh();
}

/* What goes in first ends up in the last chip, and in its output H. */
void shift_out_step(void)
{
    if (left == 0) {
        return;
    }
    uint8_t byte = outputs[--left];
    for (uint8_t i = 0; i < 8; i++, byte <<= 1) {
        write_atomically(table.out_data, byte & 0x80);
        write_atomically(table.out_clock, 1);
        write_atomically(table.out_clock, 0);
    }
    if (left == 0) {
        write_atomically(table.out_latch, 1);
        write_atomically(table.out_latch, 0);
        if (again) {
            again = 0;
            left = table.out_chips;
        }
    }
}
