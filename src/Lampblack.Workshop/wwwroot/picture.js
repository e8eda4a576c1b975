// The panel's face on a canvas: two pictures of it in linear light, mixed for the room, exchanged in windows where an edit changed them.

import { mix, onRoom, toLinear } from './room.js';

export function face(canvas) {
    const context = canvas.getContext('2d', { alpha: false });
    let day, lit, image, waiting = false, asked = 0;

    const decode = async source => {
        const bitmap = await createImageBitmap(source, { colorSpaceConversion: 'none', premultiplyAlpha: 'none' });
        const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
        const to = canvas.getContext('2d', { alpha: false, willReadFrequently: true });
        to.drawImage(bitmap, 0, 0);
        bitmap.close();
        return to.getImageData(0, 0, canvas.width, canvas.height).data;
    };

    // Undefined where the panel was taken off the desk while its picture was on the way: another one is shown next.
    const fetched = async address => {
        const answer = await fetch(address);
        return answer.status === 200 ? decode(await answer.blob()) : undefined;
    };

    const draw = () => {
        waiting = false;
        if (image) {
            mix(day, lit, image.data);
            context.putImageData(image, 0, 0);
            canvas.dataset.drawn = Number(canvas.dataset.drawn ?? 0) + 1;
        }
    };

    const later = () => {
        if (!waiting) {
            waiting = true;
            requestAnimationFrame(draw);
        }
    };

    const put = (rgba, into, left, top, width, height, whole) => {
        for (let row = 0; row < height; row++) {
            let source = row * width * 4, target = ((top + row) * whole + left) * 3;
            for (let column = 0; column < width; column++, source += 4, target += 3) {
                into[target] = toLinear[rgba[source]];
                into[target + 1] = toLinear[rgba[source + 1]];
                into[target + 2] = toLinear[rgba[source + 2]];
            }
        }
    };

    const leave = onRoom(later);
    return {
        // All of it, from the program's own pictures.
        async whole(address, width, height) {
            const mine = ++asked;
            canvas.closest('.stage')?.classList.add('drawing');
            const [a, b] = await Promise.all([fetched(`${address}day.png`), fetched(`${address}lit.png`)]);
            if (mine !== asked || !a || !b) {
                return;
            }
            canvas.width = width;
            canvas.height = height;
            image = new ImageData(width, height);
            day = new Uint16Array(width * height * 3);
            lit = new Uint16Array(width * height * 3);
            put(a, day, 0, 0, width, height, width);
            put(b, lit, 0, 0, width, height, width);
            draw();
            canvas.closest('.stage')?.classList.remove('drawing');
        },

        // A window of it that an edit changed.
        async patch(left, top, width, height, dayPng, litPng) {
            const [a, b] = await Promise.all([dayPng, litPng].map(bytes => decode(new Blob([bytes], { type: 'image/png' }))));
            if (!image || left + width > image.width || top + height > image.height) {
                return;
            }
            put(a, day, left, top, width, height, image.width);
            put(b, lit, left, top, width, height, image.width);
            for (let row = top; row < top + height; row++) {
                mix(day, lit, image.data, row * image.width + left, row * image.width + left + width);
            }
            context.putImageData(image, 0, 0, left, top, width, height);
            canvas.dataset.patched = Number(canvas.dataset.patched ?? 0) + 1;
        },

        stop() {
            asked++;
            leave();
        },
    };
}
