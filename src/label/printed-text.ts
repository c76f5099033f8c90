/** A label's text in plain marks: one kind of dash, no dotted leaders or footnote signs, oxides in letters where a zero was typed. */
export const plainLabel = (text: string): string =>
  withoutFootnotes(text)
    .normalize('NFKC')
    .replace(/\r\n?/g, '\n')
    .replace(/[\u2010-\u2012\u2212]/g, '-')
    .replace(/\.{2,}|…|_{2,}|·{2,}|-{3,}|(?:\s\.){2,}/g, ' ')
    .replace(/[*†‡•■]/g, ' ')
    .replace(/\bK20\b/g, 'K2O')
    .replace(/\bP20?5\b|\bP2[oO]5\b/g, 'P2O5')
    .replace(/\b(Ca|Mg|Na2)0\b/g, '$1O')
    .replace(/\bS03\b/g, 'SO3')
    .replace(/\bSi02\b/g, 'SiO2');

/** A sign inside the text says that a line which begins with it is a footnote: its figures are parts of what is told above. */
const withoutFootnotes = (text: string): string =>
  /[^\s*][ \t.]*\*/.test(text) ? text.replace(/(^|\n)[ \t]*\*[^\n]*/g, '$1') : text;

/** The text without what tells how to use the product: shares and rates stand there that are no part of the analysis. */
export const withoutDirections = (text: string): string => text.replace(DIRECTIONS, '\n');

const DIRECTIONS =
  /(?:^|\n|\.\s)[ \t]*(?:directions|how\s+to\s+use|instructions|application|usage|dosage|dose|use\s+rates?|mixing|feeding|cautions?|warnings?|precautions?|storage|keep\s+(?:dry|out)|notes?\s*:)\b[\s\S]*?(?=\n[ \t]*(?:guaranteed|analysis|declar|derived|total\s+nitrogen|ingredients)|$(?![\s\S]))/gi;
