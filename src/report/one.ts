import { atDoor } from '../door.js';
import type { OneResult, SharedCan, SharedPlan } from '../blend/one/one-types.js';
import { factorOf } from '../feed/near.js';
import { cautionBlocks } from './blend.js';
import { bottleBlocks } from './given.js';
import { figure, money } from './figures.js';
import { elementBlocks, missLines } from './mix.js';
import { proofSentence } from './says/proof.js';
import { doseProofSays } from './says/dose-proof.js';
import { weighSays } from './says/doses.js';
import { assumedSays } from './says/given.js';
import { missSays } from './says/limits.js';
import { apartSays, costSays, letterOf, mixInto, nameOf, oneSays, partsSay, wayOfMixSays } from './says/one.js';
import { weighBlocks } from './sheet-page/no-sheet.js';
import { volumeText } from './volume.js';
import { type Block, heading, inFull, list, paragraph, section, type Sheet, spoken, table } from './sheet.js';

type OnBench = OneResult & { vessels?: readonly { label: string; millilitres: number }[] };

/** One mix for a whole bench as a report: what goes in, and how each feed is made of it. */
export function oneSheet(result: OnBench): Sheet {
  const { mixes, apart, isFewest, cautions, assumed, vessels = [] } = result;
  const cost = costSays(result);
  const [first] = mixes;
  return {
    title: oneSays(result),
    blocks: [
      ...mixesBlocks(result, vessels),
      ...(first ? assumedSays(assumed, first.plan.batchLitres).map((line) => paragraph(line)) : []),
      ...result.without.map((feed) =>
        paragraph(
          atDoor({
            typed: `${feed}: this shelf gives it no feed; velamen blend --feed ${feed} says why.`,
            page: `${feed}: this shelf gives it no feed; choose it in Feed to see why.`,
          }),
          'bad',
        ),
      ),
      ...(cost === null ? [] : [paragraph(cost)]),
      ...(mixes.length > 1 ? section('Why not fewer mixes', apart.map(apartSays)) : []),
      ...(isFewest ? [] : [paragraph('With so many feeds not every way of sharing was tried: fewer mixes may do.')]),
      ...inFull([
        heading('Proof'),
        ...mixes.flatMap(({ proof, plan }) => [
          paragraph(spoken(proofSentence(proof)), proof.verdict === 'uncertified' ? 'bad' : 'good'),
          paragraph(spoken(doseProofSays(plan.proof))),
        ]),
        ...apart.map(({ proof }) => paragraph(spoken(proofSentence(proof)))),
      ]),
      ...cautionBlocks(cautions),
    ],
  };
}

/** What goes into each mix, and how its feeds are made of it. */
export const mixesBlocks = (result: OneResult, vessels: NonNullable<OnBench['vessels']> = []): Block[] =>
  result.mixes.flatMap((mix, i) =>
    mixBlocks(mix, result.mixes.length === 1 ? 'The mix' : `Mix ${letterOf(i)}`, result, vessels),
  );

function mixBlocks(
  mix: SharedPlan,
  name: string,
  { currency }: OneResult,
  vessels: NonNullable<OnBench['vessels']>,
): Block[] {
  const { plan, cans } = mix;
  const rows = plan.items.map(({ product, chosen }) => [
    product.name || product.id,
    chosen.words,
    product.price === undefined || !product.pack
      ? 'price unknown'
      : money((chosen.amount * product.price) / product.pack, currency),
  ]);
  const told = cans.flatMap((can) => lines(can));
  const way = wayOfMixSays(mix);
  return [
    heading(`${name}: what goes in, in this order`),
    ...(way === null ? [] : [paragraph(way)]),
    ...(mix.wayOut ? weighBlocks(weighSays(plan.notes, mix.wayOut.without.weigh)) : []),
    table(['', `for ${volumeText(plan.batchLitres)}`, '>cost'], rows),
    ...bottleBlocks(plan, plan.mix.waters),
    ...dilutionBlocks(cans, plan.batchLitres, vessels),
    ...(told.length === 0 ? [] : [list(told)]),
    ...inFull(cans.flatMap((can) => elementBlocks(can.mix.elements, `What a can of ${nameOf(can)} holds`))),
  ];
}

/** How each feed is made of the mix: parts, and for each can of the bench how much of it. */
export function dilutionBlocks(
  cans: readonly SharedCan[],
  batchLitres: number,
  vessels: NonNullable<OnBench['vessels']> = [],
): Block[] {
  const litresOf = ({ sharing }: SharedCan): number => sharing.request.header.batchLitres ?? batchLitres;
  return [
    heading('How each feed is made of it'),
    table(
      [
        '',
        'mix + water',
        '>mix in its can',
        ...vessels.map(({ label }) => `>in ${label}`),
        '>N mg/L (aim)',
        '>EC mS/cm',
        '>cans of 100',
      ],
      cans.map((can) => {
        const { parts } = can.sharing;
        const n = can.mix.elements.find(({ element }) => element === 'N');
        return [
          nameOf(can),
          partsSay(parts),
          `${mixInto(litresOf(can), parts)} of ${volumeText(litresOf(can))}`,
          ...vessels.map(({ millilitres }) => mixInto(millilitres / 1000, parts)),
          n ? `${figure(n.mgPerLitre)} (${n.aim === null ? '' : figure(n.aim)})` : '',
          figure(can.mix.ec.mSPerCm),
          `${Math.floor(100 * can.sure + 1e-9)}`,
        ];
      }),
    ),
    paragraph('Measure the mix into the can first, then fill up with the same water.'),
  ];
}

/** What a feed misses, and where it is farther from its aims than usual. */
function lines(can: SharedCan): string[] {
  const name = nameOf(can);
  const far = can.mix.elements
    .flatMap(({ element, mgPerLitre, aim }) =>
      element === 'N' || aim === null || !(aim > 0)
        ? []
        : [{ element, mgPerLitre, aim, factor: factorOf(element, mgPerLitre, aim) }],
    )
    .filter(({ factor }) => factor > FAR)
    .sort((a, b) => b.factor - a.factor);
  const off = far
    .slice(0, NAMED)
    .map(
      ({ element, mgPerLitre, aim }) =>
        `${element} ${figure(100 * Math.abs(mgPerLitre / aim - 1))} % ${mgPerLitre < aim ? 'below' : 'above'}`,
    );
  return [
    ...missLines(can.violations).map((line) => `${name}: ${line}`),
    ...(off.length === 0 ? [] : [`${name}: farther from its aims than usual, ${off.join(', ')}.`]),
    ...can.custom.map((miss) => `${name}: ${missSays(miss)}`),
  ];
}

/** As for a feed of its own: beyond the usual widths by more than rounding leaves. */
const FAR = 1.05;
const NAMED = 3;
