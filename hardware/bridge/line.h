/* What goes over the serial line: a value with the gauge's number, a count and a check value. */
#ifndef LINE_H
#define LINE_H

#include <stddef.h>

#include "bits.h"

#define LINE_NUMBER 16u /* the most characters of a gauge's number */
#define LINE_MOST 64u

/* CRC-16/IBM-3740: polynomial 1021, from FFFF on, highest bit first; of "123456789" it is 29B1. */
uint16_t line_check(const void *bytes, size_t many);

/* Whether that can be a gauge's number: 1 to 16 letters, digits and hyphens. */
bool line_is_number(const char *text);

/* Write "gauge NUMBER +1.234 mm 0042 A1B2", CR, LF and a 0 into `line` (LINE_MOST characters); the
 * check value is over all that stands before it. Returns how many characters without the 0. */
size_t line_value(char *line, const char *number, const BitsValue *value, uint16_t count);

#endif
