/* The parts of the simulated panel: panel.c runs the chip, wires.c knows what is joined to what, words.c reads the script, usb.c is the host on the other bus. */
#ifndef PANEL_H
#define PANEL_H

#include <stdint.h>

#include "sim_avr.h"
#include "sim_io.h"

#define CYCLES_PER_US 16
#define BYTE_CYCLES 640 /* ten bits at 250000 a second */
#define EVENT_TEXT 96

extern avr_t *avr;

void fail(const char *what, const char *which);
uint64_t now_us(void);
void later(uint64_t cycle, const char *format, ...) __attribute__((format(printf, 2, 3)));
void serial_byte(int byte);
void chip(const char *name, const char *image);
void set_volts(int channel, int millivolts);
void report_load(void);

/* Power off and on again; what the chip keeps it keeps. */
void restart(void);

/* The USB host. */
void usb_watch(void);
int usb_command(const char *line);

/* One line of wiring or script. */
void command(const char *line);

/* Wires. */
void wire_chip(void);
int node(const char *name);
void add_switch(const char *name, int a, int b);
void add_diode(const char *name, int anode, int cathode);
void add_pull_up(int at);
void add_shift_in(int load, int clock, int data, int chips);
void add_shift_out(int data, int clock, int latch, int chips);
void add_lamp(const char *name, const char *where);
void add_dimmer(const char *name, int timer, int output);
void set_switch(const char *name, int closed);
void set_diode(const char *name, int state);
void swap_switches(const char *a, const char *b);
void swap_pins(int a, int b);
void cut_pin(int pin);
void report_lamps(void);
void report_ports(void);
void watch_reads(int on);

enum { DIODE_RIGHT, DIODE_REVERSED, DIODE_BRIDGED, DIODE_GONE };

#endif
