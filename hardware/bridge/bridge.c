#include "bridge.h"

#include <string.h>

#include "bits.h"
#include "board.h"
#include "line.h"

#define SECOND_US 1000000u
#define ASK_EVERY_US 100000u
#define ASK_FOR_US 50000u
#define TYPED_MOST 32u

typedef struct {
    char number[LINE_NUMBER + 1]; /* "" before it is set */
    bool rising, fine, asks;
} Settings;

/* Checked by the same check value as the lines: a board that was never set holds anything. */
typedef struct {
    uint8_t bytes[sizeof(Settings)];
    uint16_t check;
} Kept;

static Settings settings;
static Bits bits;
static BitsFound last;        /* what became of the latest frame in this second */
static uint8_t last_count;    /* and how many bits it had */
static bool sent;             /* whether a value went out in this second */
static uint32_t latest_us, second_us, asked_us;
static bool asking;
static uint16_t count;
static char typed[TYPED_MOST + 1];
static uint8_t typed_many;

static void say(const char *text) { board_send(text, strlen(text)); }

static void load(void) {
    Kept kept;
    board_kept(&kept, sizeof kept);
    memset(&settings, 0, sizeof settings);
    if (line_check(kept.bytes, sizeof kept.bytes) == kept.check) {
        memcpy(&settings, kept.bytes, sizeof settings);
    }
}

static void keep(void) {
    Kept kept;
    memset(&kept, 0, sizeof kept);
    memcpy(kept.bytes, &settings, sizeof settings);
    kept.check = line_check(kept.bytes, sizeof kept.bytes);
    board_keep(&kept, sizeof kept);
}

static void show(void) {
    say("# number ");
    say(settings.number[0] ? settings.number : "none");
    say(settings.rising ? ", edge rising" : ", edge falling");
    say(settings.fine ? ", step fine" : ", step coarse");
    say(settings.asks ? ", ask on\r\n" : ", ask off\r\n");
}

/* Whether the text is that word and a blank; `rest` is then what follows. */
static bool begins(const char *text, const char *word, const char **rest) {
    size_t many = strlen(word);
    if (strncmp(text, word, many) != 0 || text[many] != ' ') return false;
    *rest = text + many + 1;
    return true;
}

static bool chosen(const char *text, const char *yes, const char *no, bool *choice) {
    bool is_yes = strcmp(text, yes) == 0;
    if (!is_yes && strcmp(text, no) != 0) return false;
    *choice = is_yes;
    return true;
}

static bool set(const char *text) {
    const char *rest;
    if (begins(text, "number", &rest) && line_is_number(rest)) {
        memset(settings.number, 0, sizeof settings.number);
        memcpy(settings.number, rest, strlen(rest));
        return true;
    }
    if (begins(text, "edge", &rest)) return chosen(rest, "rising", "falling", &settings.rising);
    if (begins(text, "step", &rest)) return chosen(rest, "fine", "coarse", &settings.fine);
    return begins(text, "ask", &rest) && chosen(rest, "on", "off", &settings.asks);
}

static void obey(void) {
    if (set(typed)) {
        keep();
        bits.rising = settings.rising;
        bits_lost(&bits, latest_us);
        show();
    } else if (strcmp(typed, "show") == 0) {
        show();
    } else {
        say("# known: show; number and 1 to 16 letters, digits, hyphens; edge rising, edge falling; "
            "step fine, step coarse; ask on, ask off\r\n");
    }
}

void bridge_typed(char c) {
    if (c != '\r' && c != '\n') {
        if (typed_many <= TYPED_MOST) typed[typed_many++] = c;
        return;
    }
    typed[typed_many <= TYPED_MOST ? typed_many : 0] = 0;
    if (typed_many) obey();
    typed_many = 0;
}

/* Once a second in which no value went out: why. At most two digits, so that a program that looks
 * for numbers takes none of these lines for one. */
static void say_why(void) {
    char bits_line[] = "# no frame: 00 bits\r\n";
    switch (last) {
    case BITS_NOTHING: say("# no clock\r\n"); return;
    case BITS_CUT: say("# no frame: no pause, or edges too fast\r\n"); return;
    case BITS_MOVING: say("# no frame: data move with this edge, try the other\r\n"); return;
    case BITS_UNLIKE: say("# no frame: not like the one before\r\n"); return;
    case BITS_LENGTH:
        bits_line[12] = (char)('0' + last_count / 10);
        bits_line[13] = (char)('0' + last_count % 10);
        say(bits_line);
        return;
    case BITS_FRAME:
        say(settings.number[0] ? "# no value: bits that no frame has there\r\n"
                               : "# no number: type number, a blank, what the housing says\r\n");
    }
}

static void each_second(uint32_t now_us) {
    if (now_us - second_us < SECOND_US) return;
    second_us = now_us;
    if (!sent) say_why();
    if (last == BITS_NOTHING) bits_forget(&bits);
    sent = false;
    last = bits.quiet ? BITS_NOTHING : BITS_CUT;
}

static void ask(uint32_t now_us) {
    if (asking) {
        if (bits.quiet && now_us - asked_us < ASK_FOR_US && settings.asks) return;
        asking = false;
        board_ask(false);
    } else if (settings.asks && bits.quiet && now_us - asked_us >= ASK_EVERY_US) {
        asking = true;
        asked_us = now_us;
        board_ask(true);
    }
}

static void take(BitsFound found) {
    BitsValue value;
    if (found == BITS_NOTHING) return;
    last = found;
    last_count = bits.now.count;
    if (found != BITS_FRAME || !bits_value(&bits.now, settings.fine, &value)) return;
    if (!settings.number[0]) return;
    char line[LINE_MOST];
    board_send(line, line_value(line, settings.number, &value, count));
    count = (uint16_t)((count + 1u) % 10000u);
    sent = true;
}

void bridge_start(uint32_t now_us, bool clock, bool data) {
    load();
    bits_begin(&bits, now_us, settings.rising, clock, data);
    last = BITS_NOTHING;
    last_count = typed_many = 0;
    sent = asking = false;
    count = 0;
    latest_us = second_us = asked_us = now_us;
    board_ask(false);
}

void bridge_levels(uint32_t now_us, bool clock, bool data) {
    latest_us = now_us;
    take(bits_take(&bits, now_us, clock, data));
    ask(now_us);
    each_second(now_us);
}

void bridge_lost(uint32_t now_us) { bits_lost(&bits, now_us); }
