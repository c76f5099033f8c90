import type { GivenResult } from '../blend/given-types.js';
import type { BlendResult, UnfedFeed } from '../feed/results.js';
import type { PrintedLabel } from '../label/printed-label.js';
import { type Problem, problemLine } from '../problem.js';
import { blendSheet } from './blend.js';
import { figure } from './figures.js';
import type { PenScale } from './mix.js';
import { assumedSays } from './says/start.js';
import { type Block, heading, list, paragraph, section, type Sheet, table } from './sheet.js';
import type { Assumed } from './start-assumed.js';
import { unfedSheet } from './unfed.js';

/** A label as it went on a shelf. */
export interface LabelRead extends Pick<PrintedLabel, 'understood' | 'leftOver'> {
  /** The label as it was given. */
  text: string;
  id: string;
  name: string;
  form: 'powder' | 'liquid';
  basis: 'w/w' | 'w/v';
  /** g/mL of a liquid; null where nobody knows or needs it. */
  density: number | null;
  derivedFrom: readonly string[];
  doubts: readonly Problem[];
}

/** What `start` answers. */
export interface StartResult {
  status: 'made';
  /** The folder as the grower wrote it. */
  folder: string;
  files: readonly string[];
  labels: readonly LabelRead[];
  assumed: readonly Assumed[];
  /** What the shelf makes of each feed. */
  cans: readonly (GivenResult | BlendResult)[];
  unfed: readonly UnfedFeed[];
  pen: PenScale | null;
}

/** What was written, understood and assumed, and the cans that the shelf makes. `told` are the texts of labels that were shown before. */
export function startSheets(result: StartResult, told: ReadonlySet<string> = new Set()): Sheet[] {
  const { folder, files, labels, assumed, cans, unfed, pen } = result;
  const here = folder === '.' ? '' : ` --bench ${/^[\w./-]+$/.test(folder) ? folder : JSON.stringify(folder)}`;
  const written = files.filter((name) => !name.endsWith('.json'));
  return [
    {
      title: `${folder === '.' ? 'This folder' : folder} is a bench: ${written.toReversed().join(' and ')} are written`,
      blocks: [
        ...labels.filter(({ text, understood }) => !told.has(text) && understood.length > 0).flatMap(labelBlocks),
        ...section('What was assumed, for nobody told it', assumed.map(assumedSays)),
        heading('Your shelf makes these cans'),
      ],
    },
    ...unfed.map(unfedSheet),
    ...cans.map((can) => canSheet(can, pen, folder)),
    {
      title: 'What next',
      blocks: [
        list([
          ...(!cans.every(isKept) ? ['What would help where a can is not made: blend tells it.'] : []),
          `Before you mix: the sheet has the order, what the pen should show, and every caution. The label comes first; start weak, on a few plants.`,
          `What is still doubtful is told by check. Prices and packs in ${written[0]} make it thrifty.`,
        ]),
        ...(!cans.every(isKept) ? [{ kind: 'command' as const, text: `velamen blend${here}` }] : []),
        { kind: 'command', text: `velamen sheet${here}` },
        { kind: 'command', text: `velamen check${here}` },
      ],
    },
  ];
}

/** A can that these tools make within its limits. */
const isKept = (can: GivenResult | BlendResult): boolean =>
  can.status === 'made' && (!('given' in can) || can.given.plan.status === 'kept');

/** What was understood beside what was printed. */
export function labelBlocks({
  id,
  name,
  form,
  basis,
  density,
  understood,
  leftOver,
  derivedFrom,
  doubts,
}: LabelRead): Block[] {
  if (understood.length === 0) return [paragraph(`${name}, from the catalog.`)];
  const rows = understood.map(({ printed, column, percent }) => [printed, `${column} ${figure(percent)} %`]);
  const made = derivedFrom.length === 0 ? 'a list of salts is missing' : `made from ${derivedFrom.join(', ')}`;
  const liquid = `A liquid, ${basis === 'w/v' ? 'g in 100 mL' : '% by weight'}${density === null ? '' : `, ${figure(density)} g/mL`}`;
  return [
    heading(name === id ? id : `${id}: ${name}`),
    table(['printed', 'understood'], rows),
    paragraph(`${form === 'liquid' ? liquid : 'A powder'}; ${made}.`),
    list([
      ...leftOver.map((text) => `"${text}" stands beside no nutrient, and is not used.`),
      ...doubts.map(problemLine),
    ]),
  ].filter((block) => block.kind !== 'list' || block.items.length > 0);
}

/** The first lines of what `blend` says of it: what goes in, or what comes nearest and what would help. */
function canSheet(can: GivenResult | BlendResult, pen: PenScale | null, folder: string): Sheet {
  const { title, blocks } = blendSheet(can, pen, false, folder === '.' ? {} : { bench: folder });
  const first = blocks.filter((block) => !block.full);
  const end = first.findIndex(
    (block) => block.kind === 'bars' || (block.kind === 'heading' && /^(?:Take care|Proof)/.test(block.text)),
  );
  const shown = end < 0 ? first : first.slice(0, first[end]!.kind === 'bars' ? end - 1 : end);
  return { title, blocks: shown };
}

/** The same as one report. */
export function startSheet(result: StartResult): Sheet {
  const [first, ...others] = startSheets(result);
  return {
    title: first!.title,
    blocks: [...first!.blocks, ...others.flatMap(({ title, blocks }) => [heading(title), ...blocks])],
  };
}
