import type { SeasonResult } from '../year/season-types.js';
import { cautionBlocks } from './blend.js';
import { amount, figure, money } from './figures.js';
import { listed } from './says/listed.js';
import {
  answerSays,
  bulkSays,
  daySays,
  flushSays,
  lastsSays,
  mixSays,
  mixSureSays,
  monthSays,
  packsSay,
  phaseSays,
  seasonNoteSays,
  supportSays,
} from './says/season.js';
import { type Block, heading, inFull, list, paragraph, section, type Sheet, spoken, table } from './sheet.js';
import { storageBlocks } from './storage.js';
import { volumeText } from './volume.js';

/** A year of feed: what is fed when, what goes in, what runs out, what to order, how pots are flushed. */
export function seasonSheet(result: SeasonResult): Sheet {
  const { notes, cautions } = result;
  return {
    title: titleOf(result),
    blocks: [
      paragraph(
        answerSays(result),
        notes.some(({ kind }) => kind === 'no doses' || kind === 'missed') ? 'bad' : 'good',
      ),
      ...fedBlocks(result),
      ...mixBlocks(result),
      ...useBlocks(result),
      ...orderBlocks(result),
      ...chartBlocks(result),
      ...flushBlocks(result),
      ...potBlocks(result),
      ...inFull([...monthBlocks(result), ...storageBlocks(result.storage)]),
      ...section('Notes', notes.map(seasonNoteSays)),
      ...cautionBlocks(cautions),
    ],
  };
}

function titleOf({ feeds, from, to, litres, cost, currency }: SeasonResult): string {
  const when = `${listed(feeds.map(({ name }) => name))}, ${daySays(from)} to ${daySays(to)}`;
  return litres > 0 ? `${when}: ${volumeText(litres)} of feed for ${money(cost, currency)}` : `${when}: no feed`;
}

function fedBlocks({ feeds, currency }: SeasonResult): Block[] {
  const rows = feeds.flatMap(({ name, spans }) =>
    spans
      .filter(({ state }) => state.kind !== 'other')
      .map((span): string[] => {
        const fed = span.state.kind === 'fed' ? span.state : null;
        return [
          name,
          daySays(span.from),
          String(span.weeks),
          phaseSays(span),
          fed?.strength ?? '',
          fed ? figure(span.litres / span.weeks) : '',
          fed ? figure(span.litres) : '',
          fed ? figure(span.cost) : '',
        ];
      }),
  );
  const heads = ['feed', 'from', '>weeks', 'phase', 'strength', '>L a week', '>L', `>${currency || 'money'}`];
  return [heading('What is fed when'), table(heads, rows)];
}

function mixBlocks({ mixes }: SeasonResult): Block[] {
  if (mixes.length === 0) return [];
  const rows = mixes.flatMap(({ feeds, batchLitres, items, litres }) =>
    items.map(({ id, inBatch, perLitre, unit }) => [
      feeds.map(({ name, phase, strength }) => `${name}, ${phase}, ${strength}`).join('; '),
      id,
      `${inBatch} for ${volumeText(batchLitres)}`,
      `${amount(perLitre, unit)}/L`,
      figure(litres),
    ]),
  );
  return [
    heading('What goes in'),
    list(mixes.map(mixSays)),
    ...inFull([
      list(mixes.map(mixSureSays)),
      heading('What goes in, item by item'),
      table(['mix', 'product', 'measured', '>a litre', '>L in all'], rows),
    ]),
  ];
}

function useBlocks({ products, currency, weeks }: SeasonResult): Block[] {
  if (products.length === 0) return [];
  const rows = products.map((product) => [
    product.name === '' ? product.id : product.name,
    bulkSays(product.used, product.unit),
    product.onHand === null ? '?' : bulkSays(product.onHand, product.unit),
    lastsSays(product, weeks),
    product.packs === 0 ? '' : String(product.packs),
    product.cost === null ? '?' : figure(product.cost),
  ]);
  const known = products.reduce((sum, { cost }) => sum + (cost ?? 0), 0);
  const heads = ['product', '>used', '>on hand', 'runs out', '>packs', `>${currency || 'money'} used`];
  return [heading('What is used, and when it runs out'), table(heads, rows, ['', '', '', '', '', figure(known)])];
}

function orderBlocks({ orders, currency, leadDays, spend }: SeasonResult): Block[] {
  if (orders.length === 0) return [];
  const rows = orders.map((order) => [
    order.isLate ? `${daySays(order.day)}, at once` : daySays(order.day),
    order.name === '' ? order.id : order.name,
    packsSay(order),
    daySays(order.needed),
    order.cost === null ? '?' : figure(order.cost),
  ]);
  return [
    heading('What to order, and when'),
    paragraph(
      `The same pack again, ${leadDays} days before it is needed; where a pack lasts less than four weeks, as many as last so long.`,
      'quiet',
    ),
    table(['order by', 'product', 'packs', 'needed', `>${currency || 'money'}`], rows, ['', '', '', '', figure(spend)]),
  ];
}

function chartBlocks({ months, products, weeks, from, litres: all }: SeasonResult): Block[] {
  if (!(all > 0)) return [];
  const stocked = products.filter(({ stock }) => stock !== null);
  return [
    heading('Litres by month'),
    {
      kind: 'chart',
      shape: 'bars',
      along: 'month',
      labels: months.map(({ key }) => monthSays(key)),
      series: [{ name: 'Feed', unit: 'L', values: months.map(({ litres }) => litres) }],
      hollow: { means: 'months of rest', at: months.map(({ isRest }) => isRest) },
    },
    ...(stocked.length === 0
      ? []
      : [
          heading('On hand, week by week'),
          {
            kind: 'chart' as const,
            shape: 'line' as const,
            along: 'end of week',
            labels: [daySays(from), ...Array.from({ length: weeks }, (_, i) => `week ${i + 1}`)],
            series: stocked.map(({ id, name, unit, stock }) => ({
              name: name === '' ? id : name,
              unit,
              values: stock!,
            })),
          },
        ]),
  ];
}

function flushBlocks({ feeds }: SeasonResult): Block[] {
  const flushed = feeds.filter(({ flush }) => flush.weeks.length > 0);
  if (flushed.length === 0) return [];
  const why = [...new Set(flushed.map(({ medium, flush }) => `${medium}: ${supportSays(flush)}.`))];
  return [
    heading('Flushing with plain water, by weeks of feed'),
    table(
      ['feed', 'medium', 'every', '>times', 'how much', 'evidence'],
      flushed.map(({ name, medium, flush }) => [
        name,
        medium,
        `${flush.everyWeeks} weeks`,
        String(flush.weeks.length),
        flushSays(flush),
        flush.support.evidence,
      ]),
    ),
    ...inFull([list(why.map(spoken))]),
  ];
}

function potBlocks({ feeds }: SeasonResult): Block[] {
  const told = feeds.filter(({ pots }) => pots.pots !== null || pots.wateringLitres !== null);
  if (told.length === 0) return [];
  const rows = told.map(({ name, weeklyLitres, pots: { pots, wateringLitres, wateringsAWeek } }) => [
    name,
    pots === null ? '' : String(pots),
    pots === null || wateringLitres === null ? '' : amount((1000 * wateringLitres) / pots, 'mL'),
    wateringLitres === null ? '' : figure(wateringLitres),
    wateringsAWeek === null ? '' : figure(wateringsAWeek),
    figure(weeklyLitres),
  ]);
  return [
    heading('All pots'),
    table(['feed', '>pots', '>a pot and watering', '>L a watering', '>waterings a week', '>L a week'], rows),
  ];
}

function monthBlocks({ months, products, currency, climate }: SeasonResult): Block[] {
  const units = new Map(products.map(({ id, unit }) => [id, unit]));
  const own = climate.isOwn ? ['>light', '>°C'] : [];
  const shown = (value: number | null): string => (value === null ? '' : figure(value));
  return [
    heading('Month by month'),
    table(
      ['month', '>weeks', 'plants', ...own, '>L', `>${currency || 'money'}`],
      months.map((month) => [
        monthSays(month.key),
        String(month.weeks),
        month.isRest ? 'rest' : 'grow',
        ...(climate.isOwn ? [shown(month.light), shown(month.temperatureC)] : []),
        figure(month.litres),
        figure(month.cost),
      ]),
    ),
    heading('What each month uses'),
    table(
      ['month', 'product', '>amount'],
      months.flatMap(({ key, uses }) =>
        uses
          .filter((use) => use.amount > 0)
          .map((use) => [monthSays(key), use.id, bulkSays(use.amount, units.get(use.id)!)]),
      ),
    ),
  ];
}
