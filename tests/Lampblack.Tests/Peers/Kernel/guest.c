/*
 * The only program of a small virtual machine: it loads the kernel's modules, joins a USB device that a server outside offers (usb/IP), and tells on the
 * console what the kernel makes of it. Each line of ours begins with "panel". It ends the machine when the device is gone.
 * Frames by the kernel's Documentation/usb/usbip_protocol.rst; codes by its linux/input.h.
 */
#include <arpa/inet.h>
#include <errno.h>
#include <fcntl.h>
#include <linux/input.h>
#include <net/if.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/mount.h>
#include <sys/reboot.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

#define SERVER "10.0.2.2" /* the machine around us, by QEMU's user network */
#define ADDRESS "10.0.2.15"

static void end(const char *why)
{
    printf("panel %s\n", why);
    fflush(stdout);
    sleep(1);
    reboot(RB_POWER_OFF);
    pause();
}

static void fail(const char *what)
{
    char text[160];
    snprintf(text, sizeof text, "fault %s: %s", what, strerror(errno));
    end(text);
}

static void load_modules(void)
{
    for (int number = 0;; number++) {
        char path[32];
        snprintf(path, sizeof path, "/modules/%d.ko", number);
        int file = open(path, O_RDONLY);
        if (file < 0) {
            return;
        }
        if (syscall(SYS_finit_module, file, "", 0) != 0) {
            fail(path);
        }
        close(file);
    }
}

static void network(void)
{
    int any = socket(AF_INET, SOCK_DGRAM, 0);
    struct ifreq request = {0};
    struct sockaddr_in *address = (struct sockaddr_in *)&request.ifr_addr;
    strcpy(request.ifr_name, "eth0");
    address->sin_family = AF_INET;
    inet_aton(ADDRESS, &address->sin_addr);
    if (ioctl(any, SIOCSIFADDR, &request) != 0) {
        fail("address");
    }
    inet_aton("255.255.255.0", &address->sin_addr);
    ioctl(any, SIOCSIFNETMASK, &request);
    request.ifr_flags = IFF_UP | IFF_RUNNING;
    if (ioctl(any, SIOCSIFFLAGS, &request) != 0) {
        fail("network");
    }
    close(any);
}

static void take(int line, void *bytes, size_t size)
{
    for (size_t have = 0; have < size;) {
        ssize_t got = read(line, (char *)bytes + have, size - have);
        if (got <= 0) {
            fail("answer");
        }
        have += got;
    }
}

/* OP_REQ_IMPORT and its reply; the kernel goes on with the same line. */
static void join(const char *port)
{
    struct sockaddr_in server = {.sin_family = AF_INET, .sin_port = htons(atoi(port))};
    inet_aton(SERVER, &server.sin_addr);
    int line = socket(AF_INET, SOCK_STREAM, 0);
    int tries = 0;
    while (connect(line, (struct sockaddr *)&server, sizeof server) != 0) {
        if (++tries == 100) {
            fail("server");
        }
        close(line);
        line = socket(AF_INET, SOCK_STREAM, 0);
        usleep(100000);
    }
    unsigned char ask[40] = {0x01, 0x11, 0x80, 0x03, 0, 0, 0, 0, '1', '-', '1'}, head[8], device[312];
    if (write(line, ask, sizeof ask) != sizeof ask) {
        fail("question");
    }
    take(line, head, sizeof head);
    if (head[3] != 3 || head[7] != 0) {
        errno = EPROTO;
        fail("import");
    }
    take(line, device, sizeof device);
    unsigned bus = ntohl(*(uint32_t *)(device + 288)), number = ntohl(*(uint32_t *)(device + 292)), speed = ntohl(*(uint32_t *)(device + 296));
    char text[64];
    int length = snprintf(text, sizeof text, "0 %d %u %u", line, bus << 16 | number, speed);
    int attach = open("/sys/devices/platform/vhci_hcd.0/attach", O_WRONLY);
    if (attach < 0 || write(attach, text, length) != length) {
        fail("attach");
    }
    close(attach);
}

static void tell_devices(void)
{
    char line[512];
    FILE *list = fopen("/proc/bus/input/devices", "r");
    while (list && fgets(line, sizeof line, list)) {
        printf("panel list %s", line);
    }
    if (list) {
        fclose(list);
    }
}

static int has_bit(const unsigned char *bits, int bit) { return bits[bit / 8] >> bit % 8 & 1; }

static void tell_bits(int input)
{
    unsigned char keys[KEY_MAX / 8 + 1] = {0}, axes[ABS_MAX / 8 + 1] = {0};
    ioctl(input, EVIOCGBIT(EV_KEY, sizeof keys), keys);
    ioctl(input, EVIOCGBIT(EV_ABS, sizeof axes), axes);
    printf("panel keys");
    for (int key = 0; key <= KEY_MAX; key++) {
        if (has_bit(keys, key)) {
            printf(" %d", key);
        }
    }
    printf("\n");
    for (int axis = 0; axis <= ABS_MAX; axis++) {
        struct input_absinfo about;
        if (has_bit(axes, axis) && ioctl(input, EVIOCGABS(axis), &about) == 0) {
            printf("panel axis %d %d %d %d\n", axis, about.minimum, about.maximum, about.value);
        }
    }
}

int main(void)
{
    mkdir("/proc", 0755), mkdir("/sys", 0755), mkdir("/dev", 0755);
    mount("proc", "/proc", "proc", 0, NULL);
    mount("sysfs", "/sys", "sysfs", 0, NULL);
    mount("devtmpfs", "/dev", "devtmpfs", 0, NULL);
    freopen("/dev/ttyS0", "w", stdout);
    setvbuf(stdout, NULL, _IOLBF, 0);
    load_modules();
    network();
    join(getenv("PANEL_PORT") ? getenv("PANEL_PORT") : "3240");
    int input = -1;
    char name[80];
    for (int tries = 0; tries < 600 && input < 0; tries++) {
        for (int number = 0; number < 8 && input < 0; number++) {
            char path[32];
            struct input_id id;
            snprintf(path, sizeof path, "/dev/input/event%d", number);
            input = open(path, O_RDONLY);
            if (input >= 0 && (ioctl(input, EVIOCGID, &id) != 0 || id.bustype != BUS_USB || ioctl(input, EVIOCGNAME(sizeof name), name) < 0)) {
                close(input); /* a keyboard or button of the machine itself */
                input = -1;
            }
        }
        usleep(100000);
    }
    if (input < 0) {
        fail("no input device");
    }
    printf("panel name %s\n", name);
    tell_devices();
    tell_bits(input);
    printf("panel ready\n");
    struct input_event event;
    while (read(input, &event, sizeof event) == sizeof event) {
        if (event.type == EV_KEY || event.type == EV_ABS) {
            printf("panel event %d %d %d\n", event.type, event.code, event.value);
        }
    }
    end("gone");
    return 0;
}
