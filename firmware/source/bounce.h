/* Watches how contacts bounce, while the host asks for it. A few at a time: one hand moves few switches at once. */
#ifndef BOUNCE_H
#define BOUNCE_H

#include <stdint.h>

void bounce_watch(uint8_t on);

/* From the interrupt: contacts that read otherwise than a scan before, and contacts whose lock-out has ended. */
extern volatile uint8_t bounce_watching;
void bounce_note_all(uint8_t bank, uint8_t moved);
void bounce_end_all(uint8_t bank, uint8_t ended);

static inline void bounce_note(uint8_t bank, uint8_t moved)
{
    if (bounce_watching) {
        bounce_note_all(bank, moved);
    }
}

static inline void bounce_end(uint8_t bank, uint8_t ended)
{
    if (bounce_watching) {
        bounce_end_all(bank, ended);
    }
}

/* A finished observation: number, changes seen, ticks from the first to the last. 0 where there is none. */
uint8_t bounce_next(uint16_t *number, uint8_t *changes, uint8_t *ticks);

#endif
