// Where something that is dragged comes to rest: on the grid, or in line with what stands there already.

export const gridMm = 0.5;

// For each way (x, y) the lines that other items offer: edges and middles.
export function linesOf(items) {
    const lines = { x: [], y: [] };
    for (const item of items) {
        const [left, bottom, width, height] = item.box;
        lines.x.push({ at: left, item }, { at: left + width, item }, { at: item.anchor[0], item, isMiddle: true });
        lines.y.push({ at: bottom, item }, { at: bottom + height, item }, { at: item.anchor[1], item, isMiddle: true });
    }
    return lines;
}

// The shift that is nearest to what the hand says, within reach of a line; else on the grid. Gives the lines it holds to, to be drawn.
export function snapped(moving, dx, dy, lines, reachMm, isFree) {
    if (isFree) {
        return { dx, dy, held: [] };
    }
    const held = [];
    const one = (axis, shift, offset) => {
        const [at, size, anchor] = axis === 'x' ? [moving.box[0], moving.box[2], moving.anchor[0]] : [moving.box[1], moving.box[3], moving.anchor[1]];
        let best;
        for (const [own, isMiddle] of [[anchor, true], [at, false], [at + size, false]]) {
            for (const line of lines[axis]) {
                // Middles hold to middles, edges to edges: a hole in line with the edge of a word is no order.
                if (!!line.isMiddle !== isMiddle) {
                    continue;
                }
                const miss = Math.abs(own + shift - line.at);
                if (miss <= (isMiddle ? reachMm : reachMm / 2) && (!best || (miss < best.miss - 1e-9 && (isMiddle || !best.isMiddle)))) {
                    best = { miss, shift: line.at - own, line, isMiddle };
                }
            }
        }
        if (best) {
            held.push({ axis, ...best.line });
            return best.shift;
        }
        return Math.round((anchor + shift) / gridMm) * gridMm - anchor;
    };
    return { dx: one('x', dx), dy: one('y', dy), held };
}

// The nearest item that way from one, for the arrow keys.
export function nearest(items, from, way) {
    const [wx, wy] = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[way];
    const middle = item => [item.box[0] + item.box[2] / 2, item.box[1] + item.box[3] / 2];
    const [x, y] = middle(from);
    let best;
    for (const item of items) {
        const [mx, my] = middle(item);
        const along = (mx - x) * wx + (my - y) * wy;
        const across = Math.abs((mx - x) * wy) + Math.abs((my - y) * wx);
        if (item.id !== from.id && along > 0.01) {
            const cost = along + 2.5 * across;
            if (!best || cost < best.cost) {
                best = { cost, item };
            }
        }
    }
    return best?.item;
}
