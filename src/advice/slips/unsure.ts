import { atDoor } from '../../door.js';
import type { BatchSpokenOf, ReadClause, Way } from './types.js';
import { whichItem, whichItems } from './which-item.js';

const UNSURE = String.raw`(?:(?:i |we )?(?:am |are |have |got |got )?(?:no idea|no clue|not sure|unsure|not certain|uncertain|do not know|can not remember|can not recall|do not remember|do not recall|can not say|can not tell|not remember)|wondering|question is)`;
const WHETHER = new RegExp(
  String.raw`^${UNSURE}(?: anymore| any more)?,? (?:if|whether|that) (?:or not )?(?:i |we |it was )?(?:have |had |really |even )?(?<clause>.+?)(?: or not)?$`,
  'u',
);
const ABOUT = new RegExp(String.raw`^${UNSURE} (?:about|adding|putting in|using) (?<item>.+)$`, 'u');
const WAS =
  /^(?:was|is|did|has) (?:the )?(?<item>.+?) (?:in|in it|added|put in|go in|get in|gone in)(?: or not)?\s*\?*$/u;
const DID =
  /^(?:did|have) (?:i|we) (?:really |even )?(?:add|added|put in|put|use|used|forget|forgotten) (?<item>.+?)(?: in)?(?: or not)?\s*\?*$/u;
/** It went in: as planned, unless it did not. */
const WENT_IN = [
  /^(?:added|add|put in|put|used|gave|included|measured) (?<item>.+?)(?: in)?$/u,
  /^(?<item>.+?) (?:went in|was added|is in|was in|got in|has gone in|made it in|went into it|are in|were added|was put in|is in it|is in there)$/u,
];
const ONCE_OR_TWICE =
  /^(?:(?:added|put in|put|used) (?<what>.+?)|(?<item>.+?)(?: went in| was added| is in)?) (?:once or twice|twice or once|one or two times|twice or only once)$/u;
const MAYBE =
  /^(?:maybe|perhaps|possibly|it may be that|it could be that|could be that|may have|might have|could have|may|might)(?: i| we)? (?<clause>.+)$/u;
const INNER = /^(?<before>.+?) (?:maybe|perhaps|possibly|may have been|might have been) (?<after>.+)$/u;
const LIKELY =
  /^(?:probably|most likely|likely|i think|think|i guess|i believe|i suspect|pretty sure|almost sure|i fear|i am afraid)(?: that)?(?: i| we)?(?: may have| might have| have)? (?<clause>.+)$/u;

/** What is doubted is as likely as not; what is thought probable three times as likely as not (judgement). */
const DOUBTED = 0.5;
const PROBABLE = 0.75;

/** A clause in doubt: it is so, or it is as planned. */
export function unsureClause(
  clause: string,
  batch: BatchSpokenOf,
  read: (clause: string, batch: BatchSpokenOf) => ReadClause,
): ReadClause {
  const asked = DID.exec(clause)?.groups?.item ?? WAS.exec(clause)?.groups?.item ?? ABOUT.exec(clause)?.groups?.item;
  if (asked !== undefined) return wentInOrNot(asked, batch);
  const whether = WHETHER.exec(clause)?.groups?.clause;
  if (whether !== undefined) {
    const often = onceOrTwice(whether, batch);
    if (often !== null) return often;
    for (const pattern of WENT_IN) {
      const item = pattern.exec(whether)?.groups?.item;
      const found = item === undefined ? null : wentInOrNot(item, batch);
      if (found !== null) return found;
    }
    return doubted(read(whether, batch), DOUBTED);
  }
  const often = onceOrTwice(clause, batch);
  if (often !== null) return often;
  const inner = INNER.exec(clause)?.groups;
  const maybe =
    MAYBE.exec(clause)?.groups?.clause ?? (inner === undefined ? undefined : `${inner.before} ${inner.after}`);
  if (maybe !== undefined) return doubted(read(maybe, batch), DOUBTED);
  const likely = LIKELY.exec(clause)?.groups?.clause;
  return likely === undefined ? null : doubted(read(likely, batch), PROBABLE);
}

/** Each of the items named went in, or did not. */
function wentInOrNot(words: string, batch: BatchSpokenOf): ReadClause {
  const which = whichItems(words, batch);
  if (which === null || 'ask' in which) return which;
  if (which.items.length > 1)
    return {
      ask: {
        found: `"${words}", of which each may be in or not`,
        expected: 'one item that is in doubt',
        fix: atDoor({
          typed: 'Read the can with the pen (--reading), or say of all but one whether it went in.',
          page: 'Read the can with the pen and judge it above, or say of all but one whether it went in.',
        }),
      },
    };
  const slips = which.items.map((item) => ({ kind: 'item', item, factor: 0 }) as const);
  return {
    ways: [
      { share: DOUBTED, slips },
      { share: 1 - DOUBTED, slips: [] },
    ],
  };
}

function onceOrTwice(clause: string, batch: BatchSpokenOf): ReadClause {
  const groups = ONCE_OR_TWICE.exec(clause)?.groups;
  const words = groups?.what ?? groups?.item;
  const item = words === undefined ? null : whichItem(words, batch);
  if (item === null || typeof item !== 'number') return item;
  return {
    ways: [
      { share: DOUBTED, slips: [] },
      { share: 1 - DOUBTED, slips: [{ kind: 'item', item, factor: 2 }] },
    ],
  };
}

/** What is said, with the rest of the share as planned. */
function doubted(read: ReadClause, share: number): ReadClause {
  if (read === null || 'ask' in read) return read;
  const ways: Way[] = read.ways.map((way) => ({ ...way, share: share * way.share }));
  return { ways: [...ways, { share: 1 - share, slips: [] }] };
}
