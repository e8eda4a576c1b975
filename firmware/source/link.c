#include "link.h"

#include "analog.h"
#include "bounce.h"
#include "changes.h"
#include "chip.h"
#include "commands.h"
#include "encoders.h"
#include "frames.h"
#include "ladders.h"
#include "serial.h"
#include "snapshot.h"
#include "table.h"

enum { HELLO = 1, CONTACT, ENCODER, WIPER, LADDER, ALIVE, SNAPSHOT, ACKNOWLEDGE, BOUNCE };

#define MOST_AT_A_TURN 8

static uint8_t reset_cause, hello_due, alive_due, turn;
static uint16_t seconds;

static uint8_t *put_word(uint8_t *to, uint16_t word)
{
    *to++ = (uint8_t)word;
    *to++ = (uint8_t)(word >> 8);
    return to;
}

void link_start(uint8_t cause)
{
    reset_cause = cause;
    hello_due = 1;
}

void link_second(void)
{
    seconds++;
    alive_due = 1;
}

void link_tell_hello(void) { hello_due = 1; }

/* The time first: so that whoever missed a hello knows of a start before anything is compared. */
void link_tell_snapshot(void)
{
    alive_due = 1;
    snapshot_begin();
}

void link_acknowledge(uint8_t sequence, uint8_t result)
{
    uint8_t data[2] = {sequence, result};
    frame_send(ACKNOWLEDGE, data, 2);
}

static void send_hello(void)
{
    uint8_t data[19] = {LINK_VERSION, ENGINE_VERSION, table.valid ? TABLE_VERSION : 0, CHIP, table.controller};
    uint8_t *to = put_word(data + 5, (uint16_t)table.hash);
    to = put_word(to, (uint16_t)(table.hash >> 16));
    to = put_word(to, table.contacts);
    *to++ = table.encoders;
    *to++ = table.wipers;
    *to++ = table.ladders;
    *to++ = table.indicators;
    *to++ = table.dimmers;
    *to++ = reset_cause;
    frame_send(HELLO, data, (uint8_t)(to - data));
}

static void send_alive(void)
{
    uint8_t data[6];
    put_word(put_word(put_word(data, seconds), frames_bad()), changes_dropped());
    frame_send(ALIVE, data, 6);
}

static uint8_t send_contact(void)
{
    uint16_t change;
    uint8_t data[2];
    if (!changes_next(&change)) {
        return 0;
    }
    put_word(data, change);
    frame_send(CONTACT, data, 2);
    return 1;
}

static uint8_t send_encoder(uint8_t encoder)
{
    int8_t delta;
    int16_t position;
    uint8_t illegal;
    if (!encoders_news(encoder, &delta, &position, &illegal)) {
        return 0;
    }
    uint8_t data[5] = {encoder, (uint8_t)delta};
    *put_word(data + 2, (uint16_t)position) = illegal;
    frame_send(ENCODER, data, 5);
    return 1;
}

static uint8_t send_wiper(uint8_t wiper)
{
    uint16_t value;
    if (!analog_news(wiper, &value)) {
        return 0;
    }
    uint8_t data[3] = {wiper};
    put_word(data + 1, value);
    frame_send(WIPER, data, 3);
    return 1;
}

static void send_ladder(uint8_t ladder)
{
    uint8_t data[4] = {ladder};
    uint16_t value;
    ladders_tell(ladder, data + 1, &value);
    put_word(data + 2, value);
    frame_send(LADDER, data, 4);
}

static uint8_t send_bounce(void)
{
    uint16_t number;
    uint8_t data[4];
    if (!bounce_next(&number, data + 2, data + 3)) {
        return 0;
    }
    put_word(data, number);
    frame_send(BOUNCE, data, 4);
    return 1;
}

static uint8_t send_snapshot(void)
{
    uint8_t data[MOST_DATA];
    uint8_t length = snapshot_next(data);
    if (length == 0) {
        return 0;
    }
    frame_send(SNAPSHOT, data, length);
    return 1;
}

/* Each source in its turn, from the one after the last that had something: none can starve the others. */
static uint8_t send_state(void)
{
    uint8_t encoders = table.encoders, wipers = encoders + table.wipers;
    for (uint8_t tried = 0; tried <= wipers; tried++) {
        uint8_t source = turn;
        turn = turn >= wipers ? 0 : turn + 1;
        uint8_t sent = source < encoders ? send_encoder(source)
            : source < wipers ? send_wiper(source - encoders)
            : send_bounce();
        if (sent) {
            return 1;
        }
    }
    return 0;
}

static uint8_t send_one(void)
{
    if (hello_due) {
        hello_due = 0;
        send_hello();
        return 1;
    }
    if (alive_due) {
        alive_due = 0;
        send_alive();
        return 1;
    }
    /* A snapshot and the news take turns: a full snapshot of a large panel must not hold up a knob. */
    static uint8_t snapshot_first;
    snapshot_first ^= 1;
    return snapshot_first ? send_snapshot() || send_state() : send_state() || send_snapshot();
}

/*
 * What happened, in its order. A selector's position is no state that may be told later: the next one would take its place. Where many contacts
 * keep the line full, room is kept for it.
 */
static uint8_t send_change(void)
{
    uint8_t ladder = ladders_waiting();
    if (ladder == LADDER_NONE) {
        return serial_room() >= FRAME_SIZE(2) && send_contact();
    }
    if (serial_room() < FRAME_SIZE(4)) {
        return 0;
    }
    send_ladder(ladder);
    return 1;
}

uint8_t link_run(void)
{
    uint8_t busy = 0;
    static struct frame frame;
    /* Not all at one turn: where interrupts leave little time changes come as fast as they are told, and selectors and the watchdog must have their turns. */
    for (uint8_t left = MOST_AT_A_TURN; left != 0 && send_change(); left--) {
        busy = 1;
    }
    if (serial_room() >= 2 * FRAME_SIZE(2)) {
        commands_step();
        if (frame_receive(&frame)) {
            command_run(&frame);
            busy = 1;
        }
    }
    if (serial_idle() && send_one()) {
        busy = 1;
    }
    return busy;
}
