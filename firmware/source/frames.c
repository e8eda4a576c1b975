#include "frames.h"

#include <util/crc16.h>

#include "serial.h"

#define MOST_BYTES (2 + MOST_DATA + 2)

static uint8_t sequence;
static uint16_t bad;

void frame_send(uint8_t type, const uint8_t *data, uint8_t length)
{
    uint8_t bytes[MOST_BYTES];
    uint16_t crc = 0;
    uint8_t count = length + 2;

    bytes[0] = type;
    bytes[1] = sequence;
#ifndef STUCK_SEQUENCE
    sequence++;
#endif
    for (uint8_t i = 0; i < length; i++) {
        bytes[2 + i] = data[i];
    }
    for (uint8_t i = 0; i < count; i++) {
        crc = _crc_xmodem_update(crc, bytes[i]);
    }
    bytes[count++] = (uint8_t)(crc >> 8);
    bytes[count++] = (uint8_t)crc;

    for (uint8_t start = 0; start <= count;) {
        uint8_t end = start;
        while (end < count && bytes[end] != 0) {
            end++;
        }
        serial_put((uint8_t)(end - start + 1));
        for (; start < end; start++) {
            serial_put(bytes[start]);
        }
        start++; /* over the zero that the code stands for */
    }
    serial_put(0);
}

/* The packet on its way in, as it comes from the line. */
static uint8_t packet[MOST_BYTES + 1];
static uint8_t held, broken;

/* Undoes the stuffing in place; 0 where a block overruns the packet or nothing is left. */
static uint8_t unstuff(void)
{
    uint8_t from = 0, to = 0;
    while (from < held) {
        uint8_t code = packet[from++];
        if (code - 1 > held - from) {
            return 0;
        }
        for (uint8_t i = 1; i < code; i++) {
            packet[to++] = packet[from++];
        }
        if (from < held) {
            packet[to++] = 0;
        }
    }
    return to;
}

static uint8_t take(struct frame *frame)
{
    uint8_t count = broken ? 0 : unstuff();
    if (count < 4) {
        return 0;
    }
    uint16_t crc = 0;
    for (uint8_t i = 0; i < count; i++) {
        crc = _crc_xmodem_update(crc, packet[i]);
    }
    if (crc != 0) { /* over its own checksum a sound frame leaves 0 */
        return 0;
    }
    frame->type = packet[0];
    frame->sequence = packet[1];
    frame->length = count - 4;
    for (uint8_t i = 0; i < frame->length; i++) {
        frame->data[i] = packet[2 + i];
    }
    return 1;
}

uint8_t frame_receive(struct frame *frame)
{
    uint8_t byte;
    while (serial_get(&byte)) {
        if (byte != 0) {
            if (held < sizeof packet) {
                packet[held++] = byte;
            } else {
                broken = 1;
            }
            continue;
        }
        if (held == 0 && !broken) {
            continue; /* nothing between two ends */
        }
        uint8_t sound = take(frame);
        held = 0;
        broken = 0;
        if (serial_faults()) {
            sound = 0;
        }
        if (sound) {
            return 1;
        }
        bad++;
    }
    return 0;
}

uint16_t frames_bad(void) { return bad; }
