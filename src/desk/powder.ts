import { atDoor } from '../door.js';
import type { Product } from '../label/product.js';
import { type Problem, problem } from '../problem.js';
import { BOUNDS } from '../units/index.js';
import type { Collected } from './collected.js';
import type { OpenBench } from './opened.js';
import type { Wishes } from './wishes.js';

/** A liquid has no spoon to weigh. */
export function refuseLiquid({ id, form }: Product, field: string, collected: Collected): void {
  if (form !== 'powder')
    collected.add(
      problem('not-a-powder', { field }, `${id}, a liquid`, 'a powder', 'A syringe measures a liquid well enough.'),
    );
}

/** What is kept has to stand on the shelf. */
export function refuseUnshelved({ save }: Wishes, { id }: Product, { shelf }: OpenBench, collected: Collected): void {
  if (save && !shelf.products.some((product) => product.id === id))
    collected.add(
      problem(
        'not-on-shelf',
        { field: '--save' },
        `${id}, which is not on the shelf`,
        'a product of shelf.csv',
        atDoor({ typed: 'Put it on the shelf first, or leave --save out.', page: 'Put it on the shelf first.' }),
      ),
    );
}

/** A weight that no level powder has. */
export const noSuchPowder = (field: string, found: string, fix: string): Problem =>
  problem(
    'no-such-powder',
    { field },
    found,
    `a level powder, ${BOUNDS.bulkDensity.least} to ${BOUNDS.bulkDensity.most} g/mL`,
    fix,
  );
