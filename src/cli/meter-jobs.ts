import { type Problem, problem, Refusal } from '../problem.js';
import type { Given } from './command.js';

/** Options that only one of the three jobs reads. */
const ONLY: Readonly<Record<'reading' | 'calibrate' | 'standard', readonly string[]>> = {
  reading: [
    'recipe',
    'mix',
    'brim',
    'closest',
    'at-most',
    'sure',
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
  standard: ['reads'],
};

export type MeterJob = keyof typeof ONLY;

/** Which of the three jobs is asked for, and what stands beside it in vain. @throws Refusal where there is none */
export function jobOf(given: Given): { job: MeterJob; problems: Problem[] } {
  const jobs: MeterJob[] = [];
  if (given.texts('reading').length > 0) jobs.push('reading');
  if (given.flag('calibrate')) jobs.push('calibrate');
  if (given.text('standard') !== undefined) jobs.push('standard');
  const [job] = jobs;
  if (job === undefined) throw new Refusal([noReading()]);
  const words = jobs.map((name) => `--${name}`).join(' and ');
  const two = jobs.length > 1 ? [problem('two-jobs', {}, words, 'one of them', 'Ask for one at a time.')] : [];
  return { job, problems: [...two, ...idle(given, job)] };
}

const noReading = (): Problem =>
  problem(
    'no-reading',
    { field: '--reading' },
    'no reading',
    'a reading of the pen',
    'Add --reading 0.46, or ask for --calibrate or --standard.',
  );

/** Options that have no say in the job asked for. */
function idle(given: Given, job: MeterJob): Problem[] {
  return (Object.keys(ONLY) as MeterJob[])
    .filter((other) => other !== job)
    .flatMap((other) => ONLY[other].filter((name) => given.named().includes(name) && !ONLY[job].includes(name)))
    .filter((name) => !(job === 'calibrate' && (name === 'with' || name === 'without')))
    .map((name) =>
      problem(
        'beside-job',
        { field: `--${name}` },
        `--${name} beside --${job}`,
        'options that have a say in it',
        `Leave --${name} out.`,
      ),
    );
}
