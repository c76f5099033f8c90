import { judgeReading } from '../../desk/judge-reading.js';
import type { Wishes } from '../../desk/wishes.js';
import type { Problem } from '../../problem.js';
import { meterSheet } from '../../report/meter.js';
import { stepVerdict } from '../../report/says/step-verdict.js';
import { todoLines, verdictSays } from '../../report/says/verdict.js';
import type { Block } from '../../report/sheet.js';
import type { BenchTexts } from '../state.js';
import { filesOf } from './files.js';

/** A can in hand: what it was to be, and what the pen showed of it, `2: 82 ppm`, as typed. */
export interface JudgeAsked {
  texts: BenchTexts;
  judgedBy: Wishes;
  readings: string[];
  /** What the grower says was done otherwise; empty where nothing was. */
  did: string;
  /** True where the can is full. */
  isFull: boolean;
}

export interface JudgeView {
  tone: 'good' | 'open' | 'bad';
  /** The answer in one sentence, and what to do or to look at. */
  says: string;
  todo: string[];
  /** What would mend the full can, where more is still to go in. */
  later: string[];
  /** The whole report, as `meter --full` prints it. */
  blocks: Block[];
  warnings: readonly Problem[];
}

/** What readings say, and what to do about it, as the command line's `meter` has it. */
export async function judgeQuestion({ texts, judgedBy, readings, did, isFull }: JudgeAsked): Promise<JudgeView> {
  const { result, warnings } = await judgeReading(filesOf(texts), {
    ...judgedBy,
    ...(readings.length === 0 ? {} : { reading: readings }),
    ...(did === '' ? {} : { did }),
  });
  const { blocks } = meterSheet(result);
  const todo = todoLines(result);
  if (isFull || did !== '')
    return { tone: toneOf(result.verdict), says: verdictSays(result), todo, later: [], blocks, warnings };
  const { tone, says, look } = stepVerdict(result);
  const later = tone === 'bad' ? todo.filter((line) => !look.includes(line)) : [];
  return { tone, says, todo: look, later, blocks, warnings };
}

const toneOf = (verdict: string): JudgeView['tone'] =>
  verdict === 'good' || verdict === 'a little off' ? 'good' : verdict === 'top up' ? 'open' : 'bad';
