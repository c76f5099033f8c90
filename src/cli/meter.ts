import { type Command, OUT } from './command.js';
import { A_FEED, A_SHELF } from './feed-options.js';
import { jobOf } from './meter-jobs.js';
import { calibrate, judged, standard, weigh } from './meter-run.js';

/** A reading judged, a spoon weighed by a scale or by the pen, the pen itself checked. */
export const meterCommand: Command = {
  name: 'meter',
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
      line: 'velamen meter --bench examples/moss-without-ammonium --did "potassium nitrate twice"',
      says: 'what to do with a can that was made otherwise than planned, with or without a reading',
    },
    {
      line: 'velamen meter --calibrate --bench examples/moss-without-ammonium --product potassium-nitrate --spoon "1/4 tsp" --count 4 --before 0.02 --after 1.62 --measured "4 L"',
      says: 'what one level spoon of it weighs, by the pen; --save keeps it on the shelf',
    },
    {
      line: 'velamen meter --weigh "ten level 1/4 tsp of sample-calcium weigh 11.2 g" --bench examples/moss-without-ammonium',
      says: 'the same on a kitchen scale',
    },
    { line: 'velamen meter --standard "1413 µS" --reads 1350', says: 'whether the pen is right, and its factor' },
  ],
  about: [
    'Steps are numbered as on the sheet: 1 is the water, 2 the first item; a reading without a step, or with "end:", is that of the full can. A bare number is mS/cm; from 5 up, on a pen with a ppm scale, it is ppm.',
    'The doses that a can is judged by are those of `sheet` with the same --mix, --near, --sure, --by, --at-most, --closest or --bare, or those of --recipe; with --sheet and the code of a sheet they are that sheet’s, for as much as it was for.',
    'The first line is the answer: feed it, top up first, find something out first, or do not feed; then what to do, then why; --full tells the rest. The remedy is the least wasteful that brings every limit back, found by a linear program. With --json `verdict` is the answer and the status of the remedy is `feed` (as it is), `improve` (good to feed, yet a few steps save many such cans more), `rescue` (do the steps, then feed), `check first` (explanations as likely ask for different things: find out which it was, or do the steps told last) or `do not feed`.',
    'Exit code 3 where nothing saves the can (`do not feed`), or where the readings are beyond every mistake that was considered (no remedy at all). Readings are taken as corrected to 25 °C unless --temperature and --compensates no say otherwise.',
  ],
  options: [
    'reading',
    'did',
    'scale',
    'temperature',
    'compensates',
    'penFactor',
    'measured',
    'mix',
    'brim',
    'recipe',
    'sheet',
    'near',
    'closest',
    'bare',
    'atMost',
    'sure',
    'by',
    'weigh',
    'calibrate',
    'product',
    'spoon',
    'count',
    'before',
    'after',
    'save',
    'standard',
    'reads',
    ...A_FEED,
    ...A_SHELF,
    'full',
    ...OUT,
  ],
  async run(given, io) {
    const { job, problems } = jobOf(given);
    if (job === 'standard') return standard(given, problems);
    if (job === 'weigh') return weigh(given, io, problems);
    if (job === 'calibrate') return calibrate(given, io, problems);
    return judged(given, io, problems);
  },
};
