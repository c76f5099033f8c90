/** The list of sources of a label's text, and the text without it. */
export function sourcesIn(text: string): { rest: string; derivedFrom: string[] } {
  const found = LIST.exec(text);
  if (!found) return { rest: text, derivedFrom: [] };
  const [whole, list] = found;
  const derivedFrom = list!
    .replace(/\s+/g, ' ')
    .split(/[,;](?!\d)|\band\b|&|\n/i)
    .map((name) => name.replace(/^[\s:.-]+|[\s.:]+$/g, ''))
    .filter((name) => /[a-z]{2}/i.test(name));
  return { rest: text.replace(whole, '\n'), derivedFrom };
}

/** From its heading to a full stop at the end of a line, an empty line, a new heading or the end. */
const LIST =
  /\b(?:derived\s+from|nutrient\s+sources?|sources?\s+of\s+nutrients|made\s+from|obtained\s+from|ingredients?|component\s+materials?)\s*:?\s*([\s\S]+?)(?=\.\s*(?:\n|$)|\.\s+[A-Z]|\n\s*\n|\n\s*(?:guaranteed|directions|information|keep|warning|caution|density|net\s+w|total\s+nitrogen|declared|potential)|$(?![\s\S]))/i;
