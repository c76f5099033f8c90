import type { Pause, Say } from './say.js';
import { benchQuestion } from './bench.js';
import { feedQuestion } from './feed.js';
import { nearQuestion } from './near.js';
import { buyQuestion } from './buy.js';
import { addQuestion, printedQuestion, saltsQuestion, shelfQuestion } from './shelf.js';
import { wordsQuestion } from './words.js';
import { journalQuestion } from './journal.js';
import { judgeQuestion } from './judge.js';
import { printQuestion } from './print.js';
import { recordQuestion } from './record.js';
import { seasonQuestion } from './season.js';
import { sinkQuestion } from './sink.js';
import { toolQuestion } from './tools.js';
import { waterQuestion } from './water.js';

/** What the worker can be asked, by name: `(asked, say, pause) → answer`, each in a file of its own. A `Refusal` comes back as its problems. */
export const QUESTIONS = {
  bench: benchQuestion,
  buy: buyQuestion,
  feed: feedQuestion,
  near: nearQuestion,
  journal: journalQuestion,
  words: wordsQuestion,
  judge: judgeQuestion,
  print: printQuestion,
  record: recordQuestion,
  season: seasonQuestion,
  sink: sinkQuestion,
  shelf: shelfQuestion,
  printed: printedQuestion,
  add: addQuestion,
  salts: saltsQuestion,
  water: waterQuestion,
  tool: toolQuestion,
} as const satisfies Record<string, (asked: never, say: Say, pause: Pause) => Promise<unknown>>;

export type Kind = keyof typeof QUESTIONS;
export type AskedOf<K extends Kind> = Parameters<(typeof QUESTIONS)[K]>[0];
export type ToldOf<K extends Kind> = Awaited<ReturnType<(typeof QUESTIONS)[K]>>;
