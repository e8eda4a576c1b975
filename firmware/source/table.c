#include "table.h"

#include <avr/pgmspace.h>

#include "chip.h"

#define TABLE_START 0x6000u
#define TABLE_ROOM 0x1000u
#define HEADER_SIZE 35u
#define CHECKSUM_AT 8u
#define KEY_AT 12u
#define USUAL_RATE 3 /* 250000 bits a second at 16 MHz */

struct table table = {.rate = USUAL_RATE};
static uint8_t key;

static uint8_t stored(uint16_t at) { return pgm_read_byte((uint16_t)(TABLE_START + at)); }

/* Bytes behind the key are stored combined with it, so that a table never holds what old boot loaders take for a command. */
uint8_t table_byte(uint16_t at) { return stored(at) ^ key; }

uint16_t table_word(uint16_t at) { return (uint16_t)(table_byte(at) | (uint16_t)table_byte(at + 1) << 8); }

uint16_t table_number(uint8_t bank, uint8_t bit) { return table_word(table_bank(bank) + 2 + 2u * bit); }

/* CRC-32 as zip files have it, four bits at a time. */
static const uint32_t crc_parts[16] PROGMEM = {
    0x00000000, 0x1DB71064, 0x3B6E20C8, 0x26D930AC,
    0x76DC4190, 0x6B6B51F4, 0x4DB26158, 0x5005713C,
    0xEDB88320, 0xF00F9344, 0xD6D6A3E8, 0xCB61B38C,
    0x9B64C2B0, 0x86D3D2D4, 0xA00AE278, 0xBDBDF21C,
};

static uint32_t crc32(uint32_t crc, uint8_t byte)
{
    crc ^= byte;
    crc = crc >> 4 ^ pgm_read_dword(&crc_parts[crc & 15]);
    return crc >> 4 ^ pgm_read_dword(&crc_parts[crc & 15]);
}

static uint8_t is_sound(void)
{
    if (stored(0) != 'L' || stored(1) != 'B' || stored(2) != TABLE_VERSION || stored(3) > ENGINE_VERSION || stored(4) != LINK_VERSION || stored(5) != CHIP) {
        return 0;
    }

    uint16_t length = (uint16_t)(stored(6) | (uint16_t)stored(7) << 8);
    if (length < HEADER_SIZE || length > TABLE_ROOM) {
        return 0;
    }

    table.length = length;
    uint32_t told = 0;
    uint32_t crc = 0xFFFFFFFFul;
    for (uint16_t at = 0; at < length; at++) {
        if (at >= CHECKSUM_AT && at < CHECKSUM_AT + 4) {
            told |= (uint32_t)stored(at) << 8 * (at - CHECKSUM_AT);
        } else {
            crc = crc32(crc, stored(at));
        }
    }

    table.hash = ~crc;
    return told == table.hash;
}

/* Lists of what would not fit into this chip's memory are never begun. */
static uint8_t fits(void)
{
    uint16_t banks = (uint16_t)table.columns * table.row_ports + table.direct_ports + table.in_chips;
    return banks <= MAX_BANKS && table.contacts <= MAX_CONTACTS && table.row_ports <= 11 && table.direct_ports <= 11 && table.encoders <= MAX_ENCODERS
        && table.wipers + table.ladders <= MAX_ANALOG && table.indicators <= MAX_INDICATORS && table.out_chips <= MAX_OUT_CHIPS && table.dimmers <= MAX_DIMMERS;
}

static void read_header(void)
{
    table.controller = table_byte(13);
    table.rate = table_word(14);
    table.columns = table_byte(16);
    table.row_ports = table_byte(17);
    table.direct_ports = table_byte(18);
    table.in_chips = table_byte(19);
    table.out_chips = table_byte(20);
    table.contacts = table_word(21);
    table.encoders = table_byte(23);
    table.wipers = table_byte(24);
    table.ladders = table_byte(25);
    table.indicators = table_byte(26);
    table.dimmers = table_byte(27);
    table.timers = table_byte(28);
    table.in_load = table_byte(29);
    table.in_clock = table_byte(30);
    table.in_data = table_byte(31);
    table.out_data = table_byte(32);
    table.out_clock = table_byte(33);
    table.out_latch = table_byte(34);
    table.banks = (uint8_t)(table.columns * table.row_ports + table.direct_ports + table.in_chips);
}

static void find_lists(void)
{
    table.at_columns = HEADER_SIZE;
    table.at_row_ports = table.at_columns + table.columns;
    table.at_direct_ports = table.at_row_ports + 2u * table.row_ports;
    table.at_banks = table.at_direct_ports + 2u * table.direct_ports;
    table.at_encoders = table.at_banks + (uint16_t)BANK_SIZE * table.banks;
    table.at_wipers = table.at_encoders + 2u * table.encoders;
    table.at_ladders = table.at_wipers + table.wipers;
    uint16_t at = table.at_ladders;
    for (uint8_t ladder = 0; ladder < table.ladders; ladder++) {
        at += 2u + 4u * table_byte(at + 1); /* channel, positions, a window for each */
    }
    table.at_indicators = at;
    table.at_timers = table.at_indicators + 2u * table.indicators;
    table.at_dimmers = table.at_timers + 4u * table.timers;
    table.at_usb = table.at_dimmers + 3u * table.dimmers;
}

void table_open(void)
{
    if (!is_sound()) {
        table.hash = 0;
        return;
    }

    key = stored(KEY_AT);
    read_header();
    if (!fits()) {
        table = (struct table){.rate = USUAL_RATE};
        return;
    }

    find_lists();
    table.valid = 1;
}
