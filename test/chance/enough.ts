import type { NotSureEnough, SureDoses, SureEnough } from '../../src/chance/robust-types.js';

/** Doses that must be there, sure enough or not. */
export function counted(found: SureDoses): SureEnough | NotSureEnough {
  if (found.status === 'no feed') throw new Error('no feed');
  return found;
}

/** Doses that must be sure enough. */
export function reached(found: SureDoses): SureEnough {
  if (found.status !== 'reached') throw new Error(found.status);
  return found;
}

/** Doses that must fall short. */
export function short(found: SureDoses): NotSureEnough {
  if (found.status !== 'short') throw new Error(found.status);
  return found;
}
