/* The board: an 8-bit processor of the kind that Debian's gcc-avr calls atmega328p, at 3.3 V and
 * 8 MHz, with a USB serial adapter on it.
 *
 * PD2 clock, PD3 data, both through the level shifter; PD4 the transistor of the request line. The
 * shifter of the drawing turns both lines over: LEVELS=straight is for a stage that does not.
 */
#include <avr/eeprom.h>
#include <avr/interrupt.h>
#include <avr/io.h>

#include "board.h"
#include "bridge.h"

#define BAUD 38400UL
#define PER_US (F_CPU / 8UL / 1000000UL)
#define KEEPS 64u /* a power of two */

typedef struct {
    uint32_t ticks;
    uint8_t pins;
} Change;

static volatile Change changes[KEEPS];
static volatile uint8_t changes_in, changes_out, typed_in, typed_out;
static volatile bool overrun;
static volatile char typed[KEEPS];
static volatile uint16_t rounds;

ISR(TIMER1_OVF_vect) { rounds++; }

/* With interrupts off; a round that has just ended may not be counted yet. */
static uint32_t ticks(void) {
    uint16_t low = TCNT1, high = rounds;
    if ((TIFR1 & _BV(TOV1)) && low < 0x8000) high++;
    return (uint32_t)high << 16 | low;
}

ISR(PCINT2_vect) {
    uint8_t next = (changes_in + 1u) % KEEPS;
    if (overrun || next == changes_out) {
        overrun = true; /* and nothing more is kept until what is kept has been used */
        return;
    }
    changes[changes_in].ticks = ticks();
    changes[changes_in].pins = PIND;
    changes_in = next;
}

ISR(USART_RX_vect) {
    char c = (char)UDR0;
    uint8_t next = (typed_in + 1u) % KEEPS;
    if (next == typed_out) return;
    typed[typed_in] = c;
    typed_in = next;
}

void board_send(const char *text, size_t many) {
    while (many--) {
        while (!(UCSR0A & _BV(UDRE0))) {}
        UDR0 = (uint8_t)*text++;
    }
}

void board_ask(bool on) {
    if (on) PORTD |= _BV(PD4);
    else PORTD &= (uint8_t)~_BV(PD4);
}

void board_kept(void *bytes, size_t many) { eeprom_read_block(bytes, (const void *)0, many); }

void board_keep(const void *bytes, size_t many) { eeprom_update_block(bytes, (void *)0, many); }

static bool high(uint8_t pins, uint8_t pin) {
#ifdef LEVELS_STRAIGHT
    return pins & _BV(pin);
#else
    return !(pins & _BV(pin));
#endif
}

/* Microseconds that run over as 32 bits do, whatever the processor's speed. */
static uint32_t to_us(uint32_t at) {
    static uint32_t before, us, rest;
    rest += at - before;
    before = at;
    us += rest / PER_US;
    rest %= PER_US;
    return us;
}

/* The next change, or what is on the pins now. */
static void take_levels(void) {
    cli();
    Change change = {changes[changes_out].ticks, changes[changes_out].pins};
    bool none = changes_in == changes_out, lost = none && overrun;
    if (none) {
        change = (Change){ticks(), PIND};
        overrun = false;
    } else {
        changes_out = (changes_out + 1u) % KEEPS;
    }
    sei();
    uint32_t now_us = to_us(change.ticks);
    if (lost) bridge_lost(now_us);
    bridge_levels(now_us, high(change.pins, PD2), high(change.pins, PD3));
}

int main(void) {
    DDRD = _BV(PD4);
    TCCR1B = _BV(CS11);
    TIMSK1 = _BV(TOIE1);
    UCSR0A = _BV(U2X0);
    UBRR0 = (uint16_t)((F_CPU + BAUD * 4UL) / (BAUD * 8UL) - 1UL);
    UCSR0B = _BV(RXCIE0) | _BV(RXEN0) | _BV(TXEN0);
    PCMSK2 = _BV(PCINT18) | _BV(PCINT19);
    PCICR = _BV(PCIE2);
    bridge_start(0, high(PIND, PD2), high(PIND, PD3));
    sei();
    for (;;) {
        take_levels();
        if (typed_out != typed_in) {
            bridge_typed(typed[typed_out]);
            typed_out = (typed_out + 1u) % KEEPS;
        }
    }
}
