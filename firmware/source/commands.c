#include "commands.h"

#include "bounce.h"
#include "dimmers.h"
#include "keep.h"
#include "lamps.h"
#include "link.h"
#include "table.h"

enum { ASK_HELLO = 0x41, ASK_SNAPSHOT, SET_INDICATOR, SET_DIMMER, LAMP_TEST, KEEP_LEVELS, REPORT_BOUNCE };
enum { DONE, UNKNOWN, WRONG_LENGTH, OUT_OF_RANGE, BUSY, LATER };

static uint8_t keeping;

static uint8_t length_of(uint8_t type)
{
    static const uint8_t lengths[] = {0, 0, 2, 3, 1, 0, 1};
    return lengths[type - ASK_HELLO];
}

static uint8_t set_indicator(const uint8_t *data)
{
    if (data[0] >= table.indicators) {
        return OUT_OF_RANGE;
    }
    lamps_set(data[0], data[1]);
    return DONE;
}

static uint8_t set_dimmer(const uint8_t *data)
{
    if (data[0] >= table.dimmers) {
        return OUT_OF_RANGE;
    }
    dimmers_set(data[0], (uint16_t)(data[1] | (uint16_t)data[2] << 8));
    return DONE;
}

static uint8_t test_lamps(uint8_t on)
{
    if (on > 1) {
        return OUT_OF_RANGE;
    }
    lamps_test(on);
    dimmers_test(on);
    return DONE;
}

static uint8_t keep_levels(uint8_t sequence)
{
    if (!keep_begin()) {
        return BUSY;
    }
    keeping = sequence;
    return LATER; /* told when it is written */
}

static uint8_t report_bounce(uint8_t on)
{
    if (on > 1) {
        return OUT_OF_RANGE;
    }
    bounce_watch(on);
    return DONE;
}

static uint8_t run(const struct frame *frame)
{
    if (frame->type < ASK_HELLO || frame->type > REPORT_BOUNCE) {
        return UNKNOWN;
    }
    if (frame->length != length_of(frame->type)) {
        return WRONG_LENGTH;
    }
    switch (frame->type) {
    case ASK_HELLO: link_tell_hello(); return DONE;
    case ASK_SNAPSHOT: link_tell_snapshot(); return DONE;
    case SET_INDICATOR: return set_indicator(frame->data);
    case SET_DIMMER: return set_dimmer(frame->data);
    case LAMP_TEST: return test_lamps(frame->data[0]);
    case KEEP_LEVELS: return keep_levels(frame->sequence);
    default: return report_bounce(frame->data[0]);
    }
}

void command_run(const struct frame *frame)
{
    uint8_t result = run(frame);
    if (result != LATER) {
        link_acknowledge(frame->sequence, result);
    }
}

void commands_step(void)
{
    if (keep_step()) {
        link_acknowledge(keeping, DONE);
    }
}
