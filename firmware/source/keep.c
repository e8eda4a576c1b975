#include "keep.h"

#include <avr/eeprom.h>
#include <util/crc16.h>

#include "chip.h"
#include "dimmers.h"
#include "table.h"

/* The first bytes of this memory are the likeliest to suffer at a power-off; they are left alone. */
#define PLACE 16u
#define HEAD 5u /* the table's hash, the count */
#define LONGEST (HEAD + 2u * MAX_DIMMERS + 2u)

static uint8_t record[LONGEST];
static uint8_t length, at;

static uint8_t *address(uint8_t i) { return (uint8_t *)(PLACE + i); }

static uint16_t crc_of(uint8_t bytes)
{
    uint16_t crc = 0;
    for (uint8_t i = 0; i < bytes; i++) {
        crc = _crc_xmodem_update(crc, record[i]);
    }
    return crc;
}

static uint8_t put_head(void)
{
    for (uint8_t i = 0; i < 4; i++) {
        record[i] = (uint8_t)(table.hash >> 8 * i);
    }
    record[4] = table.dimmers;
    return HEAD + 2 * table.dimmers;
}

void keep_load(uint16_t *levels)
{
    uint8_t body = put_head();
    for (uint8_t i = 0; i < HEAD; i++) {
        if (eeprom_read_byte(address(i)) != record[i]) {
            return;
        }
    }
    for (uint8_t i = HEAD; i < body; i++) {
        record[i] = eeprom_read_byte(address(i));
    }
    uint16_t crc = crc_of(body);
    if (eeprom_read_byte(address(body)) != (uint8_t)(crc >> 8) || eeprom_read_byte(address(body + 1)) != (uint8_t)crc) {
        return;
    }
    for (uint8_t i = 0; i < table.dimmers; i++) {
        levels[i] = (uint16_t)(record[HEAD + 2 * i] | (uint16_t)record[HEAD + 2 * i + 1] << 8);
    }
}

uint8_t keep_begin(void)
{
    if (at < length) {
        return 0;
    }
    uint8_t body = put_head();
    for (uint8_t i = 0; i < table.dimmers; i++) {
        uint16_t level = dimmers_get(i);
        record[HEAD + 2 * i] = (uint8_t)level;
        record[HEAD + 2 * i + 1] = (uint8_t)(level >> 8);
    }
    uint16_t crc = crc_of(body);
    record[body] = (uint8_t)(crc >> 8);
    record[body + 1] = (uint8_t)crc;
    length = body + 2;
    at = 0;
    return 1;
}

uint8_t keep_step(void)
{
    if (at >= length || !eeprom_is_ready()) {
        return 0;
    }
    eeprom_update_byte(address(at), record[at]); /* begins to write and returns; bytes that are right already are left */
    if (++at < length) {
        return 0;
    }
    length = 0;
    at = 0;
    return 1;
}
