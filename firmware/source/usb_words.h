/* What the panel says of itself on USB: USB 2.0, chapter 9; HID 1.11, chapters 6 and 7. */
#ifndef USB_WORDS_H
#define USB_WORDS_H

#include <stdint.h>

#define EP0_SIZE 64
#define REPORT_ENDPOINT 1

/* The descriptor that is asked for, in flash; its length, 0 where there is none. Of the device's, vendor and product are left open. */
uint8_t usb_descriptor(uint8_t type, uint8_t index, const uint8_t **at);

#define USB_DEVICE 1
#define USB_VENDOR_AT 8 /* in the device's descriptor: vendor and product, two bytes each */

#endif
