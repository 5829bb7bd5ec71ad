#include "line.h"

#include <string.h>

uint16_t line_check(const void *bytes, size_t many) {
    const uint8_t *at = bytes;
    uint16_t check = 0xFFFF;
    while (many--) {
        check ^= (uint16_t)((uint16_t)*at++ << 8);
        for (int n = 0; n < 8; n++) {
            check = (uint16_t)(check & 0x8000 ? check << 1 ^ 0x1021 : check << 1);
        }
    }
    return check;
}

bool line_is_number(const char *text) {
    size_t many = 0;
    for (; text[many]; many++) {
        char c = text[many];
        bool digit = c >= '0' && c <= '9';
        bool letter = (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
        if (!digit && !letter && c != '-') return false;
    }
    return many >= 1 && many <= LINE_NUMBER;
}

static char *put(char *end, const char *text) {
    size_t many = strlen(text);
    memcpy(end, text, many + 1);
    return end + many;
}

/* So many digits at least, to a base, with a point before the last `places`. */
static char *put_digits(char *end, uint32_t number, unsigned base, unsigned least, unsigned places) {
    char backward[16];
    unsigned many = 0;
    do {
        if (places && many == places) backward[many++] = '.';
        backward[many++] = "0123456789ABCDEF"[number % base];
        number /= base;
    } while (number || many < least);
    while (many) *end++ = backward[--many];
    return end;
}

size_t line_value(char *line, const char *number, const BitsValue *value, uint16_t count) {
    char *end = put(put(line, "gauge "), number);
    end = put(end, value->negative ? " -" : " +");
    unsigned least = value->places ? value->places + 2u : 1u;
    end = put_digits(end, value->digits, 10, least, value->places);
    end = put(end, value->inches ? " in " : " mm ");
    end = put_digits(end, count % 10000u, 10, 4, 0);
    *end++ = ' ';
    end = put_digits(end, line_check(line, (size_t)(end - line)), 16, 4, 0);
    return (size_t)(put(end, "\r\n") - line);
}
