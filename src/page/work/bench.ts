import { readBench } from '../../catalog/bench.js';
import { readProducts } from '../../catalog/shelf.js';
import { shippedCatalog } from '../../desk/shipped-catalog.js';
import type { Problem } from '../../problem.js';
import type { BenchTexts } from '../state.js';
import { filesOf } from './files.js';

/** What stands in the files of a bench, as far as it can be read, with every Problem. */
export interface BenchView {
  name: string;
  currency: string;
  feeds: { name: string; plants: string; medium: string; phase: string; line: number }[];
  products: { id: string; name: string; form: 'powder' | 'liquid'; line: number }[];
  /** What the pen shows: `EC`, or the ppm per mS/cm; null where the bench names none. */
  pen: 'EC' | number | null;
  problems: Problem[];
}

export async function benchQuestion({ texts }: { texts: BenchTexts }): Promise<BenchView> {
  const { bench, shelf } = filesOf(texts);
  const read = bench ? readBench(bench.text, bench.name, shippedCatalog()) : undefined;
  const stock = shelf ? readProducts(shelf.text, shelf.name) : undefined;
  const there = read?.ok ? read.value : undefined;
  return {
    name: there?.name ?? '',
    currency: there?.currency ?? '',
    feeds: (there?.feeds ?? []).map(({ name, plants, medium, phase, where }) => ({
      name,
      plants,
      medium,
      phase,
      line: where.line ?? 0,
    })),
    products: (stock?.ok ? stock.value : []).map(({ id, name, form, where }) => ({
      id,
      name: name || id,
      form,
      line: where.line ?? 0,
    })),
    pen: !there?.namesPen ? null : there.pen.reads === 'EC' ? 'EC' : there.pen.scale,
    problems: [read, stock].flatMap((one) => (one === undefined ? [] : one.ok ? one.warnings : one.problems)),
  };
}
