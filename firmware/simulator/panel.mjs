// A panel without a chip: runs an engine's image with a desk's table, wired as its lines say. docs/engine.md has the language.
//
//   node panel.mjs < SCRIPT                              runs a script as fast as it can; what happens goes to standard output
//   node panel.mjs --listen PORT --wires FILE [IMAGE]    runs in real time; the serial line is a TCP port of this machine (0: any free one),
//                                                        commands come from standard input, and the end of standard input ends it

import { readFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { createInterface } from 'node:readline';
import { parseArgs } from 'node:util';

const { Chip } = await import('./chip.mjs').catch(missing);
const { Words } = await import('./words.mjs');

function missing(error) {
  if (error.code !== 'ERR_MODULE_NOT_FOUND') throw error;
  console.error(`the simulator of chips is not fetched yet: run npm ci in ${import.meta.dirname}`);
  process.exit(2);
}

const { values, positionals } = parseArgs({ allowPositionals: true, options: { listen: { type: 'string' }, wires: { type: 'string' } } });
const say = line => process.stdout.write(line + '\n');

const words = new Words(say, (name, image) => new Chip(name, readFileSync(positionals[0] ?? image, 'latin1')));

function obey(line) {
  try {
    words.line(line);
    return true;
  } catch (error) {
    say(`fault ${error.message}`);
    return false;
  }
}

function runScript() {
  const lines = readFileSync(0, 'latin1').split(/\r?\n/);
  if (!lines.every(obey)) process.exitCode = 3;
}

/** Keeps the simulated time beside the real one; where the machine can't, the simulated time falls back and goes on from there. */
function listen(port) {
  if (!readFileSync(values.wires, 'latin1').split(/\r?\n/).every(obey)) {
    process.exit(3);
  }
  let socket;
  let outgoing = [];
  words.onByte = byte => outgoing.push(byte);
  const server = createServer(connection => {
    socket?.destroy();
    socket = connection.setNoDelay(true);
    connection.on('data', bytes => words.receive(bytes));
    connection.on('error', () => {});
    connection.on('close', () => { if (socket === connection) socket = undefined; });
  });
  server.listen(port, '127.0.0.1', () => say(`listening ${server.address().port}`));

  let last = process.hrtime.bigint();
  const mostBehind = 100_000_000n; // ns
  const advance = () => {
    let now = process.hrtime.bigint();
    const elapsed = now - last < mostBehind ? now - last : mostBehind;
    last = now;
    words.run(Number(elapsed) / 1000);
    if (outgoing.length) {
      socket?.write(Buffer.from(outgoing));
      outgoing = [];
    }
  };
  setInterval(advance, 2);
  createInterface({ input: process.stdin }).on('line', line => { advance(); obey(line); }).on('close', () => process.exit(0));
}

if (values.listen === undefined) {
  runScript();
} else {
  listen(Number(values.listen));
}
