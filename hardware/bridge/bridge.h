/* The bridge: the bit machine, what is kept of the gauge, and what is said over the line. */
#ifndef BRIDGE_H
#define BRIDGE_H

#include <stdbool.h>
#include <stdint.h>

/* Begin with these levels of clock and data, as at the gauge's plug. */
void bridge_start(uint32_t now_us, bool clock, bool data);

/* These are the levels at this time. To be called with each change, in order, and at least a
 * thousand times a second besides. */
void bridge_levels(uint32_t now_us, bool clock, bool data);

/* Changes came faster than they could be kept. */
void bridge_lost(uint32_t now_us);

/* A character came over the serial line. */
void bridge_typed(char c);

#endif
