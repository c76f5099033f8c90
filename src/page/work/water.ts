import { waterByPen } from '../../desk/water-by-pen.js';
import { figure } from '../../report/figures.js';
import type { BenchTexts } from '../state.js';
import { benchQuestion } from './bench.js';

/** The usual water that reads like the grower's, as bench.yaml names it, and what is to be known of it. */
export interface WaterView {
  id: string;
  says: string;
}

/** @param asked reading: what the pen shows of the plain water, as typed: `120 ppm`, `240 µS`, or bare as the bench's pen prints it */
export async function waterQuestion({ texts, reading }: { texts: BenchTexts; reading: string }): Promise<WaterView> {
  const { pen } = await benchQuestion({ texts });
  const { id, name, mSPerCm, readsMSPerCm } = waterByPen(reading, pen === 'EC' ? null : pen);
  const says = `${figure(mSPerCm)} mS/cm: the water is taken for ${name}, which reads ${figure(readsMSPerCm)}. A pen does not tell calcium from sodium: your supplier’s analysis is better`;
  return { id, says };
}
