/*
 * The desk's table: what is wired to which pin. It lies in flash from 0x6000 on, and comes from another program than this one,
 * so nothing of it is believed before its checksum is right.
 */
#ifndef TABLE_H
#define TABLE_H

#include <stdint.h>

struct table {
    uint8_t valid;
    uint32_t hash;
    uint8_t controller;
    uint16_t rate;
    uint8_t columns, row_ports, direct_ports, in_chips, out_chips;
    uint16_t contacts;
    uint8_t encoders, wipers, ladders, indicators, dimmers, timers;
    uint8_t in_load, in_clock, in_data;
    uint8_t out_data, out_clock, out_latch;

    /* Where the lists begin, counted from the table's first byte. */
    uint16_t at_columns, at_row_ports, at_direct_ports, at_banks, at_encoders, at_wipers, at_ladders, at_indicators, at_timers, at_dimmers, at_usb;
    uint16_t length;
    uint8_t banks;
};

extern struct table table;

/* Reads and checks the header. Where anything is wrong the table stays empty: no counts, nothing to drive. */
void table_open(void);

uint8_t table_byte(uint16_t at);
uint16_t table_word(uint16_t at);

/* A bank: the contacts there are, those read steadily, and the number of each. */
#define BANK_SIZE 18
static inline uint16_t table_bank(uint8_t bank) { return table.at_banks + (uint16_t)bank * BANK_SIZE; }

/* What the chip says of itself on USB: vendor, product, options, and for each encoder its edges from click to click. Not every table has it. */
#define USB_SIZE 5
#define USB_OPTIONS_AT 4
#define USB_ENCODERS_STRIKE 1
static inline uint8_t table_has_usb(void) { return table.valid && table.at_usb + USB_SIZE + table.encoders <= table.length; }

/* The number of a contact, from its bank and bit. */
uint16_t table_number(uint8_t bank, uint8_t bit);

#endif
