import { seasonFor } from '../desk/season.js';
import { seasonJson } from '../report/json/season.js';
import { seasonSheet } from '../report/season.js';
import { seasonCalendar } from '../report/season-calendar.js';
import { benchTexts } from './bench-texts.js';
import { type Command, OUT } from './command.js';
import { A_FEED, A_SHELF } from './feed-options.js';
import { ofSheets, SHEET_FORMS } from './forms.js';
import { wishesOf } from './wishes.js';

/** A year of feed, with its dates. */
export const seasonCommand: Command = {
  name: 'season',
  examples: [
    {
      line: 'velamen season --bench examples/moss-without-ammonium --from 2026-12-01',
      says: 'what is fed in each month, what it uses up, what to order when',
    },
    {
      line: 'velamen season --bench examples/moss-without-ammonium --from 2026-12-01 --hemisphere south --to season.ics --to season.html',
      says: 'for the south, with the dates for a calendar and a page to print',
    },
  ],
  about: [
    'Plans 52 weeks from a day on. In months of rest a feed is that of the programme for rest, or none where the plants want none; a feed of the bench for rest takes those months over from its like. Doses are made once for each phase and strength, as in blend and sheet; what they use is counted week by week against what is on hand.',
    'bench.yaml says more: season: { hemisphere, light, temperature }, and for a feed pots, pot (what an empty one holds), watering (litres for all of them) and months: { Dec: none, Jan: "rest, 50 %, 4 L" }.',
    'Where a feed has no doses that keep what hurts or what plants need, the nearest are counted and told, and the exit code is 3; --buy then says what to buy before it begins.',
  ],
  options: [
    'from',
    'hemisphere',
    'light',
    'roomTemperature',
    'weekly',
    'lead',
    'buy',
    'one',
    'near',
    'sure',
    'by',
    'mix',
    ...A_FEED,
    ...A_SHELF,
    'market',
    'full',
    ...OUT,
  ],
  forms: () => [...SHEET_FORMS, 'ics'],
  async run(given, io) {
    const today = io.now().toISOString().slice(0, 10);
    const { met, result, warnings } = await seasonFor(benchTexts(given, io), { from: today, ...wishesOf(given) });
    return {
      exit: met ? 0 : 3,
      forms: { ...ofSheets(seasonJson(result), [seasonSheet(result)]), ics: () => seasonCalendar(result) },
      warnings,
    };
  },
};
