/**
 * The ways in which one name may be meant, likeliest first, in the spelling of the table of salts: case, hyphens, sulphate, ferric (III),
 * percentages, `(KNO3)` behind a name, water of crystallisation, grades and the many words for a chelate set aside.
 */
export function spellings(name: string): string[] {
  const written = plain(name);
  const [, outside, inside] = /^([^()]+?) ?\(([^()]+)\)$/.exec(written) ?? [];
  const bracketed = inside === undefined ? [] : METALS.has(outside!) || outside === 'boron' ? [inside] : [outside!];
  const chelate = chelateOf(written);
  const all = chelate === null ? [written, ...(AGENT.test(written) ? [] : bracketed)] : [written, chelate];
  return [...new Set(all.flatMap((text) => [text, dry(text)]))].filter((text) => text !== '');
}

/** Case, hyphens, spelling (sulphate, ferric (III)), percentages and grades set aside. */
export function plain(name: string): string {
  return name
    .normalize('NFKC')
    .toLowerCase()
    .replace(/sulph/g, 'sulf')
    .replace(/\((?:i{1,3}|iv|vi)\)/g, ' ')
    .replace(/\(?\b\d+(?:[.,]\d+)? ?%\)?/g, ' ')
    .replace(/^ *derived from:?/, '')
    .replace(/[, ]+(?:technical|feed|food|horticultural|greenhouse)[- ]grade$/, '')
    .replace(/[.,:;\s]+$/, '')
    .replace(/[.•⋅*]/g, '·')
    .replace(/[-_\s]+/g, ' ')
    .replace(/\b(mono|di|tri) (?=(?:potassium|ammonium|sodium|calcium|magnesium)\b)/g, '$1')
    .replace(/^ ?(?:technical|soluble|pure|greenhouse|low biuret) (?:grade )?/, '')
    .replace(/^(ammonium|potassium|sodium|calcium) phosphate,? (monobasic|dibasic)$/, '$2 $1 phosphate')
    .trim();
}

/** Without water of crystallisation, as words or as a formula, and without the shape it is sold in. */
function dry(text: string): string {
  return text
    .replace(/ (?:solution|prills?|crystals?|granules?|powder)$/, '')
    .replace(/ (?:mono|di|tri|tetra|penta|hexa|hepta|octa|nona|deca)hydrate$/, '')
    .replace(/[ ·]+\d*h2o$/, '')
    .trim();
}

/** `iron edta` for Fe-EDTA, EDTA iron, chelated iron (EDTA), sodium ferric EDTA; null where it says anything else besides. */
function chelateOf(text: string): string | null {
  const words = text.replace(/[()]/g, ' ').split(/\s+/).filter(Boolean);
  const agents = words.filter((word) => AGENT.test(word));
  const metals = new Set(words.flatMap((word) => METALS.get(word) ?? []));
  const rest = words.filter((word) => !AGENT.test(word) && !METALS.has(word) && !BESIDE.has(word));
  return agents.length === 1 && metals.size === 1 && rest.length === 0 ? `${[...metals][0]} ${agents[0]}` : null;
}

const AGENT = /\b(?:edta|dtpa|hedta|eddha|eddhma)\b/;
const BESIDE: ReadonlySet<string> = new Set(['chelate', 'chelated', 'with', 'by', 'as', 'salt', 'sodium', 'disodium']);
const METALS: ReadonlyMap<string, string> = new Map(
  Object.entries({
    iron: ['fe', 'ferric'],
    manganese: ['mn'],
    zinc: ['zn'],
    copper: ['cu', 'cupric'],
    cobalt: ['co'],
    nickel: ['ni'],
    calcium: ['ca'],
    magnesium: ['mg'],
    molybdenum: ['mo'],
  }).flatMap(([metal, others]) => [metal, ...others].map((word): [string, string] => [word, metal])),
);
