// What is joined to what: pins, switches, diodes, pull-ups, shift registers, lamps. Levels are worked out when the chip reads a port.

const letters = 'ABCDEFGHJKL';
const ground = 88; // nodes 0 to 87 are the pins' own

/** Where the three registers of a port begin: pins, direction, output. */
export const portAddress = port => port < 7 ? 0x20 + 3 * port : 0x100 + 3 * (port - 7);

export class Wires {
  /**
   * @param registers the chip's memory, in which direction and output of each port stand
   * @param tell takes a line of what happens
   */
  constructor(registers, tell) {
    this.registers = registers;
    this.tell = tell;
    this.names = new Map([['GND', ground]]);
    for (let pin = 0; pin < 88; pin++) this.names.set(`P${letters[pin >> 3]}${pin & 7}`, pin);
    this.nodes = ground + 1;
    this.edges = [];
    this.switches = new Map();
    this.diodes = new Map();
    this.pullUps = new Set();
    this.pinNode = Array.from({ length: 88 }, (_, pin) => pin);
    this.nodePin = new Map(this.pinNode.map(pin => [pin, pin]));
    this.driven = new Map();
    this.lamps = [];
    this.dimmers = [];
    this.dirty = true;
  }

  node(name) {
    if (!this.names.has(name)) this.names.set(name, this.nodes++);
    return this.names.get(name);
  }

  join(a, b, part) {
    (this.edges[a] ??= []).push({ to: b, part, anode: true });
    (this.edges[b] ??= []).push({ to: a, part, anode: false });
  }

  addSwitch(name, a, b) {
    const part = { diode: false, closed: false };
    this.switches.set(name, part);
    this.join(this.node(a), this.node(b), part);
  }

  addDiode(name, anode, cathode) {
    const part = { diode: true, state: 'right' };
    this.diodes.set(name, part);
    this.join(this.node(anode), this.node(cathode), part);
  }

  addPullUp(name) { this.pullUps.add(this.node(name)); }

  addShiftIn(load, clock, data, chips) {
    const inputs = Array.from({ length: chips * 8 }, (_, k) => this.node(`in.${k >> 3}.${7 - (k & 7)}`)); // input H comes first
    this.shiftIn = { load: this.node(load), clock: this.node(clock), data: this.node(data), inputs, bits: [], place: 0, wasClock: -1 };
  }

  addShiftOut(data, clock, latch, chips) {
    this.shiftOut = { data: this.node(data), clock: this.node(clock), latch: this.node(latch), bits: new Array(chips * 8).fill(0), shown: new Array(chips * 8).fill(0), wasClock: -1, wasLatch: -1 };
  }

  addLamp(name, where) {
    const chain = /^out\.(\d+)\.(\d+)$/.exec(where);
    this.lamps.push({ name, output: chain ? chain[1] * 8 + +chain[2] : -1, node: chain ? -1 : this.node(where), shown: 0 });
  }

  addDimmer(name, timer, output) { this.dimmers.push({ name, timer, output }); }

  set(name, closed) {
    const found = this.switches.get(name);
    if (!found) throw new Error(`there is no switch ${name}`);
    found.closed = closed;
    this.dirty = true;
  }

  // ---- levels ----

  isOutput(pin) { return this.registers[portAddress(pin >> 3) + 1] >> (pin & 7) & 1; }
  outLevel(pin) { return this.registers[portAddress(pin >> 3) + 2] >> (pin & 7) & 1; }

  /** Whether a level at this end reaches the other: low goes from cathode to anode, high from anode to cathode. */
  static passes(edge, isLow) {
    const part = edge.part;
    if (!part.diode) return part.closed;
    if (part.state === 'bridged') return true;
    if (part.state === 'gone') return false;
    const fromAnode = part.state === 'reversed' ? !edge.anode : edge.anode;
    return isLow ? !fromAnode : fromAnode;
  }

  spread(reached, isLow) {
    const queue = [...reached];
    for (const at of queue) {
      for (const edge of this.edges[at] ?? []) {
        if (!reached.has(edge.to) && Wires.passes(edge, isLow)) {
          reached.add(edge.to);
          queue.push(edge.to);
        }
      }
    }
  }

  workOut() {
    if (!this.dirty) return;
    this.dirty = false;
    this.low = new Set([ground]);
    this.high = new Set();
    for (let port = 0; port < 11; port++) {
      const direction = this.registers[portAddress(port) + 1];
      for (let bit = 0; direction >> bit; bit++) {
        if (direction >> bit & 1) (this.outLevel(port * 8 + bit) ? this.high : this.low).add(this.pinNode[port * 8 + bit]);
      }
    }
    for (const [node, level] of this.driven) (level ? this.high : this.low).add(node);
    this.spread(this.low, true);
    this.spread(this.high, false);
  }

  /** What floats reads as low: a pull-up that was forgotten shows as a contact that is closed. */
  level(node, ownPullUp) { return this.low.has(node) ? 0 : this.high.has(node) || this.pullUps.has(node) || ownPullUp ? 1 : 0; }

  readPort(port) {
    this.workOut();
    let value = 0;
    for (let bit = 0; bit < 8; bit++) {
      const pin = port * 8 + bit;
      const out = this.outLevel(pin);
      value |= (this.isOutput(pin) ? out : this.level(this.pinNode[pin], out)) << bit;
    }
    return value;
  }

  /** The level that the chip drives a node with; -1 where it drives none. */
  drivenByChip(node) {
    const pin = this.nodePin.get(node);
    return pin === undefined || !this.isOutput(pin) ? -1 : this.outLevel(pin);
  }

  /** After every change of a port. */
  portsChanged() {
    this.dirty = true;
    if (this.shiftIn) this.lookIn(this.shiftIn);
    if (this.shiftOut) this.lookOut(this.shiftOut);
    for (const lamp of this.lamps) {
      const on = lamp.output >= 0 ? this.shiftOut.shown[lamp.output] : +(this.drivenByChip(lamp.node) === 1);
      if (on !== lamp.shown) {
        lamp.shown = on;
        this.tell(`lamp`, `${lamp.name} ${on}`);
      }
    }
  }

  lookIn(chain) {
    const clock = this.drivenByChip(chain.clock);
    if (this.drivenByChip(chain.load) === 0) {
      this.workOut();
      chain.bits = chain.inputs.map(node => this.level(node, 0));
      chain.place = 0;
    } else if (clock === 1 && chain.wasClock === 0) {
      chain.place++;
    }
    chain.wasClock = clock;
    this.driven.set(chain.data, chain.bits[chain.place] ?? 1);
    this.dirty = true;
  }

  lookOut(chain) {
    const clock = this.drivenByChip(chain.clock), latch = this.drivenByChip(chain.latch);
    if (clock === 1 && chain.wasClock === 0) {
      chain.bits.pop();
      chain.bits.unshift(+(this.drivenByChip(chain.data) === 1));
    }
    if (latch === 1 && chain.wasLatch === 0) chain.shown = [...chain.bits];
    chain.wasClock = clock;
    chain.wasLatch = latch;
  }

  /** Steps of a period that are on, and steps of the period, from the timer's registers. */
  duty({ timer, output }) {
    const data = this.registers;
    const word = at => data[at] | data[at + 1] << 8;
    const base = [0x44, 0x80, 0xb0, 0x90, 0xa0, 0x120][timer];
    const narrow = timer === 0 || timer === 2;
    const match = narrow ? data[base + 3 + output] : word(base + 8 + 2 * output);
    const top = timer === 0 ? data[base + 3] : timer === 2 ? 255 : word(base + 6);
    return [data[base] >> 7 - 2 * output & 1 ? match + 1 : 0, top + 1];
  }

  /** Of each port there is: its letter, pins that the chip drives, levels and pull-ups. */
  ports(there) {
    return [...there].map(letter => [letter, ...[1, 2].map(k => this.registers[portAddress(letters.indexOf(letter)) + k])]);
  }

  // ---- what goes wrong ----

  swapPins(a, b) {
    const na = this.pinNode[a], nb = this.pinNode[b];
    this.pinNode[a] = nb;
    this.pinNode[b] = na;
    this.nodePin.set(na, b);
    this.nodePin.set(nb, a);
    this.dirty = true;
  }

  cutPin(pin) {
    this.nodePin.delete(this.pinNode[pin]);
    this.pinNode[pin] = this.nodes++;
    this.nodePin.set(this.pinNode[pin], pin);
    this.dirty = true;
  }

  setDiode(name, state) {
    const found = this.diodes.get(name);
    if (!found) throw new Error(`there is no diode ${name}`);
    found.state = state;
    this.dirty = true;
  }

  exchange(a, b) {
    const first = this.switches.get(a), second = this.switches.get(b);
    if (!first || !second) throw new Error(`there is no switch ${first ? b : a}`);
    this.switches.set(a, second);
    this.switches.set(b, first);
  }
}
