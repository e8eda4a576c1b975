#include "serial.h"

#include <avr/interrupt.h>
#include <util/atomic.h>

#include "chip.h"

/* Powers of two. The receiver's holds more than a whole packet, the transmitter's a burst of contacts. */
#define RX_ROOM 64
#define TX_ROOM 128

#define DOUBLE_SPEED 0x8000u

static volatile uint8_t rx[RX_ROOM], tx[TX_ROOM];
static volatile uint8_t rx_head, rx_tail, tx_head, tx_tail, faults;

void serial_start(uint16_t rate)
{
    SERIAL_RATE = rate & (uint16_t)~DOUBLE_SPEED;
    SERIAL_A = rate & DOUBLE_SPEED ? SERIAL_DOUBLE : 0;
    SERIAL_C = SERIAL_8N1;
    SERIAL_B = SERIAL_ON;
}

ISR(SERIAL_RX_vect)
{
    uint8_t state = SERIAL_A;
    uint8_t byte = SERIAL_DATA;
    uint8_t next = (rx_head + 1) & (RX_ROOM - 1);
    if ((state & SERIAL_FAULTS) || next == rx_tail) {
        faults = 1;
    }
    if (next != rx_tail) {
        rx[rx_head] = byte;
        rx_head = next;
    }
}

/* Switches itself off with the last byte: some simulators never call an interrupt again that returned without a byte. */
ISR(SERIAL_EMPTY_vect)
{
    uint8_t at = tx_tail;
    SERIAL_DATA = tx[at];
    at = (at + 1) & (TX_ROOM - 1);
    tx_tail = at;
    if (at == tx_head) {
        SERIAL_B = SERIAL_ON;
    }
}

uint8_t serial_get(uint8_t *byte)
{
    uint8_t at = rx_tail;
    if (at == rx_head) {
        return 0;
    }
    *byte = rx[at];
    rx_tail = (at + 1) & (RX_ROOM - 1);
    return 1;
}

uint8_t serial_faults(void)
{
    uint8_t any = faults;
    if (any) {
        faults = 0;
    }
    return any;
}

uint8_t serial_room(void) { return (uint8_t)(tx_tail - tx_head - 1) & (TX_ROOM - 1); }

uint8_t serial_idle(void) { return tx_head == tx_tail; }

void serial_put(uint8_t byte)
{
    uint8_t at = tx_head;
    tx[at] = byte;
    /* Together: between the two the interrupt could send this byte and switch itself off, and would then be switched on with nothing to send. */
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        tx_head = (at + 1) & (TX_ROOM - 1);
        SERIAL_B = SERIAL_ON | SERIAL_EMPTY_ON;
    }
}
