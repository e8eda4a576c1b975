// Reads a drill file with gerber-parser and prints its holes: x, y, diameter, unit.
const { createReadStream } = require('node:fs');
const parser = require('gerber-parser')({ filetype: 'drill' });
const tools = new Map();
const holes = [];
let tool = '';
let units = '';
parser.on('data', (one) => {
    if (one.type === 'tool') tools.set(one.code, one.tool.params[0]);
    if (one.type === 'set' && one.prop === 'units') units = one.value;
    if (one.type === 'set' && one.prop === 'tool') tool = one.value;
    if (one.type === 'op' && one.op === 'flash') holes.push([one.coord.x, one.coord.y, tools.get(tool)]);
});
parser.on('end', () => console.log(JSON.stringify({ units, tools: [...tools.values()], holes })));
createReadStream(process.argv[2], 'ascii').pipe(parser);
