import type { MixingSheet } from '../../sheet/sheet-types.js';
import type { Slip } from '../../sheet/off.js';
import { figure } from '../figures.js';
import { ecNumber, litresText, markText, number, range } from './readings.js';
import { formatFixed, roundDigits } from '../../units/index.js';

/** One rung of the readings at the end, from low to high: what is seen, and what it may mean for this very batch. */
export interface Rung {
  /** In the unit of the pen. */
  pen: string;
  ec: string;
  says: string;
  /** True for the rung of a good batch. */
  right: boolean;
}

/** "If the reading is off": slips that a pen can see, and the right reading among them, from low to high. */
export function ladderOf(sheet: MixingSheet): Rung[] {
  const { end, slips, pen } = sheet;
  const seen = slips.filter((slip) => slip.shows);
  const rungs = seen.map((slip) => ({ at: placeOf(slip, pen), rung: rungOf(slip, sheet) }));
  const right: Rung = {
    pen: range(end.reading, pen),
    ec: `${ecNumber(end.reading.low)} to ${ecNumber(end.reading.high)}`,
    says: 'as it should be',
    right: true,
  };
  return [...rungs, { at: end.reading.mSPerCm, rung: right }].sort((a, b) => a.at - b.at).map(({ rung }) => rung);
}

/** Where a slip stands among the readings: a wrong scale shows numbers that the right scale would show at another EC. */
function placeOf(slip: Slip, pen: MixingSheet['pen']): number {
  if (slip.scale === null) return slip.mSPerCm;
  return pen === 'EC' ? Number.MAX_VALUE * (slip.scale / 1000) : slip.pen! / pen;
}

function rungOf(slip: Slip, sheet: MixingSheet): Rung {
  const ec = ecNumber(slip.mSPerCm);
  const value = slip.scale === null ? number(slip.mSPerCm, sheet.pen) : formatFixed(slip.pen!, 0);
  return { pen: value, ec, says: sayOf(slip, sheet), right: false };
}

function sayOf(slip: Slip, { steps, firstLitres, litres, pen }: MixingSheet): string {
  const name = steps.find((step) => step.id === slip.id)?.name ?? '';
  switch (slip.slip) {
    case 'not topped up':
      return `not topped up: still at ${markText(Math.min(firstLitres, 0.75 * litres), litres)}`;
    case 'too much water':
      return slip.millilitres === null
        ? '10 % low: too little measured in, for no can here holds so much more water'
        : `10 % low: about ${water(slip)} of water too much`;
    case 'too little water':
      return `10 % high: about ${water(slip)} of water missing`;
    case 'forgotten':
      return `${name} forgotten`;
    case 'twice':
      return `${name} taken twice`;
    case 'wrong scale':
      if (slip.scale === 1000) return 'pen set to µS/cm: all is well';
      return pen === 'EC'
        ? `pen set to ppm on the ${slip.scale} scale: all is well`
        : `pen on the ${slip.scale} scale: all is well`;
    case 'not compensated':
      return `can at ${figure(slip.celsius ?? 0)} °C, and the pen does not correct for it`;
    default:
      return slip.slip satisfies never;
  }
}

/** To two digits: a bucket is no measuring cylinder. */
const water = (slip: Slip): string => {
  const millilitres = Math.abs(slip.millilitres ?? 0);
  return litresText(roundDigits(millilitres, 2) / 1000);
};
