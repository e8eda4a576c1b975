/*
 * A panel without a chip: runs an image on libsimavr, wired as the lines it is given say.
 * Reads wiring and script from standard input, writes what happens to standard output; docs/engine.md has both languages.
 * A test program of its own: libsimavr (GPL-3) never becomes part of Lampblack.
 */
#include "panel.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "avr_adc.h"
#include "avr_uart.h"
#include "sim_hex.h"
#include "sim_time.h"

avr_t *avr;
static avr_irq_t *serial_in;

void fail(const char *what, const char *which)
{
    printf("fault %s %s\n", what, which);
    fflush(stdout);
    exit(3);
}

uint64_t now_us(void) { return avr->cycle / CYCLES_PER_US; }

/* ---- things that happen later ---- */

struct event {
    uint64_t cycle, order;
    char text[EVENT_TEXT];
};
static struct event *heap;
static size_t events, room;
static uint64_t orders;

static int before(const struct event *a, const struct event *b) { return a->cycle != b->cycle ? a->cycle < b->cycle : a->order < b->order; }

static void swap(size_t a, size_t b)
{
    struct event copy = heap[a];
    heap[a] = heap[b];
    heap[b] = copy;
}

static avr_cycle_count_t fire(struct avr_t *a, avr_cycle_count_t when, void *param);

void later(uint64_t cycle, const char *format, ...)
{
    if (events == room) {
        room = room ? room * 2 : 1024;
        heap = realloc(heap, room * sizeof *heap);
    }
    struct event *e = &heap[events];
    e->cycle = cycle;
    e->order = orders++;
    va_list list;
    va_start(list, format);
    vsnprintf(e->text, sizeof e->text, format, list);
    va_end(list);
    for (size_t i = events++; i > 0 && before(&heap[i], &heap[(i - 1) / 2]); i = (i - 1) / 2) {
        swap(i, (i - 1) / 2);
    }
    if (heap[0].order == orders - 1) {
        avr_cycle_timer_cancel(avr, fire, NULL);
        avr_cycle_timer_register(avr, cycle > avr->cycle ? cycle - avr->cycle : 1, fire, NULL);
    }
}

static struct event take_first(void)
{
    struct event first = heap[0];
    heap[0] = heap[--events];
    for (size_t i = 0;;) {
        size_t least = i, left = 2 * i + 1, right = left + 1;
        if (left < events && before(&heap[left], &heap[least])) {
            least = left;
        }
        if (right < events && before(&heap[right], &heap[least])) {
            least = right;
        }
        if (least == i) {
            return first;
        }
        swap(i, least);
        i = least;
    }
}

static avr_cycle_count_t fire(struct avr_t *a, avr_cycle_count_t when, void *param)
{
    (void)a, (void)when, (void)param;
    while (events > 0 && heap[0].cycle <= avr->cycle) {
        struct event e = take_first();
        command(e.text);
    }
    return events > 0 ? heap[0].cycle : 0;
}

/* ---- the serial line ---- */

static unsigned char packet[512];
static int held;
static uint64_t line_free;

/* Bytes are told by the time of their last stop bit, at ten bits each; simavr's own pace is eleven. */
static void sent(struct avr_irq_t *irq, uint32_t value, void *param)
{
    (void)irq, (void)param;
    uint64_t start = avr->cycle > line_free ? avr->cycle : line_free;
    line_free = start + BYTE_CYCLES;
    if (held < (int)sizeof packet) {
        packet[held++] = (unsigned char)value;
    }
    if (value != 0) {
        return;
    }
    printf("frame %llu ", (unsigned long long)(line_free / CYCLES_PER_US));
    for (int i = 0; i < held; i++) {
        printf("%02x", packet[i]);
    }
    printf("\n");
    held = 0;
}

void serial_byte(int byte) { avr_raise_irq(serial_in, byte); }

/* ---- how long the beat takes, and how deep the stack goes ---- */

static uint64_t beat_start, beat_sum, beat_max, beats, put_off, made_up;

/* The engine sets bit 0 of GPIOR0 while it is at contacts and analog inputs, and bit 1 where a beat came meanwhile and left them alone. */
#define MARK 0x3E

static void beat_done(void)
{
    uint64_t cycles = avr->cycle - beat_start;
    beat_sum += cycles;
    beats++;
    if (cycles > beat_max) {
        beat_max = cycles;
    }
}

static void beat_mark(struct avr_t *a, avr_io_addr_t addr, uint8_t v, void *param)
{
    (void)a, (void)param;
    uint8_t was = avr->data[addr];
    if (!(was & 1) && (v & 1)) {
        beat_start = avr->cycle;
    } else if ((was & 1) && !(v & 1)) {
        beat_done();
    } else if ((was & 2) && !(v & 2)) { /* the one that was left out begins */
        beat_done();
        beat_start = avr->cycle;
        made_up++;
    }
    put_off += !(was & 2) && (v & 2);
    avr->data[addr] = v;
}

/* Cycles in interrupts; what is left is the main loop's. */
static uint64_t inside_sum, inside_from;

static void watch(uint64_t *before, int *was_inside)
{
    if (*was_inside) {
        inside_sum += avr->cycle - *before;
    }
    *was_inside = avr->interrupts.running_ptr != 0;
    *before = avr->cycle;
}

#define UNTOUCHED 0xA5

void report_load(void)
{
    /* The longest stretch that nothing was written to lies between the variables and the stack; buffers on the stack have shorter ones. */
    int run = 0, longest = 0, lowest = avr->ramend;
    for (int at = avr->ramend; at > 0x200; at--) {
        run = avr->data[at] == UNTOUCHED ? run + 1 : 0;
        if (run > longest) {
            longest = run;
            lowest = at + run;
        }
    }
    printf("load beats %llu mean %llu max %llu stack %d put-off %llu made-up %llu inside %llu\n", (unsigned long long)beats, (unsigned long long)(beats ? beat_sum / beats : 0),
        (unsigned long long)beat_max, avr->ramend - lowest + 1, (unsigned long long)put_off, (unsigned long long)made_up, (unsigned long long)(inside_sum * 1000 / (avr->cycle - inside_from)));
    beat_max = beats = beat_sum = put_off = made_up = inside_sum = 0;
    inside_from = avr->cycle;
}

/* ---- the chip ---- */

static void quiet(avr_t *a, const int level, const char *format, va_list list) { (void)a, (void)level, (void)format, (void)list; }

static void no_sleep(avr_t *a, avr_cycle_count_t cycles) { (void)a, (void)cycles; }

static void load(const char *path)
{
    ihex_chunk_p chunks = NULL;
    int count = read_ihex_chunks(path, &chunks);
    if (count <= 0) {
        fail("image", path);
    }
    for (int i = 0; i < count; i++) {
        avr_loadcode(avr, chunks[i].data, chunks[i].size, chunks[i].baseaddr);
    }
    avr->pc = 0;
    avr->codeend = avr->flashend;
}

void chip(const char *name, const char *image)
{
    char lower[32] = {0};
    for (size_t i = 0; name[i] && i + 1 < sizeof lower; i++) {
        lower[i] = name[i] >= 'A' && name[i] <= 'Z' ? name[i] + 32 : name[i];
    }
    avr_global_logger_set(quiet);
    avr = avr_make_mcu_by_name(lower);
    if (!avr) {
        fail("chip", name);
    }
    avr_init(avr);
    avr->frequency = 16000000;
    avr->vcc = avr->avcc = avr->aref = 5000;
    avr->sleep = no_sleep;
    memset(avr->data + 0x200, UNTOUCHED, avr->ramend - 0x200);
    load(image);

    char line = strcmp(lower, "atmega32u4") == 0 ? '1' : '0';
    uint32_t flags = 0;
    avr_ioctl(avr, AVR_IOCTL_UART_SET_FLAGS(line), &flags);
    serial_in = avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ(line), UART_IRQ_INPUT);
    avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ(line), UART_IRQ_OUTPUT), sent, NULL);

    avr->io[AVR_DATA_TO_IO(MARK)].w.c = beat_mark;
    wire_chip();
    usb_watch();
}

void restart(void)
{
    avr_reset(avr); /* forgets all that was to come later */
    avr->pc = 0;
    held = 0;
    if (events > 0) {
        avr_cycle_timer_register(avr, heap[0].cycle > avr->cycle ? heap[0].cycle - avr->cycle : 1, fire, NULL);
    }
}

void set_volts(int channel, int millivolts) { avr_raise_irq(avr_io_getirq(avr, AVR_IOCTL_ADC_GETIRQ, ADC_IRQ_ADC0 + channel), millivolts); }

static void run_until(uint64_t cycle)
{
    uint64_t before = avr->cycle;
    int was_inside = 0;
    later(cycle, "nothing");
    while (avr->cycle < cycle) {
        watch(&before, &was_inside);
        int state = avr_run(avr);
        if (state == cpu_Done || state == cpu_Crashed) {
            printf("crash %llu\n", (unsigned long long)now_us());
            exit(4);
        }
    }
}

int main(void)
{
    static char line[65536];
    while (fgets(line, sizeof line, stdin)) {
        line[strcspn(line, "\r\n")] = 0;
        if (line[0] == 0 || line[0] == '#') {
            continue;
        }
        unsigned long long us;
        int skip;
        if (sscanf(line, "run %llu", &us) == 1) {
            run_until(avr->cycle + us * CYCLES_PER_US);
        } else if (sscanf(line, "until %llu", &us) == 1) {
            run_until(us * CYCLES_PER_US);
        } else if (sscanf(line, "@%llu %n", &us, &skip) == 1) {
            later(us * CYCLES_PER_US, "%s", line + skip);
        } else {
            command(line);
        }
        if (strncmp(line, "echo", 4) == 0) {
            fflush(stdout);
        }
    }
    return 0;
}
