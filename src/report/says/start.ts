import { figure } from '../figures.js';
import type { Assumed } from '../start-assumed.js';

/** What was taken for what nobody told, and how to tell it. */
export function assumedSays(one: Assumed): string {
  switch (one.of) {
    case 'name':
      return `A label names no product: it is called "${one.as}" (${one.id}). Another name goes in the column name.`;
    case 'grade':
      return `${one.id}: ${one.columns.join(', ')} from the grade alone, as oxides. The whole analysis of the label says far more: which nitrogen, and what else is in it.`;
    case 'figure against grade':
      return `${one.id}: ${one.printed} does not go with the grade, which is used. Where the figure is right, give the whole analysis of the label.`;
    case 'pack':
      return `${one.id}: ${packSays(one)}`;
    case 'density':
      return `${one.id}: a liquid whose label does not say by what its % count. They are taken by weight, at about ${figure(one.gramsPerMillilitre)} g/mL by its figures: weigh 100 mL, and put a hundredth of the grams in the column density (or basis: w/v where the label counts g in 100 mL).`;
    case 'bulk density':
      return `${one.ids.join(', ')}: nobody weighed a spoonful. ${figure(one.gramsPerMillilitre)} g/mL is taken, give or take ${figure(one.off)}. Ten level spoons on any scale make it sure: velamen meter --weigh "ten level 1/4 tsp of ${one.ids[0]} weigh … g" --save`;
    case 'salt':
      return `${one.id}: taken as ${one.name}, from the catalog.${one.others.length === 0 ? '' : ` The name may also mean ${one.others.join(' or ')}: look at the label, and name that one instead.`}`;
    case 'law':
      return 'The labels are of the EU’s style: its tolerances hold (law: eu in bench.yaml).';
    case 'plants':
      return `No plants are named: ${one.plants} in ${one.medium}.`;
    case 'medium':
      return `No medium is named for ${one.plants}: ${one.medium}.`;
    case 'batch':
      return `How much you mix at a time is not told: ${one.ofKit ? 'your largest can or jug, ' : ''}${one.batch}.`;
    case 'currency':
      return `Which dollars is not told: ${one.currency}.`;
    case 'kit':
      return 'What you measure with is not told: level spoons of 1, 1/2, 1/4 and 1/8 US tsp and a scale of 0.1 g.';
    case 'pen':
      return 'No pen is named: readings are told in mS/cm.';
    case 'water':
      return 'No water is named: rain water.';
    case 'water by pen':
      return `The water reads ${figure(one.mSPerCm)} mS/cm: ${one.name} (${one.water}, ${figure(one.readsMSPerCm)} mS/cm) comes nearest. A reading tells how much is in it, not what: your supplier’s analysis is better.`;
  }
}

/** What went into the columns pack and price, and what did not. */
function packSays({ pack, price, leftOut }: Extract<Assumed, { of: 'pack' }>): string {
  const cells = [...(pack === null ? [] : [`pack ${pack}`]), ...(price === null ? [] : [`price ${price}`])];
  const read = cells.length === 0 ? '' : `${cells.join(', ')} ${cells.length > 1 ? 'are' : 'is'} on the shelf.`;
  const out = leftOut.map((text) => `"${text}"`).join(', ');
  const left = leftOut.length === 0 ? '' : `${out}: no figure of the analysis, and left out.`;
  return [read, left].filter((text) => text !== '').join(' ');
}
