/* The lines of wiring and script. */
#include "panel.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MOST 64

static struct {
    char name[48];
    int channel, reversed;
    double share;
} pots[MOST];
static struct {
    char name[48];
    int channel, count, none, volts[64];
} ladders[MOST];
static struct {
    char name[48];
    int a, b, code, swapped; /* code: B closed, A closed */
} encoders[MOST];
static int pot_count, ladder_count, encoder_count;

static void show_pot(int i)
{
    double share = pots[i].reversed ? 1 - pots[i].share : pots[i].share;
    set_volts(pots[i].channel, (int)(share * 5000 + 0.5));
}

static int encoder_of(const char *name)
{
    for (int i = 0; i < encoder_count; i++) {
        if (strcmp(encoders[i].name, name) == 0) {
            return i;
        }
    }
    fail("encoder", name);
    return 0;
}

static int pot_of(const char *name)
{
    for (int i = 0; i < pot_count; i++) {
        if (strcmp(pots[i].name, name) == 0) {
            return i;
        }
    }
    fail("pot", name);
    return 0;
}

/* A ahead of B counts up. */
static void step(int i, int direction)
{
    static const int up[4] = {1, 3, 0, 2}, down[4] = {2, 0, 3, 1};
    encoders[i].code = direction > 0 ? up[encoders[i].code] : down[encoders[i].code];
    char name[64];
    snprintf(name, sizeof name, "%.47s.%c", encoders[i].name, encoders[i].swapped ? 'b' : 'a');
    set_switch(name, encoders[i].code & 1);
    snprintf(name, sizeof name, "%.47s.%c", encoders[i].name, encoders[i].swapped ? 'a' : 'b');
    set_switch(name, encoders[i].code >> 1);
}

static void turn(const char *name, int count, double hertz)
{
    for (int k = 0; k < abs(count); k++) {
        later(avr->cycle + (uint64_t)(k * (16e6 / hertz) + 0.5), "step %s %d", name, count > 0 ? 1 : -1);
    }
}

static void send_hex(const char *hex)
{
    static uint64_t line_free; /* the same line for all */
    uint64_t at = avr->cycle > line_free ? avr->cycle : line_free;
    for (; hex[0] && hex[1]; hex += 2) {
        char pair[3] = {hex[0], hex[1], 0};
        at += BYTE_CYCLES + 64; /* simavr takes eleven bits for a byte */
        later(at, "byte %ld", strtol(pair, NULL, 16));
    }
    line_free = at;
}

static void select_position(const char *name, int position)
{
    for (int i = 0; i < ladder_count; i++) {
        if (strcmp(ladders[i].name, name) == 0) {
            set_volts(ladders[i].channel, position < 0 || position >= ladders[i].count ? ladders[i].none : ladders[i].volts[position]);
            return;
        }
    }
    fail("ladder", name);
}

static void add_ladder(const char *line)
{
    int skip;
    if (sscanf(line, "ladder %47s %d %d%n", ladders[ladder_count].name, &ladders[ladder_count].channel, &ladders[ladder_count].none, &skip) != 3) {
        fail("ladder", line);
    }
    int volts, more;
    for (const char *at = line + skip; ladders[ladder_count].count < 64 && sscanf(at, "%d%n", &volts, &more) == 1; at += more) {
        ladders[ladder_count].volts[ladders[ladder_count].count++] = volts;
    }
    set_volts(ladders[ladder_count].channel, ladders[ladder_count].none);
    ladder_count++;
}

static int fault(const char *line)
{
    char a[64], b[64];
    if (sscanf(line, "fault swap %63s %63s", a, b) == 2) {
        swap_pins(node(a), node(b));
    } else if (sscanf(line, "fault cut %63s", a) == 1) {
        cut_pin(node(a));
    } else if (sscanf(line, "fault short %63s %63s", a, b) == 2) {
        char name[160];
        snprintf(name, sizeof name, "short.%s.%s", a, b);
        add_switch(name, node(a), node(b));
        set_switch(name, 1);
    } else if (sscanf(line, "fault exchange %63s %63s", a, b) == 2) {
        swap_switches(a, b);
    } else if (sscanf(line, "fault reverse %63s", a) == 1) {
        set_diode(a, DIODE_REVERSED);
    } else if (sscanf(line, "fault bridge %63s", a) == 1) {
        set_diode(a, DIODE_BRIDGED);
    } else if (sscanf(line, "fault remove %63s", a) == 1) {
        set_diode(a, DIODE_GONE);
    } else if (sscanf(line, "fault phases %63s", a) == 1) {
        encoders[encoder_of(a)].swapped ^= 1;
    } else if (sscanf(line, "fault ends %63s", a) == 1) {
        int i = pot_of(a);
        pots[i].reversed ^= 1;
        show_pot(i);
    } else {
        return 0;
    }
    return 1;
}

static int wiring(const char *line)
{
    char a[64], b[64], c[64];
    int x, y;
    if (sscanf(line, "switch %63s %63s %63s", a, b, c) == 3) {
        add_switch(a, node(b), node(c));
    } else if (sscanf(line, "diode %63s %63s %63s", a, b, c) == 3) {
        add_diode(a, node(b), node(c));
    } else if (sscanf(line, "pull-up %63s", a) == 1) {
        add_pull_up(node(a));
    } else if (sscanf(line, "shift-in %63s %63s %63s %d", a, b, c, &x) == 4) {
        add_shift_in(node(a), node(b), node(c), x);
    } else if (sscanf(line, "shift-out %63s %63s %63s %d", a, b, c, &x) == 4) {
        add_shift_out(node(a), node(b), node(c), x);
    } else if (sscanf(line, "encoder %63s %63s %63s", a, b, c) == 3) {
        snprintf(encoders[encoder_count++].name, 48, "%.47s", a);
        char name[80];
        snprintf(name, sizeof name, "%s.a", a);
        add_switch(name, node(b), node("GND"));
        snprintf(name, sizeof name, "%s.b", a);
        add_switch(name, node(c), node("GND"));
    } else if (sscanf(line, "pot %63s %d", a, &x) == 2) {
        snprintf(pots[pot_count].name, 48, "%.47s", a);
        pots[pot_count].channel = x;
        show_pot(pot_count++);
    } else if (sscanf(line, "lamp %63s %63s", a, b) == 2) {
        add_lamp(a, b);
    } else if (sscanf(line, "dimmer %63s %d %d", a, &x, &y) == 3) {
        add_dimmer(a, x, y);
    } else {
        return 0;
    }
    return 1;
}

void command(const char *line)
{
    char a[4200], b[64];
    int x;
    double value;
    if (sscanf(line, "chip %63s %4199[^\n]", b, a) == 2) {
        chip(b, a);
    } else if (sscanf(line, "close %63s", b) == 1) {
        set_switch(b, 1);
    } else if (sscanf(line, "open %63s", b) == 1) {
        set_switch(b, 0);
    } else if (sscanf(line, "turn %63s %d %lf", b, &x, &value) == 3) {
        turn(b, x, value);
    } else if (sscanf(line, "step %63s %d", b, &x) == 2) {
        step(encoder_of(b), x);
    } else if (sscanf(line, "slide %63s %lf", b, &value) == 2) {
        int i = pot_of(b);
        pots[i].share = value;
        show_pot(i);
    } else if (sscanf(line, "select %63s %d", b, &x) == 2) {
        select_position(b, x);
    } else if (strncmp(line, "ladder ", 7) == 0) {
        add_ladder(line);
    } else if (sscanf(line, "send %4199s", a) == 1) {
        send_hex(a);
    } else if (sscanf(line, "byte %d", &x) == 1) {
        serial_byte(x);
    } else if (strcmp(line, "lamps") == 0) {
        report_lamps();
    } else if (strcmp(line, "ports") == 0) {
        report_ports();
    } else if (strcmp(line, "restart") == 0) {
        restart();
    } else if (strcmp(line, "load") == 0) {
        report_load();
    } else if (strcmp(line, "reads") == 0) {
        watch_reads(1);
    } else if (strncmp(line, "usb ", 4) == 0 && usb_command(line + 4)) {
        return;
    } else if (strncmp(line, "echo ", 5) == 0) {
        printf("echo %s\n", line + 5);
    } else if (strcmp(line, "nothing") != 0 && !wiring(line) && !fault(line)) {
        fail("line", line);
    }
}
