/* What differs between the chips: how much fits into their memory, and where their serial line is. */
#ifndef CHIP_H
#define CHIP_H

#include <avr/io.h>
#include <stdint.h>

#define ENGINE_VERSION 3
#define TABLE_VERSION 1
#define LINK_VERSION 1

/* A bank is a byte's worth of contacts that are read at once: a column's rows on one port, one port's own inputs, or one 74HC165. */
#if defined(__AVR_ATmega2560__)
#define CHIP 1
#define MAX_BANKS 128
#define MAX_ENCODERS 16
#define MAX_INDICATORS 128
#elif defined(__AVR_ATmega328P__)
#define CHIP 2
#define MAX_BANKS 32
#define MAX_ENCODERS 8
#define MAX_INDICATORS 64
#elif defined(__AVR_ATmega32U4__)
#define CHIP 3
#define MAX_BANKS 48
#define MAX_ENCODERS 10
#define MAX_INDICATORS 64
#else
#error "the engine knows ATmega2560, ATmega328P and ATmega32U4"
#endif

#define MAX_ANALOG 16
#define MAX_OUT_CHIPS 16
#define MAX_DIMMERS 15
#define MAX_CONTACTS (MAX_BANKS * 8)

/* The chip with its own USB has one serial line, and calls it 1. */
#if CHIP == 3
#define SERIAL_DATA UDR1
#define SERIAL_A UCSR1A
#define SERIAL_B UCSR1B
#define SERIAL_C UCSR1C
#define SERIAL_RATE UBRR1
#define SERIAL_RX_vect USART1_RX_vect
#define SERIAL_EMPTY_vect USART1_UDRE_vect
#elif CHIP == 1
#define SERIAL_DATA UDR0
#define SERIAL_A UCSR0A
#define SERIAL_B UCSR0B
#define SERIAL_C UCSR0C
#define SERIAL_RATE UBRR0
#define SERIAL_RX_vect USART0_RX_vect
#define SERIAL_EMPTY_vect USART0_UDRE_vect
#else
#define SERIAL_DATA UDR0
#define SERIAL_A UCSR0A
#define SERIAL_B UCSR0B
#define SERIAL_C UCSR0C
#define SERIAL_RATE UBRR0
#define SERIAL_RX_vect USART_RX_vect
#define SERIAL_EMPTY_vect USART_UDRE_vect
#endif

/* Bits of the serial registers; they lie alike on all three. */
#define SERIAL_DOUBLE 0x02    /* A: U2X */
#define SERIAL_FAULTS 0x18    /* A: frame error, overrun */
#define SERIAL_ON 0x98        /* B: receiver with interrupt, transmitter */
#define SERIAL_EMPTY_ON 0x20  /* B: interrupt when the transmitter can take a byte */
#define SERIAL_8N1 0x06       /* C */

#endif
