// Findings point at their items.

export function pointing({ grips, on }) {
    on(document, 'pointerover', event => point(event.target.closest?.('.finding')));
    on(document, 'focusin', event => point(event.target.closest?.('.finding')));
    function point(finding) {
        for (const grip of grips.querySelectorAll('.meant')) {
            grip.classList.remove('meant');
        }
        const item = finding?.dataset.item;
        if (item) {
            for (const grip of grips.querySelectorAll('.item')) {
                grip.classList.toggle('meant', grip.dataset.id === item || grip.dataset.table === item);
            }
        }
    }
}
