/*
 * From readings to changes. A usual contact is believed when two scans agree, and then not looked at for 20 ms, which is longer than
 * contacts bounce. A steady one is believed when fifteen scans in a row agree, at least 11.25 ms.
 */
#ifndef DEBOUNCE_H
#define DEBOUNCE_H

#include <stdint.h>

void debounce_start(uint8_t scan_length);

/* The readings of the next banks of a scan, a byte each, one bit for each contact, 0 for closed. From the interrupt. */
void debounce(const uint8_t *levels, uint8_t count);

/* After the last bank of a scan. From the interrupt. */
void debounce_scan_done(void);

/* Whether the contacts' first states are known. They are nobody's change, and never told as one. */
uint8_t debounce_settled(void);

/* The believed states of a bank. */
uint8_t debounce_state(uint8_t bank);

#endif
