import type { Catalog } from '../../catalog/catalog.js';
import type { Checked } from '../../problem.js';
import { hasBareGallon, withGallon } from '../options/gallon.js';
import { type ReadKey, readWish } from '../options/read-wish.js';
import type { Wishes } from '../wishes.js';
import { readGrown } from './grown.js';
import { labelQuestion } from './label-questions.js';
import type { Answered, Question } from './question.js';

/**
 * What to ask next of a grower whose bench is begun: only what matters and was not told. Answers become wishes as options say them.
 * @param answered keys of the questions that were asked, whatever was answered; `labels` where no more are to be asked for
 */
export function nextQuestion(wishes: Wishes, answered: ReadonlySet<string>, catalog: Catalog): Question | null {
  const label = answered.has('labels') ? null : labelQuestion(wishes, answered, catalog);
  if (label) return label;
  return PLAIN.find(({ key, matters }) => !answered.has(key) && matters(wishes, catalog))?.ask(wishes, catalog) ?? null;
}

interface Plain {
  key: string;
  /** Whether it is still to be asked. */
  matters: (wishes: Wishes, catalog: Catalog) => boolean;
  ask: (wishes: Wishes, catalog: Catalog) => Question;
}

const PLAIN: readonly Plain[] = [
  {
    key: 'plants',
    matters: ({ plants }) => plants === undefined,
    ask: (wishes, catalog) => ({
      key: 'plants',
      says: 'Which plants do you feed, and in what do they stand? For example: moth orchids in bark, pleurothallids in moss. Empty: moth orchids in bark.',
      take: async (answer) => told(answer, readGrown(answer, catalog, {}), { ...wishes, plants: answer }, wishes),
    }),
  },
  {
    key: 'medium',
    matters: ({ plants, medium }, catalog) =>
      medium === undefined && plants !== undefined && mediumOpen(plants, catalog),
    ask: (wishes, catalog) => ({
      key: 'medium',
      says: 'In what do they stand: sphagnum, bark, coir, peat, clay, or mounted? Empty: bark.',
      take: async (answer) =>
        told(answer, readWish('medium', answer, { catalog }), { ...wishes, medium: answer }, wishes),
    }),
  },
  {
    key: 'mix',
    matters: ({ mix }) => mix === undefined,
    ask: (wishes) => ({
      key: 'mix',
      says: 'How much do you mix at a time? For example: 4 L, 1 gal. Empty: 4 L.',
      take: async (answer) => readBare('mix', answer, wishes),
    }),
  },
  {
    key: 'kit',
    matters: ({ kit }) => kit === undefined,
    ask: (wishes) => ({
      key: 'kit',
      says: 'What do you measure with? For example: 1 tsp, 1/2 tsp, 1/4 tsp, 0.1 g scale, 5 mL syringe, 2 L jug. Empty: what most kitchens hold.',
      take: async (answer) => readBare('kit', answer, wishes),
    }),
  },
  {
    key: 'gallon',
    matters: ({ gallon, ...wishes }) =>
      gallon === undefined && ['mix', 'kit', 'weekly'].some((key) => hasBareGallon(String(wishes[key as 'mix'] ?? ''))),
    ask: (wishes) => ({
      key: 'gallon',
      says: 'Which gallon: us (3.785 L) or imperial (4.546 L)?',
      take: async (answer) => told(answer, readWish('gallon', answer), { ...wishes, gallon: answer }),
    }),
  },
  {
    key: 'scale',
    matters: ({ scale }) => scale === undefined,
    ask: (wishes) => ({
      key: 'scale',
      says: 'What does your pen show: EC (mS/cm or µS/cm), or ppm on the 500, 640 or 700 scale? Its leaflet tells; most of the US are 500, most of Australia and the UK 700. Empty: no pen.',
      take: async (answer) => {
        const scale = scaleWords(answer);
        return told(scale, readWish('scale', scale), { ...wishes, scale }, wishes);
      },
    }),
  },
  {
    key: 'water',
    matters: ({ water, readingOfWater }) => (water ?? []).length === 0 && readingOfWater === undefined,
    ask: (wishes, catalog) => ({
      key: 'water',
      says: `Which water: rain, reverse-osmosis, tap, an analysis such as "Ca=40, Mg=11, alkalinity=130", or what the pen shows in it, such as ${shownByPen(wishes)}? Empty: rain.`,
      take: async (answer) => waterOf(answer, wishes, catalog),
    }),
  },
];

/** The wishes with an answer that can be read; without it, where it is empty and may be. */
function told(answer: string, read: Checked<unknown>, now: Wishes, before?: Wishes): Checked<Answered> {
  if (answer.trim() === '' && before !== undefined) return { ok: true, value: { wishes: before }, warnings: [] };
  return read.ok ? { ok: true, value: { wishes: now }, warnings: read.warnings } : read;
}

/** An amount in which a bare gallon may stand until it is asked which. */
function readBare(key: 'mix' | 'kit', answer: string, wishes: Wishes): Checked<Answered> {
  const gallon = wishes.gallon === undefined ? undefined : readWish('gallon', wishes.gallon);
  const named = withGallon(answer, gallon?.ok ? gallon.value : 'US');
  return told(answer, readWish(key as ReadKey & 'mix', named), { ...wishes, [key]: answer }, wishes);
}

function mediumOpen(plants: string, catalog: Catalog): boolean {
  const grown = readGrown(plants, catalog, {});
  return grown.ok && grown.value.some(({ medium }) => medium === null);
}

/** `500 ppm`, `ppm (500)`, `µS`: what a person says of a pen. */
function scaleWords(answer: string): string {
  if (/^(?:none|no|no\s+pen|nothing)$/i.test(answer.trim())) return '';
  if (/^[^\d]*(?:EC|[mµμu]S)\b[^\d]*$/i.test(answer)) return 'EC';
  return /^\D*(\d{3,4})\D*$/.exec(answer)?.[1] ?? answer.trim();
}

const scaleOf = ({ scale }: Wishes): number | null => {
  const read = scale === undefined ? undefined : readWish('scale', scale);
  return read?.ok ? read.value : null;
};

const shownByPen = (wishes: Wishes): string => (scaleOf(wishes) === null ? '0.3 mS/cm' : '150 ppm');

function waterOf(answer: string, wishes: Wishes, catalog: Catalog): Checked<Answered> {
  const reading = /^\s*[\d.,]+\s*(?:[mµμu]S.*|ppm.*)?$/i.test(answer);
  const scale = scaleOf(wishes);
  // on a pen that shows ppm a bare figure is ppm, unless it can only be mS/cm
  const shown = scale !== null && /^\s*\d+\s*$/.test(answer) ? `${answer.trim()} ppm` : answer;
  return reading
    ? told(answer, readWish('readingOfWater', shown, { scale }), { ...wishes, readingOfWater: shown }, wishes)
    : told(answer, readWish('water', answer, { catalog }), { ...wishes, water: [answer] }, wishes);
}
