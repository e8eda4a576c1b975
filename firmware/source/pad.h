/* The panel as a game controller: what its report says. docs/usb.md has which control is which axis and button. */
#ifndef PAD_H
#define PAD_H

#include <stdint.h>

#define PAD_AXES 8
#define PAD_BUTTONS 128
#define PAD_FULL 4092 /* of an axis; 0 at its beginning */

struct pad_report {
    uint16_t axes[PAD_AXES];
    uint8_t buttons[PAD_BUTTONS / 8];
};

extern struct pad_report pad;

/* As everything stands. */
void pad_start(void);

/* Contacts that changed; 1 where the report is another one. From the main loop, at every turn. */
uint8_t pad_contacts(void);

/* Everything else, once a millisecond. */
uint8_t pad_ms(void);

#endif
