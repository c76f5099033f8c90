import type { Command } from './command.js';
import { FEED_OPTIONS, SHELF_OPTIONS } from './feed-options.js';
import { jobOf } from './meter-jobs.js';
import { calibrate, judged, standard } from './meter-run.js';

const { mix: _, ...ON_A_FEED } = FEED_OPTIONS;

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
      line: 'velamen meter --calibrate --bench examples/moss-without-ammonium --product potassium-nitrate --spoon "1/4 tsp" --count 4 --before 0.02 --after 1.62 --measured "4 L"',
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
    measured: { value: 'AMOUNT', says: 'water in the can, where you measured it (default: the batch of the feed)' },
    mix: { value: 'AMOUNT', says: 'the doses of `sheet --mix AMOUNT` (default: the batch of the feed)' },
    brim: { value: 'AMOUNT', says: 'what the can holds to the brim (default: a quarter more than the batch)' },
    recipe: {
      value: 'RECIPE',
      says: 'what was to go in, instead of the doses of the sheet: "1.2 g base + 0.5 g cal in 4 L"',
    },
    closest: { says: 'the doses of `sheet --closest`' },
    'at-most': { value: 'K', says: 'the doses of `sheet --at-most K`' },
    sure: { value: 'SHARE', says: 'the doses of `sheet --sure SHARE`' },
    calibrate: { says: 'weigh a spoon with the pen: --product, --spoon, --count, --before, --after, --measured' },
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
    const { job, problems } = jobOf(given);
    if (job === 'standard') return standard(given, problems);
    if (job === 'calibrate') return calibrate(given, io, problems);
    return judged(given, io, problems);
  },
};
