import type { Avoiding, Sequence } from '../../can/sequence.js';
import { cloudingSays } from './clouding.js';

/** What the order of mixing had to avoid, or could not, and what the finished can may precipitate. */
export const orderLines = ({ avoiding, cloudy }: Pick<Sequence, 'avoiding' | 'cloudy'>): string[] => [
  ...avoidingLines(avoiding),
  ...cloudy.map((line) => capital(cloudingSays(line))),
];

function avoidingLines(avoiding: Avoiding): string[] {
  switch (avoiding.kind) {
    case 'nothing':
      return [];
    case 'full can':
      return [`Fill to the mark before the ${avoiding.before.name}: in three quarters of the water it could cloud.`];
    case 'other order':
      return [
        'The usual order would cloud on the way: keep to this one, and fill to the mark before anything goes in.',
      ];
    case 'unavoidable':
      return [
        'No order keeps the can clear all the way: fill to the mark before anything goes in, and stir hard between the steps.',
      ];
    default:
      return avoiding satisfies never;
  }
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
