// Front and mask held to a lamp: two filters of light laid over each other, the back one moved and turned by hand. Clipped and leaking spots are marked.

const open = 0.12;

export function lampView(canvas, stage) {
    const context = canvas.getContext('2d', { alpha: false });
    const inputs = ['right', 'up', 'turn'].map(name => document.getElementById(`lamp-${name}`));
    const told = document.getElementById('lamp-said');
    if (!told) {
        // Already looked at otherwise again.
        return undefined;
    }
    let front, mask, holes, width, height, mmPerDot = 1, image, waiting = false, stopped = false;

    // Luminance as a share, dot by dot. Undefined where the panel was taken off the desk while its picture was on the way.
    const filter = async address => {
        const answer = await fetch(address);
        if (answer.status !== 200) {
            return undefined;
        }
        const bitmap = await createImageBitmap(await answer.blob(), { colorSpaceConversion: 'none' });
        const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
        const to = canvas.getContext('2d', { alpha: false, willReadFrequently: true });
        to.drawImage(bitmap, 0, 0);
        [width, height] = [bitmap.width, bitmap.height];
        const codes = to.getImageData(0, 0, width, height).data;
        const light = new Float32Array(width * height);
        for (let dot = 0; dot < light.length; dot++) {
            const luminance = (0.2126 * codes[dot * 4] + 0.7152 * codes[dot * 4 + 1] + 0.0722 * codes[dot * 4 + 2]) / 255;
            light[dot] = luminance ** 2.2;
        }
        return light;
    };

    // The mask between its dots, so that a hundredth of a millimetre can be told.
    const between = (x, y) => {
        const left = Math.floor(x), top = Math.floor(y);
        if (left < 0 || top < 0 || left >= width - 1 || top >= height - 1) {
            return 0;
        }
        const at = top * width + left, right = x - left, low = y - top;
        return (mask[at] * (1 - right) + mask[at + 1] * right) * (1 - low) + (mask[at + width] * (1 - right) + mask[at + width + 1] * right) * low;
    };

    const draw = () => {
        waiting = false;
        if (stopped || !image || !told.isConnected) {
            return;
        }
        const [right, up, turn] = inputs.map(input => Number(input.value));
        const [sin, cos] = [Math.sin(turn * Math.PI / 180), Math.cos(turn * Math.PI / 180)];
        const [dx, dy, cx, cy] = [right / mmPerDot, -up / mmPerDot, width / 2, height / 2];
        const to = image.data;
        let clipped = 0, leaking = 0;
        for (let y = 0, dot = 0; y < height; y++) {
            for (let x = 0; x < width; x++, dot++) {
                // Where on the mask this dot looks: the mask's own way undone. Turned counter-clockwise seen from the front, y down here.
                const [fx, fy] = [x - cx - dx, y - cy - dy];
                const there = between(cos * fx - sin * fy + cx, sin * fx + cos * fy + cy);
                const here = front[dot];
                const light = Math.sqrt(here * there);

                // Ink and straw: what lets no light through is ink, what does is straw in lamp light.
                let red = 34 + 221 * light, green = 30 + 196 * light, blue = 28 + 106 * light;
                const body = 0.34 * (1 - Math.min(1, there * 4));
                if (here > open && holes[dot] < 0.5) {
                    if (mask[dot] > open && there <= open) {
                        clipped++;
                        [red, green, blue] = [255, 86, 20];
                    } else if (mask[dot] <= open && there > open) {
                        leaking++;
                        [red, green, blue] = (x + y) % 6 < 3 ? [255, 86, 20] : [255, 255, 255];
                    }
                } else if (here <= open && there > open) {
                    // The mask's opening seen through the front's black: a halo of straw.
                    [red, green, blue] = [red + 52, green + 44, blue + 22];
                } else {
                    [red, green, blue] = [red - 14 * body, green - 12 * body, blue - 10 * body];
                }
                const at = dot * 4;
                to[at] = red;
                to[at + 1] = green;
                to[at + 2] = blue;
                to[at + 3] = 255;
            }
        }
        context.putImageData(image, 0, 0);
        const area = mmPerDot * mmPerDot;
        document.getElementById('lamp-right-said').textContent = `${right.toFixed(2)} mm`;
        document.getElementById('lamp-up-said').textContent = `${up.toFixed(2)} mm`;
        document.getElementById('lamp-turn-said').textContent = `${turn.toFixed(3)}°`;
        told.textContent = clipped + leaking < 3
            ? 'Every legend is whole, and nothing leaks.'
            : `Clipped: ${(clipped * area).toFixed(1)} mm² of what should shine (plain orange). Leaking: ${(leaking * area).toFixed(1)} mm² that should stay dark (striped).`;
        canvas.dataset.clipped = clipped;
        canvas.dataset.leaking = leaking;
        canvas.dataset.drawn = Number(canvas.dataset.drawn ?? 0) + 1;
    };

    const later = () => {
        if (!waiting) {
            waiting = true;
            requestAnimationFrame(draw);
        }
    };

    for (const input of inputs) {
        input.addEventListener('input', later);
    }

    // The back sheet follows the hand: with Shift it turns.
    let from;
    const down = event => {
        from = { x: event.clientX, y: event.clientY, values: inputs.map(input => Number(input.value)) };
        stage.setPointerCapture?.(event.pointerId);
        event.preventDefault();
    };
    const move = event => {
        if (!from) {
            return;
        }
        const mm = stage.querySelector('.panel').clientWidth / Number(stage.dataset.width);
        const [dx, dy] = [(event.clientX - from.x) / mm, (event.clientY - from.y) / mm];
        if (event.shiftKey) {
            inputs[2].value = from.values[2] - dx * 0.02;
        } else {
            // A hand is coarse: the sheet follows at a quarter of its pace.
            inputs[0].value = from.values[0] + dx / 4;
            inputs[1].value = from.values[1] - dy / 4;
        }
        later();
    };
    const up = () => from = undefined;
    const panel = stage.querySelector('.panel');
    panel.addEventListener('pointerdown', down);
    stage.addEventListener('pointermove', move);
    stage.addEventListener('pointerup', up);
    return {
        async show(address, scale) {
            mmPerDot = scale;
            const filters = await Promise.all(['front', 'mask', 'holes'].map(name => filter(`${address}${name}.png`)));
            if (stopped || filters.includes(undefined)) {
                return;
            }
            [front, mask, holes] = filters;
            canvas.width = width;
            canvas.height = height;
            image = new ImageData(width, height);
            draw();
        },
        stop() {
            stopped = true;
            panel.removeEventListener('pointerdown', down);
            stage.removeEventListener('pointermove', move);
            stage.removeEventListener('pointerup', up);
        },
    };
}
