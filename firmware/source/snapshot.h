/* Everything as it was last told, a few entries a frame: short frames, because a contact may have to wait for the end of one. */
#ifndef SNAPSHOT_H
#define SNAPSHOT_H

#include <stdint.h>

void snapshot_begin(void);

/* The data of the next frame; 0 where no snapshot is under way. */
uint8_t snapshot_next(uint8_t *data);

#endif
