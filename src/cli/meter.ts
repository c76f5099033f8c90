import { type Problem, problem } from '../problem.js';
import { Collected } from './collect.js';
import type { Command, Given } from './command.js';
import { FEED_OPTIONS, SHELF_OPTIONS } from './feed-options.js';
import { calibrate } from './meter-calibrate.js';
import { judgeReadings } from './meter-judge.js';
import { standard } from './meter-standard.js';

const { volume: _, ...ON_A_FEED } = FEED_OPTIONS;

/** Options that only one of the three jobs reads. */
const ONLY: Readonly<Record<'reading' | 'calibrate' | 'standard', readonly string[]>> = {
  reading: [
    'recipe',
    'batch',
    'can',
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

/** A reading judged, a spoon weighed by the pen, the pen itself checked. */
export const meterCommand: Command = {
  name: 'meter',
  summary: 'judge a reading, rescue a can, weigh a spoon with the pen, check the pen',
  examples: [
    {
      line: 'velamen meter --bench examples/moss-without-ammonium --reading "155 ppm"',
      says: 'within tolerance, or what probably happened and what to do',
    },
    {
      line: 'velamen meter --bench examples/moss-without-ammonium --reading "1: 0.02" --reading "2: 0.09" --reading "3: 0.41" --reading "4: 0.45"',
      says: 'readings after several steps of the sheet, taken together',
    },
    {
      line: 'velamen meter --calibrate --bench examples/moss-without-ammonium --product potassium-nitrate --spoon "1/4 tsp" --count 4 --before 0.02 --after 1.62 --volume "4 L"',
      says: 'what one level spoon of it weighs, by the pen; --save keeps it on the shelf',
    },
    { line: 'velamen meter --standard "1413 µS" --reads 1350', says: 'whether the pen is right, and its factor' },
  ],
  about: [
    'Steps are numbered as on the sheet: 1 is the water, 2 the first item; a reading without a step, or with "end:", is that of the full can. A bare number is mS/cm; from 5 up, on a pen with a ppm scale, it is ppm.',
    'The remedy is the least wasteful that brings every limit back, found by a linear program. With --json its status is `feed` (as it is), `improve` (good to feed, yet a few steps save many such cans more), `rescue` (do the steps, then feed), `check first` (explanations as likely ask for different things: find out which it was, or do the steps told last) or `do not feed`.',
    'Exit code 3 where nothing saves the can (`do not feed`), or where the readings are beyond every mistake that was considered (no remedy at all). Readings are taken as corrected to 25 °C unless --temperature and --compensates no say otherwise.',
  ],
  options: {
    reading: {
      value: 'READING',
      says: 'what the pen shows: 0.46, "230 ppm", "2: 0.21", "end: 0.46"',
      repeatable: true,
    },
    scale: {
      value: 'SCALE',
      says: 'what the pen shows: EC, or ppm on the 500, 640 or 700 scale (default: the bench’s pen)',
    },
    temperature: { value: 'TEMP', says: 'temperature of the can or of the standard: "15 °C"' },
    compensates: {
      value: 'YES/NO',
      says: 'whether the pen corrects for temperature (default: taken as yes, and doubted)',
    },
    'pen-factor': { value: 'FACTOR', says: 'what --standard found: every reading is multiplied by it' },
    volume: { value: 'AMOUNT', says: 'water in the can, where you measured it (default: the batch of the feed)' },
    batch: { value: 'AMOUNT', says: 'the doses of `sheet --can AMOUNT` (default: the batch of the feed)' },
    can: { value: 'AMOUNT', says: 'what the can holds to the brim (default: a quarter more than the batch)' },
    recipe: {
      value: 'RECIPE',
      says: 'what was to go in, instead of the doses of the sheet: "1.2 g base + 0.5 g cal in 4 L"',
    },
    closest: { says: 'the doses of `sheet --closest`' },
    'at-most': { value: 'K', says: 'the doses of `sheet --at-most K`' },
    sure: { value: 'SHARE', says: 'the doses of `sheet --sure SHARE`' },
    calibrate: { says: 'weigh a spoon with the pen: --product, --spoon, --count, --before, --after, --volume' },
    product: { value: 'ID', says: 'the product that was spooned in' },
    spoon: { value: 'SPOON', says: 'the spoon: "1/4 tsp"' },
    count: { value: 'N', says: 'how many level spoons of it' },
    before: { value: 'READING', says: 'the reading of the water before' },
    after: { value: 'READING', says: 'the reading after' },
    save: { says: 'write the bulk density onto the shelf' },
    standard: { value: 'EC', says: 'check the pen in a standard: "1413 µS"' },
    reads: { value: 'READING', says: 'what the pen shows in it, in the standard’s unit or in ppm' },
    ...ON_A_FEED,
    ...SHELF_OPTIONS,
  },
  async run(given, io) {
    const collected = new Collected();
    const job = jobOf(given, collected);
    collected.add(...idle(given, job));
    if (job === 'standard') return standard(given, collected);
    if (job === 'calibrate') return calibrate(given, io, collected);
    return judgeReadings(given, io, collected);
  },
};

type Job = keyof typeof ONLY;

function jobOf(given: Given, collected: Collected): Job {
  const jobs: Job[] = [];
  if (given.texts('reading').length > 0) jobs.push('reading');
  if (given.flag('calibrate')) jobs.push('calibrate');
  if (given.text('standard') !== undefined) jobs.push('standard');
  if (jobs.length > 1) {
    const words = jobs.map((job) => `--${job}`).join(' and ');
    collected.add(problem('two-jobs', {}, words, 'one of them', 'Ask for one at a time.'));
  }
  if (jobs.length === 0) {
    collected.add(
      problem(
        'no-reading',
        { field: '--reading' },
        'no reading',
        'a reading of the pen',
        'Add --reading 0.46, or ask for --calibrate or --standard.',
      ),
    );
    collected.settle();
  }
  return jobs[0]!;
}

/** Options that have no say in the job asked for. */
function idle(given: Given, job: Job): Problem[] {
  return (Object.keys(ONLY) as Job[])
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
