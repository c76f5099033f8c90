import { atDoor } from '../../door.js';
import type { Checked, Where } from '../../problem.js';
import { PAPERS, type Paper } from '../../report/sheet-page/index.js';
import { refused } from './refused.js';

/** `a4`, `letter` or `a6`. */
export function parsePaper(text: string, where: Where): Checked<Paper> {
  const word = text.trim().toLowerCase();
  const paper = PAPERS.find((name) => name === word);
  if (paper) return { ok: true, value: paper, warnings: [] };
  return refused(
    'paper',
    where,
    `"${text}"`,
    PAPERS.join(', '),
    atDoor({ typed: 'Write for example --paper a6.', page: 'Write for example a6.' }),
  );
}
