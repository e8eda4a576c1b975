/* What the host may ask for. */
#ifndef COMMANDS_H
#define COMMANDS_H

#include "frames.h"

void command_run(const struct frame *frame);

/* Carries on with what takes longer than a moment. From the main loop. */
void commands_step(void);

#endif
