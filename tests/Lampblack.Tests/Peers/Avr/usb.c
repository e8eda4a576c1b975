/*
 * A small USB host: asks one control request after the other, and reads the report endpoint. It sits on libsimavr's model of the ATmega32U4,
 * which has endpoints, stalls and the end of a reset, but no wires: no data toggles, no checksums, no suspend, no time on the bus.
 */
#include "panel.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "avr_usb.h"

#define POLL_US 25        /* control requests, and the report endpoint while `usb poll fast` */
#define FRAME_US 1000     /* the report endpoint otherwise, as a full-speed host with interval 1 */
#define PATIENCE_US 50000
#define CONTROL_SIZE 64
#define REPORT_ENDPOINT 1
#define MOST 64

static struct {
    uint8_t setup[8];
} asked[MOST];
static int count, next_one, polls, ticking;
static uint64_t began_us, next_report_us;
static enum { IDLE, DATA, STATUS_OUT, STATUS_IN } stage;
static uint8_t data[4096];
static unsigned have;

static int io(uint32_t what, uint8_t pipe, uint8_t *bytes, uint32_t *size)
{
    struct avr_io_usb d = {pipe, *size, bytes};
    int result = avr_ioctl(avr, what, &d);
    *size = d.sz;
    return result;
}

static void done(const char *how)
{
    printf("usb %llu ", (unsigned long long)now_us());
    for (int i = 0; i < 8; i++) {
        printf("%02x", asked[next_one].setup[i]);
    }
    printf(" %s ", how);
    for (unsigned i = 0; i < have; i++) {
        printf("%02x", data[i]);
    }
    printf("%s\n", have ? "" : "-");
    stage = IDLE;
    next_one++;
}

static void begin(void)
{
    uint8_t *setup = asked[next_one].setup;
    uint32_t size = 8;
    if (stage == IDLE && began_us == 0) {
        began_us = now_us();
    }
    if (io(AVR_IOCTL_USB_SETUP, 0, setup, &size) == 0) {
        unsigned length = setup[6] | setup[7] << 8;
        have = 0;
        stage = length == 0 ? STATUS_IN : DATA;
    }
}

static void carry_on(void)
{
    uint8_t *setup = asked[next_one].setup, bytes[CONTROL_SIZE];
    unsigned length = setup[6] | setup[7] << 8;
    uint32_t size = stage == STATUS_OUT ? 0 : sizeof bytes;
    int result = io(stage == STATUS_OUT ? AVR_IOCTL_USB_WRITE : AVR_IOCTL_USB_READ, 0, bytes, &size);
    if (result == AVR_IOCTL_USB_STALL) {
        done("stall");
    } else if (result == 0 && stage == DATA) {
        memcpy(data + have, bytes, size);
        have += size;
        if (size < CONTROL_SIZE || have >= length) { /* USB 2.0, 5.5.3: a short packet ends the data */
            stage = STATUS_OUT;
        }
    } else if (result == 0) {
        done(stage == STATUS_IN && size != 0 ? "bad-status" : "ok");
    }
}

static void read_report(void)
{
    uint8_t bytes[CONTROL_SIZE];
    uint32_t size = sizeof bytes;
    int result = io(AVR_IOCTL_USB_READ, REPORT_ENDPOINT, bytes, &size);
    if (result == AVR_IOCTL_USB_NAK) {
        return;
    }
    printf("report %llu ", (unsigned long long)now_us());
    if (result == 0) {
        for (uint32_t i = 0; i < size; i++) {
            printf("%02x", bytes[i]);
        }
        printf("\n");
    } else {
        printf("stall\n");
    }
}

static void tick(void)
{
    if (stage != IDLE) {
        carry_on();
    } else if (next_one < count) {
        began_us = now_us();
        begin();
    }
    if (stage != IDLE && now_us() - began_us > PATIENCE_US) {
        done("timeout");
    }
    if (polls && now_us() >= next_report_us) {
        next_report_us = now_us() + (polls == 2 ? POLL_US : FRAME_US);
        read_report();
    }
    if (stage != IDLE || next_one < count || polls) {
        later(avr->cycle + POLL_US * CYCLES_PER_US, "usb tick");
    } else {
        ticking = 0;
    }
}

static void keep_ticking(void)
{
    if (!ticking) {
        ticking = 1;
        later(avr->cycle + 1, "usb tick");
    }
}

static void attached(struct avr_irq_t *irq, uint32_t value, void *param)
{
    (void)irq, (void)param;
    printf("attached %llu %u\n", (unsigned long long)now_us(), value);
}

static void ask(const char *hex)
{
    if (count == MOST || strlen(hex) != 16) {
        fail("request", hex);
    }
    for (int i = 0; i < 8; i++) {
        char pair[3] = {hex[2 * i], hex[2 * i + 1], 0};
        asked[count].setup[i] = (uint8_t)strtol(pair, NULL, 16);
    }
    count++;
    keep_ticking();
}

void usb_watch(void)
{
    avr_irq_t *irq = avr_io_getirq(avr, AVR_IOCTL_USB_GETIRQ(), USB_IRQ_ATTACH);
    if (irq) {
        avr_irq_register_notify(irq, attached, NULL);
    }
}

/* "usb reset", "usb ask HEX" (the eight bytes of a request), "usb poll", "usb poll fast", "usb rest". */
int usb_command(const char *line)
{
    char hex[32];
    if (strcmp(line, "tick") == 0) {
        tick();
    } else if (strcmp(line, "reset") == 0) {
        avr_ioctl(avr, AVR_IOCTL_USB_RESET, NULL);
    } else if (sscanf(line, "ask %31s", hex) == 1) {
        ask(hex);
    } else if (strncmp(line, "poll", 4) == 0) {
        polls = strcmp(line, "poll fast") == 0 ? 2 : 1;
        next_report_us = now_us();
        keep_ticking();
    } else if (strcmp(line, "rest") == 0) {
        polls = 0;
    } else {
        return 0;
    }
    return 1;
}
