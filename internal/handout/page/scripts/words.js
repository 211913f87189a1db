/** @param {string} s */
export const capital = (s) => s.charAt(0).toUpperCase() + s.slice(1);
