import { saltNamed } from '../chemistry/salts.js';
import { withoutPack } from './printed-pack.js';

/** The list of sources of a label's text, and the text without it. */
export function sourcesIn(text: string): { rest: string; derivedFrom: string[] } {
  const found = LIST.exec(text);
  if (!found) return { rest: text, derivedFrom: [] };
  const [whole, list] = found;
  const own = withoutNextLine(list!);
  const derivedFrom = withoutPack(own)
    .replace(/\s+/g, ' ')
    .split(/[,;](?!\d)|\band\b|&|\n/i)
    .map((name) => name.replace(/^[\s:./-]+|[\s.:/(]+$/g, ''))
    .filter((name) => /[a-z]{2}/i.test(name));
  return { rest: text.replace(whole, () => `\n${list!.slice(own.length)}`), derivedFrom };
}

/** Lists break anywhere; a line that begins anew where a salt has just ended is none of the list. */
function withoutNextLine(list: string): string {
  const lines = list.split('\n');
  const end = lines.findIndex((line, i) => {
    const next = lines[i + 1];
    if (next === undefined || /[,;&]\s*$|\band\s*$/i.test(line) || /^\s*(?:[,;&]|and\b)/i.test(next)) return false;
    const last = line
      .split(/[,;]|\band\b|&/i)
      .at(-1)!
      .replace(/^[\s:.-]+/, '')
      .trim();
    const joined = `${last} ${next.split(/[,;.]|\band\b|&/i)[0]!}`.trim();
    return saltNamed(last) !== undefined && saltNamed(joined) === undefined;
  });
  return end < 0 ? list : lines.slice(0, end + 1).join('\n');
}

/** From its heading to a full stop at the end of a line, an empty line, a new heading or the end. */
const LIST =
  /\b(?:derived\s+from|nutrient\s+sources?|sources?\s+of\s+nutrients|made\s+from|obtained\s+from|ingredients?|component\s+materials?)\s*:?\s*([\s\S]+?)(?=\.\s*(?:\n|$)|\.\s+[A-Z]|\n\s*\n|\n\s*(?:guaranteed|directions|information|keep|warning|caution|density|net\s+w|total\s+nitrogen|declared|potential|shake|store|use\b|apply|mix\b|dilute|net\b|manufactured|made\s+(?:in|by)|distributed|registered|batch|lot\b|F-?\d{3,}|www\.|https?:|for\s+use|not\s+for|contains?\b|contents)|$(?![\s\S]))/i;
