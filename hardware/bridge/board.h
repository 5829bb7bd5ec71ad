/* What the bridge asks of the board it runs on. A board calls the four functions of bridge.h. */
#ifndef BOARD_H
#define BOARD_H

#include <stdbool.h>
#include <stddef.h>

/* Send characters over the serial line; may wait until they are taken. */
void board_send(const char *text, size_t many);

/* Pull the gauge's request line down, or let it go. */
void board_ask(bool on);

/* What survives a power cut: read it whole, or write it whole. */
void board_kept(void *bytes, size_t many);
void board_keep(const void *bytes, size_t many);

#endif
