import { atDoor } from '../door.js';
import type { BatchSpokenOf, WaterSpokenOf } from '../advice/slips/types.js';
import type { CatalogWater } from '../catalog/waters.js';
import type { FeedRequest } from '../feed/request.js';
import type { Water } from '../label/product.js';
import { type Batch, type Reading, type Told, toldOf, waterThatReads } from '../meter/index.js';
import { problem } from '../problem.js';
import type { Litres } from '../units/index.js';
import type { Collected } from './collected.js';
import type { OpenBench } from './opened.js';
import type { Wishes } from './wishes.js';

/** What a can is judged by beside what was said. */
export interface Beside {
  batch: Batch;
  request: FeedRequest;
  readings: readonly Reading[];
  measured: Litres | undefined;
  /** Litres to the brim; null where nobody said. */
  brimLitres: number | null;
}

/** What the grower said he did, on the batch that he meant to make; a water that he took instead is one of the request then. */
export function toldSlips(
  wishes: Wishes,
  open: OpenBench,
  { batch, request, readings, measured, brimLitres }: Beside,
  collected: Collected,
): { told: Told | null; request: FeedRequest } {
  if (wishes.did === undefined) return { told: null, request };
  const meant = batch.meantFor ?? batch.litres;
  const own = [...open.waters, ...(open.bench?.waters ?? [])];
  const tap = tapByPen(open, readings);
  const waters: Water[] = [...own, ...open.catalog.waters, ...tap];
  const { dropsPerMillilitre } = open.kit;
  const spoken: BatchSpokenOf = {
    items: batch.items,
    litres: meant,
    brimLitres,
    waters: batch.waters.map(({ water }) => water.id),
    knownWaters: [...knownWaters(own, open.catalog.waters), ...tap.map((water) => ({ ...TAP, id: water.id }))],
    ...(dropsPerMillilitre === undefined ? {} : { dropsPerMillilitre }),
  };
  const read = collected.wish(wishes, 'did', spoken);
  const volumes = (read?.ways ?? []).flatMap(({ slips }) => slips.filter(({ kind }) => VOLUMES.has(kind)));
  if (measured !== undefined && volumes.length > 0) collected.add(twice(wishes.did));
  collected.settle();
  const told = toldOf(batch, read!, waters);
  const others = told.ways
    .flatMap((way) => way.batch.waters.map(({ water }) => water))
    .filter(({ id }) => request.waters.every((water) => water.id !== id));
  return { told, request: { ...request, waters: [...request.waters, ...new Set(others)] } };
}

const VOLUMES: ReadonlySet<string> = new Set(['litres', 'topping']);

const twice = (did: string) =>
  problem(
    'did',
    { field: '--did' },
    atDoor({ typed: `"${did}" beside --measured`, page: `"${did}" beside how much is in the can` }),
    'how much is in the can once',
    atDoor({ typed: 'Leave --measured out, or what --did says of the water.', page: 'Say it once.' }),
  );

function knownWaters(own: readonly Water[], catalog: readonly CatalogWater[]): WaterSpokenOf[] {
  const synonyms = (id: string): readonly string[] => catalog.find((water) => water.id === id)?.synonyms ?? [];
  return [
    ...[...new Map(own.map((water) => [water.id, water])).values()].map(({ id, name }) => ({
      id,
      names: [name, ...synonyms(id)],
      onBench: true,
    })),
    ...catalog
      .filter(({ id }) => own.every((water) => water.id !== id))
      .map(({ id, name, synonyms: others }) => ({ id, names: [name, ...others], onBench: false })),
  ];
}

const TAP = { names: ['tap', 'tap water', 'mains'], onBench: true };

/** Where no tap is on the bench, a tap water of the usual make-up that reads what the pen shows in the water alone. */
function tapByPen({ catalog, waters }: OpenBench, readings: readonly Reading[]): Water[] {
  const read = readings.find(({ moment }) => moment === 0);
  const usual = catalog.waters.find(({ synonyms }) => synonyms.includes('tap'));
  if (read === undefined || usual === undefined || waters.some(({ id }) => id === usual.id)) return [];
  return [
    {
      ...waterThatReads(usual, read.mSPerCm),
      id: 'tap-by-pen',
      name: 'Tap water (the usual make-up, as strong as the pen read)',
    },
  ];
}
