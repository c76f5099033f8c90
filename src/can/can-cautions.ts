import type { AlkalinityLine } from './alkalinity.js';
import type { AmmoniaLine } from './can-lines.js';
import type { IronLine } from './iron.js';

/** What a can's own chemistry calls for, with its figures. */
export type CanCaution =
  | ({ code: 'free-ammonia' } & AmmoniaLine)
  | ({ code: 'iron-not-held' } & IronLine)
  | ({ code: 'alkalinity' } & AlkalinityLine);

/** The most pressing first. */
export const CAN_CAUTIONS = ['free-ammonia', 'iron-not-held', 'alkalinity'] as const;

/** Free ammonia above its cautious end, iron whose chelate does not hold, alkalinity beyond what the medium bears. */
export function canCautions({
  ammonia,
  iron,
  alkalinity,
}: {
  ammonia: AmmoniaLine;
  iron: IronLine | null;
  alkalinity: AlkalinityLine | null;
}): CanCaution[] {
  return [
    ...(Math.max(ammonia.mgPerLitre, ammonia.standing) > ammonia.most
      ? [{ code: 'free-ammonia', ...ammonia } as const]
      : []),
    ...(iron !== null && iron.held < iron.mgPerLitre ? [{ code: 'iron-not-held', ...iron } as const] : []),
    ...(alkalinity?.over ? [{ code: 'alkalinity', ...alkalinity } as const] : []),
  ];
}

/** Of several cans that are one feed at several strengths: each caution once, at its worst. */
export function worstOfCans(cautions: readonly CanCaution[]): CanCaution[] {
  return CAN_CAUTIONS.flatMap((code) => {
    const such = cautions.filter((caution) => caution.code === code);
    return such.sort((a, b) => severity(b) - severity(a)).slice(0, 1);
  });
}

function severity(caution: CanCaution): number {
  switch (caution.code) {
    case 'free-ammonia':
      return Math.max(caution.mgPerLitre, caution.standing);
    case 'iron-not-held':
      return caution.mgPerLitre - caution.held;
    case 'alkalinity':
      return caution.mgCaCO3PerLitre;
  }
}

/** The cautions of products with those of the can that they make, which come after what the products call for. */
export function withCan<Other extends { code: string }>(
  cautions: readonly Other[],
  can: Parameters<typeof canCautions>[0] | null,
): (Other | CanCaution)[] {
  const at = cautions.findIndex(
    ({ code }) => code === 'copper-in-bromeliads' || code === 'carnivorous-roots' || code === 'start-weak',
  );
  return can === null ? [...cautions] : [...cautions.slice(0, at), ...canCautions(can), ...cautions.slice(at)];
}
