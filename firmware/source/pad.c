#include "pad.h"

#include "analog.h"
#include "changes.h"
#include "chip.h"
#include "debounce.h"
#include "encoders.h"
#include "ladders.h"
#include "table.h"

#ifdef UDCON

#define STEP 4          /* of an axis: less is noise */
#define EDGE_STEP 16    /* of an axis, for an encoder's edge: 256 edges from end to end */
#define STRIKE_MS 35    /* a program that looks 30 times a second must see it */
#define MOST_WAITING 24 /* clicks of a knob that is turned faster than they can be struck */
#define CLOSED 0x8000u

struct pad_report pad;

static struct {
    int16_t seen;
    uint8_t waiting[2], left_ms[2]; /* clockwise and back */
} knobs[MAX_ENCODERS];

static uint16_t first_ladder_button, first_knob_button;
static uint8_t strikes;

static uint8_t set_button(uint16_t button, uint8_t pressed)
{
    if (button >= PAD_BUTTONS) {
        return 0;
    }
    uint8_t *byte = &pad.buttons[button >> 3], mask = (uint8_t)(1u << (button & 7)), before = *byte;
    *byte = pressed ? before | mask : before & (uint8_t)~mask;
    return *byte != before;
}

static uint8_t set_axis(uint8_t axis, uint16_t value)
{
    if (axis >= PAD_AXES || pad.axes[axis] == value) {
        return 0;
    }
    pad.axes[axis] = value;
    return 1;
}

/* What changes while this looks stands in the queue, and is taken from there. */
static void look_up_contacts(void)
{
    changes_beside_start();
    for (uint8_t bank = 0; bank < table.banks; bank++) {
        uint8_t there = table_byte(table_bank(bank));
        uint8_t state = debounce_state(bank);
        for (uint8_t bit = 0; bit < 8; bit++) {
            if (there >> bit & 1) {
                set_button(table_number(bank, bit), state >> bit & 1);
            }
        }
    }
}

uint8_t pad_contacts(void)
{
    uint8_t changed = 0, there;
    uint16_t change = 0;
    while ((there = changes_beside(&change)) != 0) {
        if (there == CHANGES_LOST) {
            look_up_contacts();
            return 1;
        }
        changed |= set_button(change & ~CLOSED, (change & CLOSED) != 0);
    }
    return changed;
}

static uint8_t look_at_wiper(uint8_t wiper)
{
    uint16_t now = analog_value(wiper), last = wiper < PAD_AXES ? pad.axes[wiper] : now;
    uint16_t apart = now > last ? now - last : last - now;
    return apart < STEP && now != 0 && now != PAD_FULL ? 0 : set_axis(wiper, now);
}

static uint8_t look_at_ladder(uint8_t positions, uint16_t first, uint8_t position)
{
    uint8_t changed = 0;
    for (uint8_t i = 0; i < positions; i++) {
        changed |= set_button(first + i, i == position);
    }
    return changed;
}

static uint8_t move_axis(uint8_t encoder)
{
    int16_t now = encoders_position(encoder);
    int16_t edges = (int16_t)((uint16_t)now - (uint16_t)knobs[encoder].seen);
    uint8_t axis = table.wipers + encoder;
    if (edges == 0 || axis >= PAD_AXES) {
        return 0;
    }
    knobs[encoder].seen = now;
    int32_t value = pad.axes[axis] + (int32_t)edges * EDGE_STEP;
    return set_axis(axis, value < 0 ? 0 : value > PAD_FULL ? PAD_FULL : (uint16_t)value);
}

/* A click becomes a press that lasts, and a pause as long. */
static uint8_t strike(uint8_t encoder, uint8_t back)
{
    uint8_t *left = &knobs[encoder].left_ms[back], *waiting = &knobs[encoder].waiting[back];
    if (*left == 0) {
        if (*waiting == 0) {
            return 0;
        }
        --*waiting;
        *left = 2 * STRIKE_MS;
    } else {
        --*left;
    }
    return set_button(first_knob_button + 2u * encoder + back, *left > STRIKE_MS);
}

static uint8_t look_at_clicks(uint8_t encoder)
{
    int16_t edges = table_byte(table.at_usb + USB_SIZE + encoder);
    int16_t moved = (int16_t)((uint16_t)encoders_position(encoder) - (uint16_t)knobs[encoder].seen);
    for (; edges != 0 && (moved >= edges || moved <= -edges);) {
        uint8_t back = moved < 0;
        int16_t step = back ? -edges : edges;
        moved -= step;
        knobs[encoder].seen = (int16_t)((uint16_t)knobs[encoder].seen + (uint16_t)step);
        if (knobs[encoder].waiting[back] < MOST_WAITING) {
            knobs[encoder].waiting[back]++;
        }
    }
    return strike(encoder, 0) | strike(encoder, 1);
}

uint8_t pad_ms(void)
{
    uint8_t changed = 0;
    for (uint8_t i = 0; i < table.wipers; i++) {
        changed |= look_at_wiper(i);
    }
    uint16_t at = table.at_ladders, button = first_ladder_button;
    for (uint8_t i = 0; i < table.ladders; i++) {
        uint8_t positions = table_byte(at + 1);
        changed |= look_at_ladder(positions, button, ladders_position(i));
        button += positions;
        at += 2u + 4u * positions;
    }
    for (uint8_t i = 0; i < table.encoders; i++) {
        changed |= strikes ? look_at_clicks(i) : move_axis(i);
    }
    return changed;
}

void pad_start(void)
{
    first_ladder_button = first_knob_button = table.contacts;
    uint16_t at = table.at_ladders;
    for (uint8_t i = 0; i < table.ladders; i++) {
        uint8_t positions = table_byte(at + 1);
        first_knob_button += positions;
        at += 2u + 4u * positions;
    }
    strikes = table_byte(table.at_usb + USB_OPTIONS_AT) & USB_ENCODERS_STRIKE;
    for (uint8_t i = 0; i < table.encoders; i++) {
        knobs[i].seen = encoders_position(i);
        if (!strikes) {
            set_axis(table.wipers + i, PAD_FULL / 2);
        }
    }
    look_up_contacts();
    pad_ms();
}

#endif
