import { dashed } from '../desk/options/option.js';
import type { OptionKey, Words } from '../desk/options/table.js';
import { type Problem, problem, Refusal } from '../problem.js';
import type { Given } from './command.js';

/** Options that only one of the jobs reads, or some. */
const ONLY: Readonly<Record<'reading' | 'calibrate' | 'weigh' | 'standard', readonly OptionKey[]>> = {
  reading: [
    'did',
    'recipe',
    'sheet',
    'mix',
    'brim',
    'near',
    'closest',
    'bare',
    'atMost',
    'sure',
    'by',
    'feed',
    'plants',
    'medium',
    'phase',
    'strength',
    'rule',
    'nh4',
    'with',
    'without',
    'currency',
  ],
  calibrate: ['product', 'spoon', 'count', 'before', 'after', 'save'],
  weigh: ['product', 'save'],
  standard: ['reads'],
};

/** A scale has no use for what is said of a pen and of water. */
const OF_A_PEN: readonly OptionKey[] = ['scale', 'temperature', 'compensates', 'penFactor', 'measured', 'water'];

export type MeterJob = keyof typeof ONLY;

/** Which of the jobs is asked for, and what stands beside it in vain. @throws Refusal where there is none */
export function jobOf({ words }: Given): { job: MeterJob; problems: Problem[] } {
  const jobs: MeterJob[] = [];
  if (words.reading !== undefined || words.did !== undefined) jobs.push('reading');
  if (words.calibrate) jobs.push('calibrate');
  if (words.weigh !== undefined) jobs.push('weigh');
  if (words.standard !== undefined) jobs.push('standard');
  const [job] = jobs;
  if (job === undefined) throw new Refusal([noReading()]);
  const said = jobs.map((name) => `--${name}`).join(' and ');
  const two = jobs.length > 1 ? [problem('two-jobs', {}, said, 'one of them', 'Ask for one at a time.')] : [];
  return { job, problems: [...two, ...idle(words, job)] };
}

const noReading = (): Problem =>
  problem(
    'no-reading',
    { field: '--reading' },
    'no reading',
    'a reading of the pen, or what was done',
    'Add --reading 0.46 or --did "base forgotten", or ask for --weigh, --calibrate or --standard.',
  );

/** Options that have no say in the job asked for. */
function idle(words: Words, job: MeterJob): Problem[] {
  const others = (Object.keys(ONLY) as MeterJob[]).filter((other) => other !== job).flatMap((other) => ONLY[other]);
  const idle = [...new Set([...others, ...(job === 'weigh' ? OF_A_PEN : [])])];
  return idle
    .filter((name) => words[name] !== undefined && !ONLY[job].includes(name))
    .filter((name) => !((job === 'calibrate' || job === 'weigh') && (name === 'with' || name === 'without')))
    .map((name) =>
      problem(
        'beside-job',
        { field: dashed(name) },
        `${dashed(name)} beside --${job}`,
        'options that have a say in it',
        `Leave ${dashed(name)} out.`,
      ),
    );
}
