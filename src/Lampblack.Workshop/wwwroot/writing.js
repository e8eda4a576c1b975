// Words are written where they stand.

export function wordsInPlace(view, program) {
    const { panel, height, pxPerMm, gripOf } = view;
    return function write(item) {
        if (!['Control', 'Legend', 'Rule'].includes(item.kind)) {
            return;
        }
        const px = pxPerMm();
        const input = document.createElement('textarea');
        input.className = 'in-place';
        input.setAttribute('aria-label', `Words of ${item.words}`);
        input.value = item.words;
        input.rows = 1;
        const [left, bottom, w, h] = item.box;
        input.style.left = `${Math.max(0, (left + w / 2) * px - 90)}px`;
        input.style.top = `${Math.max(0, (height - bottom - h) * px - 6)}px`;
        panel.append(input);
        view.writing = input;
        input.focus();
        input.select();
        let isDone = false;
        const end = keeps => {
            if (isDone) {
                return;
            }
            isDone = true;
            view.writing = undefined;
            const words = input.value;
            input.remove();
            if (keeps && words !== item.words) {
                program.invokeMethodAsync('Write', item.id, words);
            }
            gripOf(item.id)?.focus();
        };
        input.addEventListener('keydown', event => {
            event.stopPropagation();
            if (event.key === 'Enter' && !event.shiftKey) {
                event.preventDefault();
                end(true);
            } else if (event.key === 'Escape') {
                event.preventDefault();
                end(false);
            }
        });
        input.addEventListener('blur', () => end(true));
    };
}
