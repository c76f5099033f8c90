import { atDoor } from '../../door.js';
import type { DoseNote, DoseOffer, ItemStockOffer, OfferedDose } from '../../dose/findings.js';
import { formatNumber } from '../../units/format.js';

/** What a person should know about how the doses can be measured. */
export function doseNoteSays(note: DoseNote): string {
  switch (note.kind) {
    case 'no kit':
      return 'The bench names no kit: amounts are given to 0.01 g and 0.1 mL. Name your spoons, scale and syringe for more.';
    case 'bulk density missing':
      return `${note.product}: its bulk density is unknown, so no spoon can measure it. ${askedToWeigh(note)} Until then weigh it.`;
    case 'bulk density unknown':
      return `${note.product}: its bulk density is unknown, so no spoon is offered. ${askedToWeigh(note)}`;
    case 'nothing measures a powder':
      return `${note.product}: nothing in the kit measures a powder; weigh it on a borrowed scale, or add spoons or a scale to the kit.`;
    case 'nothing measures a liquid':
      return `${note.product}: nothing in the kit measures a liquid; use a syringe, and add it to the kit.`;
    case 'bulk density of the catalog':
      return `${note.product}: a level spoon is taken at the catalog's ${formatNumber(note.gramsPerMillilitre, 3)} g/mL, which varies by a fifth. Weigh yours: ${weighCommand(note.product, note.spoon)}`;
    case 'can too small':
      return `The batch of ${litres(note.batchLitres)} is more than the largest can holds (${note.can}): mix it in parts, or give the feed a smaller batch.`;
    default:
      return note satisfies never;
  }
}

/** How ten level spoons on a kitchen scale get onto the shelf; the blank is the grower's to fill. */
export const weighCommand = (product: string, spoon: string): string =>
  atDoor({
    typed: `velamen meter --weigh "ten level ${spoon} of ${product} weigh __ g" --save`,
    page: `Shelf, ${product}, What a spoon of it weighs: “ten level ${spoon} weigh … g”.`,
  });

/** What to do about powders whose bulk density is missing: a line, and the commands of it; null where none is. */
export function weighSays(
  notes: readonly DoseNote[],
  more: readonly { product: string; spoon: string }[] = [],
): { says: string; commands: string[] } | null {
  const missing = [...notes.flatMap((note) => (note.kind === 'bulk density missing' ? [note] : [])), ...more];
  const ids = [...new Set(missing.map(({ product }) => product))];
  if (ids.length === 0) return null;
  return {
    says: `Nobody knows what a level spoon of ${ids.join(', ')} weighs: weigh ten of them on any kitchen scale, and fill in the grams:`,
    commands: ids.map((id) => weighCommand(id, missing.find(({ product }) => product === id)!.spoon)),
  };
}

const askedToWeigh = ({ product, spoon }: { product: string; spoon: string }): string =>
  `Weigh ten level spoons on any kitchen scale, fill in the grams: ${weighCommand(product, spoon)}`;

/** What would make the doses measurable. */
export function doseOfferSays(offer: DoseOffer): string {
  switch (offer.kind) {
    case 'pen':
      return atDoor({
        typed: `By a conductivity pen, \`velamen sheet --by pen\`: ${dosesSay(offer.doses)}.`,
        page: `By a conductivity pen (Sink, Dose by the pen): ${dosesSay(offer.doses)}.`,
      });
    case 'ten spoons':
      return offer.products.map((product) => askedToWeigh({ product, spoon: offer.spoon })).join(' ');
    case 'item stock':
      return `A stock bottle of ${offer.bottles.map(bottleSays).join(', one of ')}: ${dosesSay(offer.doses)}.`;
    case 'batch':
      return offer.litres === 2 * offer.instead
        ? atDoor({
            typed: `Mix double and use half, \`velamen sheet --mix "${litres(offer.litres)}"\`: ${dosesSay(offer.doses)}.`,
            page: `Mix double and use half, ${litres(offer.litres)} in Sink: ${dosesSay(offer.doses)}.`,
          })
        : atDoor({
            typed: `Mix ${litres(offer.litres)} at a time instead of ${litres(offer.instead)}, \`velamen sheet --mix "${litres(offer.litres)}"\`: ${dosesSay(offer.doses)}.`,
            page: `Mix ${litres(offer.litres)} at a time instead of ${litres(offer.instead)}, in Sink: ${dosesSay(offer.doses)}.`,
          });
    case 'spoon':
      return `A level ${offer.label} spoon would do: ${dosesSay(offer.doses)}.`;
    case 'spoons':
      return `A set of level spoons from 1/2 to 1/64 US tsp would do: ${dosesSay(offer.doses)}.`;
    case 'scale':
      return `A ${formatNumber(offer.stepGrams)} g scale would do: ${dosesSay(offer.doses)}.`;
    case 'syringe':
      return `A ${formatNumber(offer.millilitres)} mL syringe would do: ${dosesSay(offer.doses)}.`;
    case 'stock':
      return stockOfferSays(offer);
    default:
      return offer satisfies never;
  }
}

/** `trace-mix alone, 2 level US tsp in 250 mL of water` */
const bottleSays = ({ product, words, bottleMillilitres }: ItemStockOffer['bottles'][number]): string =>
  `${product} alone, ${words} in ${bottleMillilitres} mL of water`;

function stockOfferSays(offer: Extract<DoseOffer, { kind: 'stock' }>): string {
  const { ratio, bottles, bottleMillilitres, doseMillilitres, batchLitres, syringeMillilitres, fills } = offer;
  const one = bottles.length === 1;
  const parts = bottles.map(({ name, doses }) => `${name === 'stock' ? name : `stock ${name}`}: ${dosesSay(doses)}`);
  return `Keep it as stock, 1 part in ${ratio}: for ${bottleMillilitres} mL ${one ? 'of ' : 'each of '}${parts.join('; ')}. Then ${formatNumber(doseMillilitres, 4)} mL ${one ? 'of it' : 'of each'} go into ${litres(batchLitres)}, ${fills === 1 ? 'one fill' : `${fills} fills`} of a ${formatNumber(syringeMillilitres, 4)} mL syringe. Ask concentrate for the bottles.`;
}

const dosesSay = (doses: readonly OfferedDose[]): string =>
  doses.map(({ product, words }) => (words === null ? `no ${product}` : `${words} ${product}`)).join(', ');

const litres = (value: number): string => `${formatNumber(value, 4)} L`;
