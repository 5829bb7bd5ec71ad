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
    uint16_t ticks;
    uint8_t pins;
} Change;

static volatile Change changes[KEEPS];
static volatile uint8_t changes_in, changes_out, typed_in, typed_out;
static volatile bool overrun;
static volatile char typed[KEEPS];

/* As short as it can be: what comes meanwhile is told of late. */
ISR(PCINT2_vect) {
    uint16_t ticks = TCNT1;
    uint8_t pins = PIND, at = changes_in, next = (at + 1u) % KEEPS;
    if (overrun || next == changes_out) {
        overrun = true; /* and nothing more is kept until what is kept has been used */
        return;
    }
    changes[at].ticks = ticks;
    changes[at].pins = pins;
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

/* Microseconds that run over as 32 bits do. The timer runs over within 32 ms at least; it is read
 * more often, but for the writing of what is kept, after which the bridge begins anew. */
static uint32_t to_us(uint16_t ticks) {
    static uint16_t before, rest;
    static uint32_t us;
    uint32_t more = (uint32_t)rest + (uint16_t)(ticks - before);
    before = ticks;
    us += more / PER_US;
    rest = (uint16_t)(more % PER_US);
    return us;
}

/* The next change, or what is on the pins now. */
static void take_levels(void) {
    Change change;
    bool lost = false;
    cli();
    if (changes_in == changes_out) {
        change.ticks = TCNT1;
        change.pins = PIND;
        lost = overrun;
        overrun = false;
        sei();
    } else {
        sei();
        change.ticks = changes[changes_out].ticks;
        change.pins = changes[changes_out].pins;
        changes_out = (changes_out + 1u) % KEEPS;
    }
    uint32_t now_us = to_us(change.ticks);
    if (lost) bridge_lost(now_us);
    bridge_levels(now_us, high(change.pins, PD2), high(change.pins, PD3));
}

int main(void) {
    DDRD = _BV(PD4);
    TCCR1B = _BV(CS11);
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
