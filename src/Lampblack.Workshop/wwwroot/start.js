// Starts what belongs to the page as a whole. Everything comes from the workshop's own program on this machine.

// Components ask for the keyboard by an element's id; what was just drawn is there in the next frame.
window.lampblackFocus = id => requestAnimationFrame(() => {
    const element = document.getElementById(id);
    element?.focus();
    element?.select?.();
});

// Files that are dropped or chosen go straight to the program: a photo of fifty megapixels is too much for the page's own line.
export async function send(kind, file) {
    const answer = await fetch(`${kind}?name=${encodeURIComponent(file.name.replace(/[^\p{L}\p{N}._() -]/gu, '-'))}`, { method: 'POST', body: file });
    return answer.ok ? '' : await answer.text();
}

window.lampblackSend = send;
window.lampblackNameOf = file => file.name.replace(/[^\p{L}\p{N}._() -]/gu, '-');
