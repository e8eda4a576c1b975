#include "usb.h"

#include <avr/pgmspace.h>

#include "pad.h"
#include "table.h"
#include "usb_words.h"

#ifdef UDCON

enum { OFF, WARMING, ON };
enum { GET_STATUS, CLEAR_FEATURE, SET_FEATURE = 3, SET_ADDRESS = 5, GET_DESCRIPTOR, GET_CONFIGURATION = 8, SET_CONFIGURATION, GET_INTERFACE, SET_INTERFACE };
enum { GET_REPORT = 1, GET_IDLE, SET_IDLE = 10 };

/* Who is asked what: direction, kind and receiver in one byte. */
enum { TO_DEVICE = 0x00, TO_INTERFACE, TO_ENDPOINT, OF_DEVICE = 0x80, OF_INTERFACE, OF_ENDPOINT, TO_CLASS = 0x21, OF_CLASS = 0xA1 };

#define INPUT_REPORT 1
#define ENDPOINT_ADDRESS (0x80 | REPORT_ENDPOINT)
#define CONTROL_64 0x32    /* UECFG1X: 64 bytes, one bank, allocated */
#define REPORT_32 0x22     /* the same with 32 bytes */
#define INTERRUPT_IN 0xC1  /* UECFG0X */

/*
 * Nobody reads while no program has the game controller open; and of a real kernel it was seen that it throws away what it reads within 50 ms from
 * then on. So where a report lay unread, the state is told again a little after somebody began to read; else what is held stays unknown until it moves.
 */
#define UNREAD_MS 20
#define AGAIN_MS 100

static uint8_t state, configured, halted, news, address, idle_4ms, lies_ms, again_ms;
static uint16_t idle_left_ms;

struct request {
    uint8_t type, request;
    uint16_t value, index, length;
};

static void clear(uint8_t flag) { UEINTX = (uint8_t)~(1u << flag); }

static void set_up_control(void)
{
    UENUM = 0;
    UECONX = 1 << EPEN;
    UECFG0X = 0;
    UECFG1X = CONTROL_64;
}

static void configure(uint8_t on)
{
    configured = on;
    halted = 0;
    idle_4ms = 0;
    lies_ms = 0;
    again_ms = 0;
    news = 1;
    UENUM = REPORT_ENDPOINT;
    if (on) {
        UECONX = 1 << EPEN;
        UECFG0X = INTERRUPT_IN;
        UECFG1X = REPORT_32;
    } else {
        UECONX = 0;
        UECFG1X = 0;
    }
    UENUM = 0;
}

static void halt(uint8_t on)
{
    halted = on;
    UENUM = REPORT_ENDPOINT;
    UECONX = on ? 1 << STALLRQ | 1 << EPEN : 1 << STALLRQC | 1 << RSTDT | 1 << EPEN;
    UENUM = 0;
}

static void refuse(void) { UECONX = 1 << STALLRQ | 1 << EPEN; }

/* Everything that is ever said fits into one packet. */
static uint8_t say(const void *from, uint8_t length, uint16_t asked)
{
    const uint8_t *byte = from;
    for (uint8_t left = length < asked ? length : (uint8_t)asked; left != 0; left--) {
        UEDATX = *byte++;
    }
    clear(TXINI);
    return 1;
}

static uint8_t say_byte(uint8_t byte, uint16_t asked) { return say(&byte, 1, asked); }

static uint8_t agree(void) { return say(0, 0, 0); }

static uint8_t describe(const struct request *r)
{
    uint8_t type = (uint8_t)(r->value >> 8), words[EP0_SIZE];
    const uint8_t *at;
    uint8_t length = usb_descriptor(type, (uint8_t)r->value, &at);
    if (length == 0) {
        return 0;
    }
    for (uint8_t i = 0; i < length; i++) {
        words[i] = pgm_read_byte(at + i);
    }
    if (type == USB_DEVICE) {
        for (uint8_t i = 0; i < 4; i++) {
            words[USB_VENDOR_AT + i] = table_byte(table.at_usb + i);
        }
    }
    return say(words, length, r->length);
}

static uint8_t status(const struct request *r)
{
    uint8_t words[2] = {r->type == OF_ENDPOINT && r->index == ENDPOINT_ADDRESS && halted, 0};
    return say(words, 2, r->length);
}

/* The only feature there is: the endpoint's halt. */
static uint8_t feature(const struct request *r)
{
    if (r->type != TO_ENDPOINT || r->value != 0 || r->index != ENDPOINT_ADDRESS || !configured) {
        return 0;
    }
    halt(r->request == SET_FEATURE);
    return agree();
}

static uint8_t standard(const struct request *r)
{
    switch (r->request) {
    case GET_STATUS: return r->type >= OF_DEVICE && r->type <= OF_ENDPOINT ? status(r) : 0;
    case CLEAR_FEATURE:
    case SET_FEATURE: return feature(r);
    case SET_ADDRESS:
        address = r->value & 0x7F;
        UDADDR = address; /* taken once the host has heard the answer */
        return agree();
    case GET_DESCRIPTOR: return r->type == OF_DEVICE || r->type == OF_INTERFACE ? describe(r) : 0;
    case GET_CONFIGURATION: return say_byte(configured, r->length);
    case SET_CONFIGURATION:
        if (r->value > 1) {
            return 0;
        }
        configure((uint8_t)r->value);
        return agree();
    case GET_INTERFACE: return r->type == OF_INTERFACE && configured ? say_byte(0, r->length) : 0;
    case SET_INTERFACE: return r->type == TO_INTERFACE && configured && r->value == 0 ? agree() : 0;
    default: return 0;
    }
}

static uint8_t of_class(const struct request *r)
{
    if (r->type == OF_CLASS && r->request == GET_REPORT && r->value >> 8 == INPUT_REPORT) {
        return say(&pad, sizeof pad, r->length);
    }
    if (r->type == OF_CLASS && r->request == GET_IDLE) {
        return say_byte(idle_4ms, r->length);
    }
    if (r->type == TO_CLASS && r->request == SET_IDLE) {
        idle_4ms = (uint8_t)(r->value >> 8);
        idle_left_ms = 4u * idle_4ms;
        return agree();
    }
    return 0;
}

static void hear(void)
{
    union {
        struct request r;
        uint8_t bytes[8];
    } told;
    for (uint8_t i = 0; i < 8; i++) {
        told.bytes[i] = UEDATX;
    }
    clear(RXSTPI);
    address = 0;
    uint8_t is_class = (told.r.type & 0x60) != 0;
    if (!(is_class ? of_class(&told.r) : standard(&told.r))) {
        refuse();
    }
}

static void control(void)
{
    UENUM = 0;
    uint8_t flags = UEINTX;
    if (flags & 1 << RXSTPI) {
        hear();
    } else if (flags & 1 << RXOUTI) {
        clear(RXOUTI); /* the host has what it asked for */
    } else if (address != 0 && (flags & 1 << TXINI)) {
        UDADDR = 1 << ADDEN | address;
        address = 0;
    }
}

static void was_read(void)
{
    if (lies_ms == UNREAD_MS) {
        again_ms = AGAIN_MS;
    }
    lies_ms = 0;
}

static uint8_t is_free(void)
{
    UENUM = REPORT_ENDPOINT;
    uint8_t is = UEINTX & 1 << TXINI;
    UENUM = 0;
    return is;
}

static void watch_reader(void)
{
    if (is_free()) {
        was_read();
    } else if (lies_ms < UNREAD_MS) {
        lies_ms++;
    }
    if (again_ms != 0 && --again_ms == 0) {
        news = 1;
    }
}

static void send_report(void)
{
    UENUM = REPORT_ENDPOINT;
    if (UEINTX & 1 << TXINI) {
        was_read();
        const uint8_t *byte = (const uint8_t *)&pad;
        for (uint8_t left = sizeof pad; left != 0; left--) {
            UEDATX = *byte++;
        }
        clear(TXINI);
        clear(FIFOCON);
        news = 0;
        idle_left_ms = 4u * idle_4ms;
    }
    UENUM = 0;
}

void usb_start(void)
{
    if (!table_has_usb()) {
        return;
    }
    pad_start();
    UHWCON = 1 << UVREGE;
    USBCON = 1 << USBE | 1 << FRZCLK;
    PLLCSR = 1 << PINDIV; /* from 16 MHz */
    PLLCSR = 1 << PINDIV | 1 << PLLE;
    state = WARMING;
}

void usb_step(void)
{
    if (state == OFF) {
        return;
    }
    if (state == WARMING) {
        if (PLLCSR & 1 << PLOCK) {
            USBCON = 1 << USBE | 1 << OTGPADE;
            UDCON = 0; /* attached, full speed */
            state = ON;
        }
        return;
    }
    news |= pad_contacts();
    if (UDINT & 1 << EORSTI) {
        UDINT = (uint8_t)~(1u << EORSTI);
        set_up_control();
        configure(0);
    }
    control();
    if (configured && news && !halted) {
        send_report();
    }
}

void usb_ms(void)
{
    if (state != ON) {
        return;
    }
    news |= pad_ms();
    if (configured) {
        watch_reader();
    }
    if (idle_4ms != 0 && --idle_left_ms == 0) {
        news = 1;
    }
}

#endif
