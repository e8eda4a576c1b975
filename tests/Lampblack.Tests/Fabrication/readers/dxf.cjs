// Reads a DXF with dxf-parser and prints what it holds, a line of JSON.
const { readFileSync } = require('node:fs');
const Parser = require('dxf-parser');
const drawing = new (Parser.default ?? Parser)().parseSync(readFileSync(process.argv[2], 'ascii'));
console.log(JSON.stringify({
    header: drawing.header,
    layers: Object.keys(drawing.tables.layer.layers),
    entities: drawing.entities.map((entity) => ({
        type: entity.type, layer: entity.layer, closed: entity.shape === true,
        circle: entity.center ? [entity.center.x, entity.center.y, entity.radius] : null,
        vertices: (entity.vertices ?? []).map((vertex) => [vertex.x, vertex.y, vertex.bulge ?? 0]),
    })),
}));
