import type { Shown, SpoonWeight, Suspect } from '../../meter/index.js';

/** Another explanation of what a pen shows in a standard, as a clause. */
export function suspectSays(suspect: Suspect): string {
  switch (suspect.kind) {
    case 'scale':
      return `a pen on the ${suspect.name} scale would show this`;
    case 'thousands of ppm':
      return `a pen that shows thousands of ppm on the ${suspect.scale} scale would show this`;
    case 'no temperature correction':
      return 'a pen that does not correct for temperature would show this';
    default:
      return suspect satisfies never;
  }
}

/** Where the uncertainty of a weighed spoon comes from. */
export const spreadSourceSays = (source: SpoonWeight['from'][number]['source'], count: number): string =>
  source === 'spoons' ? `${count} level spoon${count === 1 ? '' : 's'}` : `the ${source}`;

/** `0.46 mS/cm`, `230 ppm (500 scale)`. */
export const shownSays = ({ figure, unit, scale }: Shown): string =>
  scale === null ? `${figure} ${unit}` : `${figure} ${unit} (${scale} scale)`;
