import type { Catalog } from '../../catalog/catalog.js';
import { type Checked, problem, Refusal } from '../../problem.js';
import { formatNumber, isWithin, readPlainNumber } from '../../units/index.js';
import type { Wishes } from '../wishes.js';
import type { Answered, Question } from './question.js';
import { startBench } from './start-bench.js';
import { saltTwice } from './salt-row.js';
import { readStartLabel, type StartLabel } from './start-label.js';

/** What to ask next of labels: what the last one leaves open, or the next one; null where there are no more. */
export function labelQuestion(wishes: Wishes, answered: ReadonlySet<string>, catalog: Catalog): Question | null {
  const labels = wishes.label ?? [];
  const last = labels.at(-1);
  const read = last === undefined ? null : readStartLabel(last, labels.length, catalog, {});
  const open = read?.ok ? openOf(read.value, labels, wishes, catalog).find(({ key }) => !answered.has(key)) : undefined;
  if (open) return open;
  const key = `label ${labels.length + 1}`;
  return answered.has(key) ? null : nextLabel(key, labels, wishes, catalog);
}

function nextLabel(key: string, labels: readonly string[], wishes: Wishes, catalog: Catalog): Question {
  const first = labels.length === 0;
  const says = first
    ? 'Your first label: type or paste what it prints of its analysis, with what it is derived from, then an empty line. A plain salt by its name will do: Epsom salt, potassium nitrate.'
    : 'The next label, or an empty line where that is all.';
  const take = async (answer: string): Promise<Checked<Answered>> =>
    answer.trim() === '' && !first
      ? { ok: true, value: { wishes }, warnings: [] }
      : withLabel(answer, { ...wishes, label: [...labels, answer] }, catalog);
  return { key, says, block: true, take };
}

/** The questions that a label leaves open. */
function openOf(label: StartLabel, labels: readonly string[], wishes: Wishes, catalog: Catalog): Question[] {
  const text = labels.at(-1)!;
  const replaced = (by: string): Wishes => ({ ...wishes, label: [...labels.slice(0, -1), by] });
  const asked = (about: string, says: string, change: (answer: string) => Checked<string>): Question => ({
    key: `${about} ${labels.length}`,
    says,
    take: async (answer) => {
      if (answer.trim() === '') return { ok: true, value: { wishes }, warnings: [] };
      const now = change(answer.trim());
      return now.ok ? withLabel(now.value, replaced(now.value), catalog) : now;
    },
  });
  const salt = label.assumed.find((one) => one.of === 'salt');
  const density = label.assumed.find((one) => one.of === 'density');
  return [
    ...(label.nameOpen ? [asked('name', 'What is it called?', (answer) => taken(`${answer}\n${text}`))] : []),
    ...(density ? [asked('liquid', liquidSays(density.gramsPerMillilitre), (answer) => liquidText(answer, text))] : []),
    ...(salt && salt.others.length > 0
      ? [
          asked(
            'salt',
            `Which one: ${[salt.id, ...salt.others].join(' or ')}? The label tells. Empty: ${salt.id}.`,
            taken,
          ),
        ]
      : []),
  ];
}

const liquidSays = (likely: number): string =>
  `A liquid: does its % count g in 100 mL (then say w/v), or weight (then say what it weighs: 1.15 g/mL, 9.6 lb/gal)? Empty: by weight, about ${formatNumber(likely)} g/mL.`;

const taken = (value: string): Checked<string> => ({ ok: true, value, warnings: [] });

function liquidText(answer: string, text: string): Checked<string> {
  if (/^[wm]\s*\/?\s*v\b|volume|100\s*ml/i.test(answer)) return taken(`${text}\n% w/v`);
  if (/lb|pound/i.test(answer)) return taken(`${text}\nWeighs ${/gal/i.test(answer) ? answer : `${answer} per gal`}`);
  const said = readPlainNumber(answer.replace(/\s*(?:k?g\s*\/\s*(?:m?l)|sg)\s*$/i, ''));
  if (said.ok && isWithin('density', said.value)) return taken(`${text}\nDensity ${formatNumber(said.value)} g/mL`);
  return {
    ok: false,
    problems: [
      problem(
        'liquid',
        {},
        `"${answer}"`,
        'w/v, or what a mL weighs, from 0.7 to 2 g',
        'Write w/v, 1.15 g/mL or 9.6 lb/gal.',
      ),
    ],
  };
}

/** The wishes with a label that a shelf can hold, and how it was read. */
async function withLabel(text: string, wishes: Wishes, catalog: Catalog): Promise<Checked<Answered>> {
  try {
    const { result } = await startBench({ label: [text] }, '', catalog);
    const twice = saltTwice(wishes.label ?? [], catalog);
    if (twice) return { ok: false, problems: [twice] };
    const read = result.labels[0]!;
    // the row is not written yet
    const doubts = read.doubts.map((found) => ({ ...found, where: { field: found.where.field ?? read.id } }));
    return { ok: true, value: { wishes, label: { ...read, doubts } }, warnings: [] };
  } catch (fault) {
    if (fault instanceof Refusal) return { ok: false, problems: [...fault.problems] };
    throw fault;
  }
}
