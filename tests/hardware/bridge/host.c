/* A board that is a program: levels and typed characters from its input, lines to its output.
 *
 * Each record is eight bytes: when (microseconds), what, and its value. Between two records the
 * bridge is called with the levels as they are, as often as a real board does it at least; not
 * after a BUSY one, when the board waits for its line.
 */
#include <stdio.h>
#include <string.h>

#include "board.h"
#include "bridge.h"
#include "line.h"

enum { LEVELS, TYPED, LOST, POWERED, CHECKED, BUSY };

typedef struct {
    uint32_t at_us;
    uint8_t what, value, unused[2];
} Record;

static char flash[64];
static uint32_t now_us;

void board_send(const char *text, size_t many) { fwrite(text, 1, many, stdout); }

void board_ask(bool on) {
    static bool asks;
    if (on != asks) printf(on ? "(asks %lu)\r\n" : "(lets go %lu)\r\n", (unsigned long)now_us);
    asks = on;
}

void board_kept(void *bytes, size_t many) { memcpy(bytes, flash, many); }

void board_keep(const void *bytes, size_t many) { memcpy(flash, bytes, many); }

static void take(const Record *record, uint8_t *levels) {
    switch (record->what) {
    case LEVELS: *levels = record->value; break;
    case TYPED: bridge_typed((char)record->value); break;
    case LOST: bridge_lost(record->at_us); break;
    case POWERED:
        *levels = record->value;
        bridge_start(record->at_us, *levels & 1, *levels & 2);
        break;
    case CHECKED: printf("%04X\r\n", (unsigned)line_check("123456789", record->value)); break;
    }
}

int main(void) {
    Record record;
    uint8_t levels = 0;
    int polls = 1;
    memset(flash, 0xFF, sizeof flash);
    while (fread(&record, sizeof record, 1, stdin) == 1) {
        for (; polls && record.what != POWERED && record.at_us - now_us > 500; now_us += 500) {
            bridge_levels(now_us, levels & 1, levels & 2);
        }
        now_us = record.at_us;
        take(&record, &levels);
        polls = record.what != BUSY;
        if (polls && record.what != POWERED) bridge_levels(now_us, levels & 1, levels & 2);
    }
    return 0;
}
