/* What is joined to what: pins, switches, diodes, pull-ups, shift registers. Levels are worked out when the chip reads a port. */
#include "panel.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MOST 4096
#define PORTS 11
#define PINS (PORTS * 8)

/* Nodes 0 to 87 are the pins' own, 88 is ground. */
enum { GROUND = PINS, FIRST_FREE };

static char *names[MOST];
static int nodes = FIRST_FREE;

struct edge {
    int to, is_diode, part, is_anode; /* is_anode: this end is the diode's anode */
};
static struct {
    struct edge *list;
    int count, room;
} edges[MOST];

static struct {
    char *name;
    int closed;
} switches[MOST];
static struct {
    char *name;
    int state;
} diodes[MOST];
static int switch_count, diode_count;

static unsigned char pull_up[MOST];
static int pin_node[PINS], node_pin[MOST];
static signed char driven[MOST]; /* by a shift register: 0, 1, or -1 */
static unsigned char low[MOST], high[MOST];
static int dirty = 1;

static const char letters[] = "ABCDEFGHJKL";

int node(const char *name)
{
    const char *letter;
    if (name[0] == 'P' && name[1] && (letter = strchr(letters, name[1])) && name[2] >= '0' && name[2] <= '7' && !name[3]) {
        return (int)(letter - letters) * 8 + name[2] - '0';
    }
    if (strcmp(name, "GND") == 0) {
        return GROUND;
    }
    for (int i = FIRST_FREE; i < nodes; i++) {
        if (strcmp(names[i], name) == 0) {
            return i;
        }
    }
    if (nodes == MOST) {
        fail("nodes", name);
    }
    names[nodes] = strdup(name);
    return nodes++;
}

static void join(int a, int b, int is_diode, int part)
{
    for (int end = 0; end < 2; end++) {
        int from = end ? b : a, to = end ? a : b;
        if (edges[from].count == edges[from].room) {
            edges[from].room = edges[from].room ? edges[from].room * 2 : 4;
            edges[from].list = realloc(edges[from].list, edges[from].room * sizeof(struct edge));
        }
        edges[from].list[edges[from].count++] = (struct edge){to, is_diode, part, end == 0};
    }
}

void add_switch(const char *name, int a, int b)
{
    switches[switch_count].name = strdup(name);
    join(a, b, 0, switch_count++);
}

void add_diode(const char *name, int anode, int cathode)
{
    diodes[diode_count].name = strdup(name);
    join(anode, cathode, 1, diode_count++);
}

void add_pull_up(int at) { pull_up[at] = 1; }

static struct {
    avr_io_write_t write;
    void *param;
} old_writes[MAX_IOs];

/* ---- levels ---- */

static volatile uint8_t *port_registers(int port) { return avr->data + (port < 7 ? 0x20 + 3 * port : 0x100 + 3 * (port - 7)); }

static int is_output(int pin) { return port_registers(pin / 8)[1] >> (pin % 8) & 1; }
static int out_level(int pin) { return port_registers(pin / 8)[2] >> (pin % 8) & 1; }

/* Whether a level at this end of the edge reaches the other: low goes from cathode to anode, high from anode to cathode. */
static int passes(const struct edge *e, int is_low)
{
    if (!e->is_diode) {
        return switches[e->part].closed;
    }
    int from_anode = e->is_anode;
    switch (diodes[e->part].state) {
    case DIODE_GONE: return 0;
    case DIODE_BRIDGED: return 1;
    case DIODE_REVERSED: from_anode = !from_anode; break;
    }
    return is_low ? !from_anode : from_anode;
}

static void spread(unsigned char *reached, int *queue, int count, int is_low)
{
    for (int i = 0; i < count; i++) {
        int at = queue[i];
        for (int k = 0; k < edges[at].count; k++) {
            struct edge *e = &edges[at].list[k];
            if (!reached[e->to] && passes(e, is_low)) {
                reached[e->to] = 1;
                queue[count++] = e->to;
            }
        }
    }
}

static void work_out(void)
{
    static int lows[MOST], highs[MOST];
    int low_count = 0, high_count = 0;
    if (!dirty) {
        return;
    }
    dirty = 0;
    memset(low, 0, nodes);
    memset(high, 0, nodes);
    low[GROUND] = 1;
    lows[low_count++] = GROUND;
    for (int pin = 0; pin < PINS; pin++) {
        if (is_output(pin)) {
            int n = pin_node[pin];
            if (out_level(pin) && !high[n]) {
                high[n] = 1;
                highs[high_count++] = n;
            } else if (!out_level(pin) && !low[n]) {
                low[n] = 1;
                lows[low_count++] = n;
            }
        }
    }
    for (int n = 0; n < nodes; n++) {
        if (driven[n] == 0 && !low[n]) {
            low[n] = 1;
            lows[low_count++] = n;
        } else if (driven[n] == 1 && !high[n]) {
            high[n] = 1;
            highs[high_count++] = n;
        }
    }
    spread(low, lows, low_count, 1);
    spread(high, highs, high_count, 0);
}

/* What floats reads as low: a pull-up that was forgotten shows as a contact that is closed. */
static int level(int n, int own_pull_up) { return low[n] ? 0 : high[n] || pull_up[n] || own_pull_up; }

/* The first two reads of each port after a switch was moved: the two scans by which a usual contact is believed. */
static int reads_watched, reads_left[PORTS];

void watch_reads(int on) { reads_watched = on; }

static void tell_read(int port)
{
    if (reads_watched && reads_left[port] > 0) {
        reads_left[port]--;
        printf("read %llu %c\n", (unsigned long long)now_us(), letters[port]);
    }
}

static uint8_t read_port(struct avr_t *a, avr_io_addr_t addr, void *param)
{
    (void)a;
    int port = (int)(intptr_t)param;
    uint8_t value = 0;
    work_out();
    tell_read(port);
    for (int bit = 0; bit < 8; bit++) {
        int pin = port * 8 + bit;
        int is_high = is_output(pin) ? out_level(pin) : level(pin_node[pin], out_level(pin));
        value |= is_high << bit;
    }
    return avr->data[addr] = value;
}

/* ---- shift registers ---- */

static struct {
    int load, clock, data, chips, place, was_clock;
    unsigned char bits[MOST];
} in;
static struct {
    int data, clock, latch, chips, was_clock, was_latch;
    unsigned char bits[MOST], shown[MOST];
} out;

/* The level that the chip drives a node with; -1 where it drives none. */
static int driven_by_chip(int n)
{
    int pin = node_pin[n];
    return pin < 0 || !is_output(pin) ? -1 : out_level(pin);
}

void add_shift_in(int load, int clock, int data, int chips)
{
    in.load = load, in.clock = clock, in.data = data, in.chips = chips;
}

void add_shift_out(int data, int clock, int latch, int chips)
{
    out.data = data, out.clock = clock, out.latch = latch, out.chips = chips;
}

static void shift_in_look(void)
{
    if (driven_by_chip(in.load) == 0) {
        char name[32];
        work_out();
        for (int k = 0; k < in.chips * 8; k++) { /* input H comes first */
            snprintf(name, sizeof name, "in.%d.%d", k / 8, 7 - k % 8);
            in.bits[k] = (unsigned char)level(node(name), 0);
        }
        in.place = 0;
    } else if (driven_by_chip(in.clock) == 1 && in.was_clock == 0) {
        in.place++;
    }
    in.was_clock = driven_by_chip(in.clock);
    signed char bit = in.place < in.chips * 8 ? in.bits[in.place] : 1;
    if (driven[in.data] != bit) {
        driven[in.data] = bit;
        dirty = 1;
    }
}

static void shift_out_look(void)
{
    int clock = driven_by_chip(out.clock), latch = driven_by_chip(out.latch);
    if (clock == 1 && out.was_clock == 0) {
        memmove(out.bits + 1, out.bits, out.chips * 8 - 1);
        out.bits[0] = driven_by_chip(out.data) == 1;
    }
    if (latch == 1 && out.was_latch == 0) {
        memcpy(out.shown, out.bits, out.chips * 8);
    }
    out.was_clock = clock;
    out.was_latch = latch;
}

/* ---- lamps ---- */

static struct {
    char *name;
    int node, output, shown;
} lamps[MOST];
static struct {
    char *name;
    int timer, output;
} dimmers[64];
static int lamp_count, dimmer_count;

void add_lamp(const char *name, const char *where)
{
    int chip_number, output;
    lamps[lamp_count].name = strdup(name);
    lamps[lamp_count].output = sscanf(where, "out.%d.%d", &chip_number, &output) == 2 ? chip_number * 8 + output : -1;
    lamps[lamp_count].node = lamps[lamp_count].output < 0 ? node(where) : -1;
    lamp_count++;
}

void add_dimmer(const char *name, int timer, int output)
{
    dimmers[dimmer_count].name = strdup(name);
    dimmers[dimmer_count].timer = timer;
    dimmers[dimmer_count++].output = output;
}

static void lamps_look(void)
{
    for (int i = 0; i < lamp_count; i++) {
        int on = lamps[i].output >= 0 ? out.shown[lamps[i].output] : driven_by_chip(lamps[i].node) == 1;
        if (on != lamps[i].shown) {
            lamps[i].shown = on;
            printf("lamp %llu %s %d\n", (unsigned long long)now_us(), lamps[i].name, on);
        }
    }
}

static unsigned word_at(int address) { return avr->data[address] | avr->data[address + 1] << 8; }

/* Steps of a period that are on, and steps of the period. */
static void report_dimmer(int i)
{
    int timer = dimmers[i].timer, output = dimmers[i].output;
    int base = timer == 0 ? 0x44 : timer == 1 ? 0x80 : timer == 2 ? 0xB0 : timer == 3 ? 0x90 : timer == 4 ? 0xA0 : 0x120;
    unsigned top, match;
    if (timer == 0 || timer == 2) {
        match = avr->data[base + 3 + output];
        top = timer == 0 ? avr->data[base + 3] : 255;
    } else {
        match = word_at(base + 8 + 2 * output);
        top = word_at(base + 6);
    }
    int joined = avr->data[base] >> (7 - 2 * output) & 1;
    printf("dimmer %llu %s %u %u\n", (unsigned long long)now_us(), dimmers[i].name, joined ? match + 1 : 0, top + 1);
}

void report_lamps(void)
{
    for (int i = 0; i < lamp_count; i++) {
        printf("lamp %llu %s %d\n", (unsigned long long)now_us(), lamps[i].name, lamps[i].shown);
    }
    for (int i = 0; i < dimmer_count; i++) {
        report_dimmer(i);
    }
}

/* Pins that the chip drives, and pull-ups that are on, port by port. */
void report_ports(void)
{
    for (int port = 0; port < PORTS; port++) {
        if (old_writes[AVR_DATA_TO_IO((port < 7 ? 0x20 + 3 * port : 0x100 + 3 * (port - 7)) + 1)].write) {
            printf("port %llu %c %d %d\n", (unsigned long long)now_us(), letters[port], port_registers(port)[1], port_registers(port)[2]);
        }
    }
}

/* ---- the chip's side ---- */


static void write_port(struct avr_t *a, avr_io_addr_t addr, uint8_t value, void *param)
{
    (void)param;
    int io = AVR_DATA_TO_IO(addr);
    if (old_writes[io].write) {
        old_writes[io].write(a, addr, value, old_writes[io].param);
    }
    avr->data[addr] = value;
    dirty = 1;
    if (in.chips) {
        shift_in_look();
    }
    if (out.chips) {
        shift_out_look();
    }
    lamps_look();
}

void wire_chip(void)
{
    memset(driven, -1, sizeof driven);
    memset(node_pin, -1, sizeof node_pin);
    for (int pin = 0; pin < PINS; pin++) {
        pin_node[pin] = node_pin[pin] = pin;
    }
    for (int port = 0; port < PORTS; port++) {
        int address = port < 7 ? 0x20 + 3 * port : 0x100 + 3 * (port - 7);
        if (!avr->io[AVR_DATA_TO_IO(address + 2)].w.c) {
            continue; /* the chip has no such port */
        }
        avr->io[AVR_DATA_TO_IO(address)].r.c = read_port;
        avr->io[AVR_DATA_TO_IO(address)].r.param = (void *)(intptr_t)port;
        for (int k = 1; k <= 2; k++) {
            int io = AVR_DATA_TO_IO(address + k);
            old_writes[io].write = avr->io[io].w.c;
            old_writes[io].param = avr->io[io].w.param;
            avr->io[io].w.c = write_port;
        }
    }
}

/* ---- the hand's side ---- */

static int find_switch(const char *name)
{
    for (int i = 0; i < switch_count; i++) {
        if (strcmp(switches[i].name, name) == 0) {
            return i;
        }
    }
    fail("switch", name);
    return 0;
}

void set_switch(const char *name, int closed)
{
    switches[find_switch(name)].closed = closed;
    for (int port = 0; port < PORTS; port++) {
        reads_left[port] = 2;
    }
    dirty = 1;
}

void swap_switches(const char *a, const char *b)
{
    int i = find_switch(a), k = find_switch(b);
    char *name = switches[i].name;
    switches[i].name = switches[k].name;
    switches[k].name = name;
}

void set_diode(const char *name, int state)
{
    for (int i = 0; i < diode_count; i++) {
        if (strcmp(diodes[i].name, name) == 0) {
            diodes[i].state = state;
            dirty = 1;
            return;
        }
    }
    fail("diode", name);
}

void swap_pins(int a, int b)
{
    int na = pin_node[a], nb = pin_node[b];
    pin_node[a] = nb, pin_node[b] = na;
    node_pin[na] = b, node_pin[nb] = a;
    dirty = 1;
}

void cut_pin(int pin)
{
    static int cuts;
    char name[32];
    snprintf(name, sizeof name, "cut.%d", cuts++);
    node_pin[pin_node[pin]] = -1;
    pin_node[pin] = node(name);
    node_pin[pin_node[pin]] = pin;
    dirty = 1;
}
