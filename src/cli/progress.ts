import type { Given } from './command.js';
import type { Io } from './io.js';
import type { PurchaseStep } from '../purchase/types.js';
import { purchaseStepSays } from '../report/says/purchase.js';

/** A line that tells what is being sought, on a terminal only, and is gone when the result is printed. */
export interface Progress {
  step: (step: PurchaseStep) => void;
  done: () => void;
}

/** None where the output is read by a program or the terminal cannot take a line back. */
export function progress({ outputs }: Given, io: Io): Progress {
  if (!io.isTTY || outputs.print !== 'txt' || io.env.TERM === 'dumb') return { step: () => {}, done: () => {} };
  const width = Math.max(20, (io.columns ?? 80) - 1);
  return {
    step: (step) => io.stderr(`\r\u001b[K${`seeking ${purchaseStepSays(step)} …`.slice(0, width)}`),
    done: () => io.stderr('\r\u001b[K'),
  };
}
