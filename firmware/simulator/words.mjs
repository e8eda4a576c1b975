// The lines of wiring and script.

import { cyclesPerUs } from './chip.mjs';
import { Wires } from './wires.mjs';

const byteCycles = 640; // ten bits at 250000 a second
const sendCycles = 704; // as the other simulator has to be sent bytes

export class Words {
  constructor(say, makeChip) {
    this.say = say;
    this.makeChip = makeChip;
    this.events = [];
    this.orders = 0;
    this.pots = new Map();
    this.ladders = new Map();
    this.encoders = new Map();
    this.packet = [];
    this.lineFree = 0;
    this.sendFree = 0;
    this.onByte = undefined;
  }

  // ---- time ----

  later(cycle, text) {
    const event = { cycle, order: this.orders++, text };
    let low = 0, high = this.events.length;
    while (low < high) { // last first, so that the next one is at the end
      const middle = low + high >> 1;
      const other = this.events[middle];
      if (other.cycle > cycle || (other.cycle === cycle && other.order > event.order)) low = middle + 1;
      else high = middle;
    }
    this.events.splice(low, 0, event);
  }

  runTo(cycle) {
    const chip = this.chip;
    for (;;) {
      const next = this.events.at(-1);
      if (!next || next.cycle > cycle) break;
      chip.runUntil(next.cycle);
      this.events.pop();
      this.command(next.text);
    }
    chip.runUntil(cycle);
  }

  run(us) { this.runTo(this.chip.cpu.cycles + us * cyclesPerUs); }

  // ---- the serial line ----

  sent(byte) {
    if (this.onByte) {
      this.onByte(byte);
      return;
    }
    const start = Math.max(this.chip.cpu.cycles, this.lineFree);
    this.lineFree = start + byteCycles;
    this.packet.push(byte);
    if (byte === 0) {
      this.say(`frame ${Math.floor(this.lineFree / cyclesPerUs)} ${Buffer.from(this.packet).toString('hex')}`);
      this.packet = [];
    }
  }

  receive(bytes) {
    let at = Math.max(this.chip.cpu.cycles, this.sendFree);
    for (const byte of bytes) {
      at += sendCycles;
      this.later(at, `byte ${byte}`);
    }
    this.sendFree = at;
  }

  // ---- lines ----

  line(text) {
    text = text.trim();
    if (text === '' || text.startsWith('#')) return;
    const timed = /^@(\d+) (.*)$/.exec(text);
    if (timed) this.later(timed[1] * cyclesPerUs, timed[2]);
    else this.command(text);
  }

  command(text) {
    const [word, ...rest] = text.split(/\s+/);
    const handler = handlers[word];
    if (!handler || rest.some(part => part === undefined)) throw new Error(`line ${text}`);
    handler(this, ...rest);
  }

  find(map, what, name) {
    const found = map.get(name);
    if (!found) throw new Error(`there is no ${what} ${name}`);
    return found;
  }

  tell(kind, what) { this.say(`${kind} ${this.chip.us} ${what}`); }

  start(name, image) {
    this.image = image;
    this.chip = this.makeChip(name, image);
    this.chip.onByte = byte => this.sent(byte);
    this.wires = new Wires(this.chip.cpu.data, (kind, what) => this.tell(kind, what));
    this.chip.wire(this.wires);
  }

  /** Power off and on again; what the chip keeps it keeps. */
  restart() {
    const old = this.chip;
    this.chip = this.makeChip(old.name, this.image);
    this.chip.inherit(old);
    this.chip.onByte = byte => this.sent(byte);
    this.wires.registers = this.chip.cpu.data;
    this.chip.wire(this.wires);
    this.packet = [];
  }

  showPot(pot) { this.chip.volts[pot.channel] = Math.floor((pot.reversed ? 1 - pot.share : pot.share) * 5000 + 0.5) / 1000; }

  step(name, direction) {
    const encoder = this.find(this.encoders, 'encoder', name);
    encoder.code = (direction > 0 ? [1, 3, 0, 2] : [2, 0, 3, 1])[encoder.code]; // B closed, A closed; A ahead of B counts up
    const [first, second] = encoder.swapped ? 'ba' : 'ab';
    this.wires.set(`${name}.${first}`, (encoder.code & 1) !== 0);
    this.wires.set(`${name}.${second}`, encoder.code >> 1 !== 0);
  }

  turn(name, count, hertz) {
    for (let k = 0; k < Math.abs(count); k++) {
      this.later(this.chip.cpu.cycles + Math.floor(k * (16e6 / hertz) + 0.5), `step ${name} ${count > 0 ? 1 : -1}`);
    }
  }

  lamps() {
    for (const lamp of this.wires.lamps) this.tell('lamp', `${lamp.name} ${lamp.shown}`);
    for (const dimmer of this.wires.dimmers) this.tell('dimmer', `${dimmer.name} ${this.wires.duty(dimmer).join(' ')}`);
  }
}

const faults = {
  swap: (w, a, b) => w.wires.swapPins(w.wires.node(a), w.wires.node(b)),
  cut: (w, pin) => w.wires.cutPin(w.wires.node(pin)),
  short: (w, a, b) => {
    w.wires.addSwitch(`short.${a}.${b}`, a, b);
    w.wires.set(`short.${a}.${b}`, true);
  },
  exchange: (w, a, b) => w.wires.exchange(a, b),
  reverse: (w, diode) => w.wires.setDiode(diode, 'reversed'),
  bridge: (w, diode) => w.wires.setDiode(diode, 'bridged'),
  remove: (w, diode) => w.wires.setDiode(diode, 'gone'),
  phases: (w, name) => w.find(w.encoders, 'encoder', name).swapped ^= 1,
  ends: (w, name) => {
    const pot = w.find(w.pots, 'pot', name);
    pot.reversed = !pot.reversed;
    w.showPot(pot);
  },
};

const handlers = {
  // wiring
  chip: (w, name, ...image) => w.start(name, image.join(' ')),
  switch: (w, name, a, b) => w.wires.addSwitch(name, a, b),
  diode: (w, name, anode, cathode) => w.wires.addDiode(name, anode, cathode),
  'pull-up': (w, name) => w.wires.addPullUp(name),
  'shift-in': (w, load, clock, data, chips) => w.wires.addShiftIn(load, clock, data, +chips),
  'shift-out': (w, data, clock, latch, chips) => w.wires.addShiftOut(data, clock, latch, +chips),
  encoder: (w, name, a, b) => {
    w.encoders.set(name, { code: 0, swapped: 0 });
    w.wires.addSwitch(`${name}.a`, a, 'GND');
    w.wires.addSwitch(`${name}.b`, b, 'GND');
  },
  pot: (w, name, channel) => {
    const pot = { channel: +channel, share: 0, reversed: false };
    w.pots.set(name, pot);
    w.showPot(pot);
  },
  ladder: (w, name, channel, none, ...volts) => {
    w.ladders.set(name, { channel: +channel, none: none / 1000, volts: volts.map(v => v / 1000) });
    w.chip.volts[+channel] = none / 1000;
  },
  lamp: (w, name, where) => w.wires.addLamp(name, where),
  dimmer: (w, name, timer, output) => w.wires.addDimmer(name, +timer, +output),

  // script
  run: (w, us) => w.run(+us),
  until: (w, us) => w.runTo(us * cyclesPerUs),
  close: (w, name) => w.wires.set(name, true),
  open: (w, name) => w.wires.set(name, false),
  turn: (w, name, count, hertz) => w.turn(name, +count, +hertz),
  step: (w, name, direction) => w.step(name, +direction),
  slide: (w, name, share) => {
    const pot = w.find(w.pots, 'pot', name);
    pot.share = +share;
    w.showPot(pot);
  },
  select: (w, name, position) => {
    const ladder = w.find(w.ladders, 'ladder', name);
    w.chip.volts[ladder.channel] = ladder.volts[+position] ?? ladder.none;
  },
  send: (w, hex) => w.receive(Buffer.from(hex, 'hex')),
  byte: (w, byte) => w.chip.receive(+byte),
  fault: (w, kind, ...rest) => {
    if (!Object.hasOwn(faults, kind)) throw new Error(`line fault ${kind}`);
    faults[kind](w, ...rest);
  },
  lamps: w => w.lamps(),
  ports: w => {
    for (const [letter, direction, out] of w.wires.ports(w.chip.kind.ports)) w.tell('port', `${letter} ${direction} ${out}`);
  },
  restart: w => w.restart(),
  load: () => {},
  echo: (w, ...rest) => w.say(`echo ${rest.join(' ')}`),
};
