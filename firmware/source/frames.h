/* Frames on the line: payload and checksum, stuffed so that 0 stands only at the end. */
#ifndef FRAMES_H
#define FRAMES_H

#include <stdint.h>

#define MOST_DATA 30 /* a payload of 32 less type and sequence */

/* Bytes on the line for so many bytes of data: type, sequence, checksum, one for stuffing, the end. */
#define FRAME_SIZE(data) ((data) + 6)

/* Sends a frame. Only where there is room for it. */
void frame_send(uint8_t type, const uint8_t *data, uint8_t length);

struct frame {
    uint8_t type, sequence, length;
    uint8_t data[MOST_DATA];
};

/* Looks at what was received; 1 where a whole sound frame is there. */
uint8_t frame_receive(struct frame *frame);

/* Frames that were received and refused. */
uint16_t frames_bad(void);

#endif
