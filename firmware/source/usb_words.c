#include "usb_words.h"

#include <avr/io.h>
#include <avr/pgmspace.h>

#include "chip.h"
#include "pad.h"

#ifdef UDCON

enum { DEVICE = USB_DEVICE, CONFIGURATION, STRING, INTERFACE, ENDPOINT, HID = 0x21, REPORT };

#define LOW(word) (uint8_t)((word) & 0xFF)
#define HIGH(word) (uint8_t)((word) >> 8)

static const uint8_t device[] PROGMEM = {
    18, DEVICE,
    0x00, 0x02,        /* USB 2.0 */
    0, 0, 0,           /* its class is its interface's */
    EP0_SIZE,
    0, 0, 0, 0,        /* vendor and product, from the table */
    ENGINE_VERSION, 0, /* its release */
    0, 1, 0,           /* strings: no maker, a name, no serial number */
    1,                 /* configuration */
};

/* Short items, HID 1.11, 6.2.2: tag, type and size in one byte, then the data. */
static const uint8_t report[] PROGMEM = {
    0x05, 0x01,                             /* usage page: generic desktop */
    0x09, 0x04,                             /* usage: joystick */
    0xA1, 0x01,                             /* collection: application */
    0x15, 0x00,                             /* logical minimum */
    0x26, LOW(PAD_FULL), HIGH(PAD_FULL),    /* logical maximum */
    0x75, 16,                               /* report size */
    0x95, PAD_AXES,                         /* report count */
    0x19, 0x30, 0x29, 0x30 + PAD_AXES - 1,  /* usages: X, Y, Z, Rx, Ry, Rz, slider, dial */
    0x81, 0x02,                             /* input: data, variable, absolute */
    0x05, 0x09,                             /* usage page: buttons */
    0x19, 1, 0x29, PAD_BUTTONS,             /* usages */
    0x25, 0x01,                             /* logical maximum */
    0x75, 1,                                /* report size */
    0x95, PAD_BUTTONS,                      /* report count */
    0x81, 0x02,                             /* input: data, variable, absolute */
    0xC0,                                   /* end of the collection */
};

#define HID_WORDS 9, HID, 0x11, 0x01, 0, 1, REPORT, sizeof report, 0 /* HID 1.11, no country, one report descriptor */

static const uint8_t hid[] PROGMEM = {HID_WORDS};

static const uint8_t configuration[] PROGMEM = {
    9, CONFIGURATION, 34, 0, 1, 1, 0,
    0x80, 125,                              /* lives on the bus, on up to 250 mA: the chip's 200 and the board's own */
    9, INTERFACE, 0, 0, 1, 3, 0, 0, 0,      /* one endpoint, class HID, no boot protocol */
    HID_WORDS,
    7, ENDPOINT, 0x80 | REPORT_ENDPOINT, 3, sizeof(struct pad_report), 0, 1, /* in, interrupt, every millisecond */
};

static const uint8_t languages[] PROGMEM = {4, STRING, 0x09, 0x04};

static const uint8_t name[] PROGMEM = {
    32, STRING, 'L', 0, 'a', 0, 'm', 0, 'p', 0, 'b', 0, 'l', 0, 'a', 0, 'c', 0, 'k', 0, ' ', 0, 'p', 0, 'a', 0, 'n', 0, 'e', 0, 'l', 0,
};

uint8_t usb_descriptor(uint8_t type, uint8_t index, const uint8_t **at)
{
#define SAY(words)       \
    *at = words;         \
    return sizeof words;
    if (type == STRING) {
        if (index > 1) {
            return 0;
        }
        if (index == 1) {
            SAY(name)
        }
        SAY(languages)
    }
    if (index != 0) {
        return 0;
    }
    switch (type) {
    case DEVICE: SAY(device)
    case CONFIGURATION: SAY(configuration)
    case HID: SAY(hid)
    case REPORT: SAY(report)
    default: return 0;
    }
}

#endif
