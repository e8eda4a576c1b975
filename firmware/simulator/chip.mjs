// The chip: avr8js with the registers and vectors of the three that the engine runs on.

import { avrInstruction, AVRADC, AVREEPROM, AVRTimer, AVRUSART, CPU, EEPROMMemoryBackend, adcConfig, eepromConfig, timer0Config, usart0Config } from 'avr8js';
import { portAddress } from './wires.mjs';

export const cyclesPerUs = 16;

// Vectors are counted in words, two for each; numbers as avr-libc's headers have them.
const chips = {
  ATmega2560: { flash: 0x40000, ram: 0x2100, ports: 'ABCDEFGHJKL', beat: 21, serial: 25, registers: 0xc0, mux5: 0x08 },
  ATmega328P: { flash: 0x8000, ram: 0x800, ports: 'BCD', beat: 14, serial: 18, registers: 0xc0, mux5: 0 },
  ATmega32U4: { flash: 0x8000, ram: 0xa00, ports: 'BCDEF', beat: 21, serial: 25, registers: 0xc8, mux5: 0x20 },
};
const letters = 'ABCDEFGHJKL';
const sleep = 0x9588;

/** Fills flash from the text of an Intel HEX file. */
function load(flash, text) {
  let high = 0;
  for (const line of text.split(/\s+/)) {
    if (!line) continue;
    const bytes = Buffer.from(line.slice(1), 'hex');
    if (bytes.reduce((sum, byte) => sum + byte, 0) & 0xff) throw new Error(`a line of the image has a wrong checksum: ${line}`);
    if (bytes[3] === 4) high = bytes.readUInt16BE(4) * 0x10000;
    if (bytes[3] === 2) high = bytes.readUInt16BE(4) * 16;
    if (bytes[3] === 0) flash.set(bytes.subarray(4, 4 + bytes[0]), high + bytes.readUInt16BE(1));
  }
}

export class Chip {
  constructor(name, image) {
    const kind = chips[name];
    if (!kind) throw new Error(`there is no chip ${name}; there are ${Object.keys(chips).join(', ')}`);
    this.flash = new Uint16Array(kind.flash / 2).fill(0xffff);
    load(new Uint8Array(this.flash.buffer), image);
    const cpu = this.cpu = new CPU(this.flash, kind.ram);
    this.kind = kind;
    this.name = name;
    cpu.data[0x54] = 1; // started by power
    this.volts = new Array(16).fill(0);
    this.onByte = () => {};

    const registers = kind.registers;
    this.serial = new AVRUSART(cpu, {
      ...usart0Config, rxCompleteInterrupt: kind.serial * 2, dataRegisterEmptyInterrupt: (kind.serial + 1) * 2, txCompleteInterrupt: (kind.serial + 2) * 2,
      UCSRA: registers, UCSRB: registers + 1, UCSRC: registers + 2, UBRRL: registers + 4, UBRRH: registers + 5, UDR: registers + 6,
    }, 16e6);
    this.serial.onByteTransmit = byte => this.onByte(byte);
    this.keepReceived(registers);
    this.timer = new AVRTimer(cpu, { ...timer0Config, compAInterrupt: kind.beat * 2, compBInterrupt: (kind.beat + 1) * 2, ovfInterrupt: (kind.beat + 2) * 2 });
    this.skipIdleSteps();
    this.eeprom = new AVREEPROM(cpu, new EEPROMMemoryBackend(4096), eepromConfig);
    this.adc = new AVRADC(cpu, { ...adcConfig, numChannels: 16, adcInterrupt: 126 });
    this.adc.onADCRead = () => {
      const channel = (cpu.data[0x7c] & 7) + (cpu.data[0x7b] & kind.mux5 ? 8 : 0);
      const count = Math.min(1023, Math.floor(this.volts[channel] * 1024 / 5));
      cpu.addClockEvent(() => this.adc.completeADCRead(count), this.adc.sampleCycles);
    };
  }

  /** The library forgets a received byte when the control register is written before its interrupt ran; a chip does not. */
  keepReceived(registers) {
    const write = this.cpu.writeHooks[registers + 1];
    this.cpu.writeHooks[registers + 1] = (...values) => {
      const waiting = this.cpu.data[registers] & 0x80;
      const result = write(...values);
      if (waiting) this.cpu.setInterruptFlag(this.serial.RXC);
      return result;
    };
  }

  /** Nothing looks at the counter between two beats, so it need not be called at each of its steps. */
  skipIdleSteps() {
    const { cpu, timer } = this;
    const add = cpu.addClockEvent.bind(cpu);
    cpu.addClockEvent = (callback, cycles) => {
      if (callback === timer.count && timer.divider && timer.ocrA > 1 && timer.TOP === timer.ocrA) {
        const period = timer.ocrA + 1;
        const steps = (timer.ocrA - 1 - timer.tcnt + period) % period || 1; // to the step before the beat, then onto it
        cycles = Math.max(cycles, timer.lastCycle + steps * timer.divider - cpu.cycles);
      }
      return add(callback, cycles);
    };
  }

  wire(wires) {
    const { cpu } = this;
    for (const letter of this.kind.ports) {
      const port = letters.indexOf(letter);
      const address = portAddress(port);
      cpu.readHooks[address] = () => cpu.data[address] = wires.readPort(port);
      for (const at of [address + 1, address + 2]) {
        cpu.writeHooks[at] = value => {
          cpu.data[at] = value;
          wires.portsChanged();
          return true;
        };
      }
    }
  }

  /** Takes over time, voltages and what the other kept without power. */
  inherit(old) {
    this.cpu.cycles = old.cpu.cycles;
    this.volts = old.volts;
    this.eeprom.backend.memory.set(old.eeprom.backend.memory);
  }

  get us() { return Math.floor(this.cpu.cycles / cyclesPerUs); }

  receive(byte) { this.serial.writeByte(byte, true); }

  /** Runs up to a cycle; asleep it goes from one event to the next. */
  runUntil(limit) {
    const { cpu, flash } = this;
    while (cpu.cycles < limit) {
      const asleep = flash[cpu.pc] === sleep;
      avrInstruction(cpu);
      if (asleep && cpu.nextInterrupt < 0) {
        cpu.cycles = Math.max(cpu.cycles, Math.min(limit, cpu.nextClockEvent?.cycles ?? limit));
      }
      cpu.tick();
    }
  }
}
