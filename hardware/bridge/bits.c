#include "bits.h"

#include <stddef.h>
#include <string.h>

static void see(BitsWire *wire, uint32_t now_us, bool level) {
    if (level != wire->seen) {
        wire->seen = level;
        wire->since = now_us;
    }
}

/* Whether a change has stayed for long enough to be one. */
static bool stays(const BitsWire *wire, uint32_t now_us) {
    return wire->seen != wire->level && now_us - wire->since >= BITS_GLITCH_US;
}

static void move_data(Bits *bits) {
    bits->data.level = bits->data.seen;
    bits->moved_us = bits->data.since;
    bits->has_moved = true;
    if (bits->has_read && bits->moved_us - bits->read_us < BITS_GLITCH_US) bits->moving = true;
}

static void read_bit(Bits *bits, uint32_t at_us) {
    BitsHeard *now = &bits->now;
    if (bits->has_moved && at_us - bits->moved_us < BITS_GLITCH_US) bits->moving = true;
    if (now->count < BITS_MOST) {
        uint8_t mask = (uint8_t)(1u << (now->count % 8));
        uint8_t *byte = &now->bits[now->count / 8];
        *byte = (uint8_t)(bits->data.level ? *byte | mask : *byte & ~mask);
        now->apart_us[now->count] = now->count ? (uint16_t)(at_us - bits->read_us) : 0;
    }
    if (now->count <= BITS_MOST) now->count++;
    bits->read_us = at_us;
    bits->has_read = true;
}

static void move_clock(Bits *bits) {
    uint32_t at_us = bits->clock.since;
    if (bits->quiet) bits->now.count = 0;
    bits->quiet = false;
    bits->clock.level = bits->clock.seen;
    bits->heard_us = at_us;
    if (bits->clock.level == bits->rising) read_bit(bits, at_us);
}

/* Whether the clock went as it did in the frame before, each step to a quarter: an edge too many
 * and one too few are then no frame either, whatever the count. */
static bool alike(const BitsHeard *now, const BitsHeard *before) {
    if (now->count != before->count) return false;
    for (uint8_t n = 1; n < now->count; n++) {
        int32_t off = (int32_t)now->apart_us[n] - (int32_t)before->apart_us[n];
        if ((off < 0 ? -off : off) * 4 > (int32_t)before->apart_us[n]) return false;
    }
    return true;
}

static BitsFound judge(Bits *bits) {
    uint8_t count = bits->now.count;
    bool like = alike(&bits->now, &bits->before);
    if (count == 0) return BITS_NOTHING;
    bits->before.count = 0;
    if (!bits->whole) return BITS_CUT;
    if (count != 24 && count != 48 && count != 52) return BITS_LENGTH;
    if (bits->moving) return BITS_MOVING;
    bits->before = bits->now;
    return like ? BITS_FRAME : BITS_UNLIKE;
}

static BitsFound end_frame(Bits *bits) {
    BitsFound found = judge(bits);
    bits->quiet = bits->whole = true;
    bits->moving = bits->has_read = bits->has_moved = false;
    return found;
}

static BitsFound settle(Bits *bits, uint32_t now_us) {
    BitsFound found = BITS_NOTHING;
    bool pending = bits->clock.seen != bits->clock.level;
    uint32_t until_us = pending ? bits->clock.since : now_us;
    if (!bits->quiet && until_us - bits->heard_us >= BITS_PAUSE_US) found = end_frame(bits);
    bool edge = stays(&bits->clock, now_us);
    bool data_first = !edge || bits->clock.since - bits->data.since < UINT32_MAX / 2;
    if (data_first && stays(&bits->data, now_us)) move_data(bits);
    if (edge) move_clock(bits);
    if (stays(&bits->data, now_us)) move_data(bits);
    return found;
}

void bits_begin(Bits *bits, uint32_t now_us, bool rising, bool clock, bool data) {
    memset(bits, 0, sizeof *bits);
    bits->rising = rising;
    bits->clock = (BitsWire){clock, clock, now_us};
    bits->data = (BitsWire){data, data, now_us};
    bits->heard_us = now_us;
}

BitsFound bits_take(Bits *bits, uint32_t now_us, bool clock, bool data) {
    BitsFound found = settle(bits, now_us);
    see(&bits->clock, now_us, clock);
    see(&bits->data, now_us, data);
    return found;
}

void bits_lost(Bits *bits, uint32_t now_us) {
    if (bits->quiet) bits->now.count = 0;
    bits->whole = bits->quiet = false;
    bits->heard_us = bits->clock.since = bits->data.since = now_us;
}

void bits_forget(Bits *bits) { bits->before.count = 0; }

/* So many bits from a place on, the lowest first. */
static uint32_t part(const BitsHeard *heard, unsigned from, unsigned many) {
    uint32_t found = 0;
    for (unsigned n = 0; n < many; n++) {
        unsigned at = from + n;
        found |= ((uint32_t)heard->bits[at / 8] >> at % 8 & 1u) << n;
    }
    return found;
}

/* 24 bits: a count in binary, lowest bit first, then its sign, two that are 0, and the unit. */
static bool binary(const BitsHeard *heard, bool fine, BitsValue *value) {
    uint32_t count = part(heard, 0, 20);
    value->negative = part(heard, 20, 1);
    value->inches = part(heard, 23, 1);
    value->digits = value->inches ? count * 5 : count;
    value->places = (uint8_t)((value->inches ? 4 : 2) + fine);
    return part(heard, 21, 2) == 0;
}

/* 48 or 52 bits in half-bytes, the lowest bit of each first: three or four of ones, the sign (0 or
 * 8), six digits with the highest first, how many decimals, the unit (0 mm, 1 in). */
static bool digits(const BitsHeard *heard, BitsValue *value) {
    unsigned at = 0;
    bool good = true;
    for (; at + 36 < heard->count; at += 4) good &= part(heard, at, 4) == 15;
    uint32_t sign = part(heard, at, 4), places = part(heard, at + 28, 4);
    uint32_t unit = part(heard, at + 32, 4);
    value->digits = 0;
    for (unsigned n = 1; n <= 6; n++) {
        uint32_t digit = part(heard, at + 4 * n, 4);
        good &= digit <= 9;
        value->digits = value->digits * 10 + digit;
    }
    value->negative = sign == 8;
    value->places = (uint8_t)places;
    value->inches = unit == 1;
    return good && (sign == 0 || sign == 8) && places <= 5 && unit <= 1;
}

bool bits_value(const BitsHeard *heard, bool fine, BitsValue *value) {
    bool good = heard->count == 24 ? binary(heard, fine, value) : digits(heard, value);
    if (value->digits == 0) value->negative = false;
    return good;
}
