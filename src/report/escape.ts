/** Makes any text safe inside HTML or SVG, between tags and inside quotes. Control marks are dropped. */
export function escapeMarkup(text: string): string {
  return text
    .replace(/[\p{Cc}\u202a-\u202e\u2066-\u2069]+/gu, ' ')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');
}
