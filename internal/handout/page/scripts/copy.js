// copyText puts a text on the clipboard, or selects it where a page may not.
/** @param {HTMLTextAreaElement} area @param {Element} said */
export async function copyText(area, said) {
	try {
		await navigator.clipboard.writeText(area.value);
		said.textContent = 'Copied.';
	} catch {
		area.focus();
		area.select();
		said.textContent = 'Selected: copy it from the menu.';
	}
}

