/* The board itself, its processor simulated by simavr: the same records in, the same lines out.
 *
 * What is given is the program that `make` puts onto the board. Pins are turned over, as the level
 * shifter does; the request line's transistor is told as (asks) and (lets go), with the time.
 */
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include <simavr/avr_ioport.h>
#include <simavr/avr_uart.h>
#include <simavr/sim_avr.h>
#include <simavr/sim_elf.h>

enum { LEVELS, TYPED, LOST, POWERED };

typedef struct {
    uint32_t at_us;
    uint8_t what, value, unused[2];
} Record;

static avr_t *avr;

static void sent(struct avr_irq_t *irq, uint32_t value, void *unused) {
    (void)irq, (void)unused;
    putchar((int)value);
}

static void asks(struct avr_irq_t *irq, uint32_t value, void *unused) {
    (void)irq, (void)unused;
    static uint32_t before;
    if (value == before) return;
    before = value;
    unsigned long now_us = (unsigned long)(avr->cycle * 1000000 / avr->frequency);
    printf(value ? "(asks %lu)\r\n" : "(lets go %lu)\r\n", now_us);
}

static void quiet(struct avr_t *of, const int level, const char *format, va_list values) {
    (void)of, (void)level, (void)format, (void)values;
}

static void levels(uint8_t value) {
    avr_irq_t *pins = avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('D'), 0);
    avr_raise_irq(pins + 2, !(value & 1));
    avr_raise_irq(pins + 3, !(value & 2));
}

static int run_to(uint32_t at_us) {
    avr_cycle_count_t end = (avr_cycle_count_t)at_us * avr->frequency / 1000000;
    while (avr->cycle < end) {
        int state = avr_run(avr);
        if (state == cpu_Done || state == cpu_Crashed) return 0;
    }
    return 1;
}

int main(int many, char **given) {
    elf_firmware_t program;
    Record record;
    memset(&program, 0, sizeof program);
    if (many != 2 || elf_read_firmware(given[1], &program) != 0) return 2;
    avr = avr_make_mcu_by_name("atmega328p");
    if (!avr) return 2;
    avr_init(avr);
    avr_global_logger_set(quiet);
    program.frequency = 8000000;
    avr_load_firmware(avr, &program);
    uint32_t flags = 0;
    avr_ioctl(avr, AVR_IOCTL_UART_SET_FLAGS('0'), &flags);
    avr_irq_t *line = avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), 0);
    avr_irq_register_notify(line + UART_IRQ_OUTPUT, sent, NULL);
    avr_irq_t *pins = avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('D'), 0);
    avr_irq_register_notify(pins + 4, asks, NULL);
    while (fread(&record, sizeof record, 1, stdin) == 1) {
        if (!run_to(record.at_us)) return 1;
        if (record.what == POWERED || record.what == LEVELS) levels(record.value);
        if (record.what == TYPED) avr_raise_irq(line + UART_IRQ_INPUT, record.value);
    }
    return 0;
}
