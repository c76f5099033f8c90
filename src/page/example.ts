import bench from '../../examples/moss-without-ammonium/bench.yaml';
import shelf from '../../examples/moss-without-ammonium/shelf.csv';
import type { BenchTexts } from './state.js';

/** What a first visit shows: an invented bench that works. */
export const EXAMPLE: BenchTexts = { 'bench.yaml': bench, 'shelf.csv': shelf };
