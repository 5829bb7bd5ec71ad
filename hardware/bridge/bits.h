/* The bit machine: levels of a gauge's clock and data in, whole frames and what they say out.
 *
 * Pure: no pin, no clock, no memory of its own. Times are microseconds of a counter that may run
 * over; only differences of less than half an hour are used. Levels are those at the gauge's plug.
 * What frames look like is common practice, no source: hold what it says against the face.
 */
#ifndef BITS_H
#define BITS_H

#include <stdbool.h>
#include <stdint.h>

#define BITS_GLITCH_US 20u   /* a level that stays for less was not there */
#define BITS_PAUSE_US 10000u /* a clock that stands still for so long parts two frames */
#define BITS_MOST 52u

typedef enum {
    BITS_NOTHING, /* no frame ended */
    BITS_CUT,     /* its beginning was not seen, or levels were lost in it */
    BITS_LENGTH,  /* of no length that a frame has */
    BITS_MOVING,  /* data moved with the edge they are read at */
    BITS_UNLIKE,  /* the one before had another length, or its clock another rhythm */
    BITS_FRAME,   /* whole, and like the one before */
} BitsFound;

typedef struct {
    bool level;
    bool seen;      /* as it was last; where it differs from level, since when */
    uint32_t since;
} BitsWire;

typedef struct {
    uint8_t count; /* at most one more than a frame may have */
    uint8_t bits[(BITS_MOST + 7) / 8];
    uint16_t apart_us[BITS_MOST]; /* from the edge before, for all but the first */
} BitsHeard;

typedef struct {
    bool rising; /* the edge of the clock at which data are read */
    BitsWire clock, data;
    uint32_t heard_us, read_us, moved_us; /* last edge, last one of our kind, last move of data */
    bool quiet, whole, moving, has_read, has_moved;
    BitsHeard now, before;
} Bits;

typedef struct {
    bool negative, inches;
    uint8_t places; /* decimals */
    uint32_t digits;
} BitsValue;

/* Begin in the middle of a frame, as a bridge does that is plugged in. */
void bits_begin(Bits *bits, uint32_t now_us, bool rising, bool clock, bool data);

/* Take the levels that came at this time; they may be the same as before. What is found is in
 * `now` of the machine until the next edge; its count tells how long it was. */
BitsFound bits_take(Bits *bits, uint32_t now_us, bool clock, bool data);

/* Levels were lost: what is heard until the next pause is no frame. */
void bits_lost(Bits *bits, uint32_t now_us);

/* Nothing is like the frame before any more: the gauge was silent for long. */
void bits_forget(Bits *bits);

/* What a frame says; false where a bit is not what a frame of its length has there. `fine`: one
 * count of a binary frame is 0.001 mm or 0.00005 in, else 0.01 mm or 0.0005 in. */
bool bits_value(const BitsHeard *heard, bool fine, BitsValue *value);

#endif
