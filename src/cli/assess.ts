import { adviceJson, assessJson } from '../report/json/assess.js';
import { assessWords } from '../desk/assess.js';
import { adviceSheet } from '../report/advice.js';
import { assessSheet } from '../report/assess.js';
import { benchTexts } from './bench-texts.js';
import { type Command, type Given, OUT } from './command.js';
import { A_FEED } from './feed-options.js';
import { ofSheets } from './forms.js';
import { wishesOf } from './wishes.js';

/** What a given recipe delivers. */
export const assessCommand: Command = {
  name: 'assess',
  examples: [
    {
      line: 'velamen assess "1/4 tsp cal-part + 1.2 g base + 3 mL kelp in 1 US gal" --shelf shelf.csv',
      says: 'mg/L of every element, nitrogen by form, EC and cost',
    },
    {
      line: 'velamen assess "1 g sample-base + 1 g sample-calcium in 4 L" --bench examples/moss-without-ammonium --feed moss',
      says: 'the same, judged by what the feed asks for (exit code 3 where it misses)',
    },
    {
      line: 'velamen assess "30 ppm calcium-powder, then base-powder until 120 in 3 L" --bench examples/moss-without-ammonium --feed moss',
      says: 'a recipe told by the pen, in grams: so much more on its scale, or until it shows so much',
    },
    {
      line: 'velamen assess "1/4 tsp per US gal of 14-4-17" --bench examples/what-the-shelf-reaches --feed cattleyas',
      says: 'what others advise, and the same strength with your own feed',
    },
  ],
  about: [
    'Advice instead of a recipe: "half strength 20-10-20 at 1 tsp/US gal", "125 ppm N", "400 µS", "200 ppm on a 500 pen", "EC 0.4 above the water", "max EC 0.8", "13.5 oz/US gal of 20-20-20 in a 1:100 injector". What it leaves open is answered with a range, never with a guess; exit code 3 where your own feed may not be that strong.',
    'Products are named by their id on the shelf, or by an id of the catalog. With --feed, or with --plants and --medium, the recipe is judged, be it others’ or what you have always done: the verdict first, what hurts, what is short, the change of one dose that helps most in your own measures, and the reading of the pen when it was made right.',
  ],
  operands: {
    name: 'RECIPE',
    says: 'amounts (or readings of the pen) joined by +, then "in" and a volume; or advice in words; all in one pair of quotes',
    most: 1,
  },
  options: [...A_FEED, 'temperature', 'scale', 'readingOfWater', ...OUT],
  async run(given, io) {
    const [recipe] = given.operands;
    const wishes = { ...wishesOf(given), ...(recipe === undefined ? {} : { recipe }) };
    const found = await assessWords(benchTexts(given, io), wishes);
    const sheet =
      found.about === 'recipe'
        ? assessSheet(found.result, found.pen)
        : adviceSheet(found.result, blendCommand(given), found.pen);
    const json = found.about === 'recipe' ? assessJson(found.result) : adviceJson(found.result);
    return { exit: found.met ? 0 : 3, forms: ofSheets(json, [sheet]), warnings: found.warnings };
  },
};

/** The blend command of the same feed, without its strength. */
function blendCommand(given: Given): string {
  const options = REPEATED.flatMap((name) =>
    [given.words[name] ?? []].flat().map((text) => `--${name} ${quoted(text)}`),
  );
  return ['velamen blend', ...new Set(options)].join(' ');
}

const REPEATED = ['bench', 'feed', 'plants', 'medium', 'phase', 'shelf', 'water', 'currency', 'nh4', 'rule'] as const;
const quoted = (text: string): string => (/^[\w./,=-]+$/.test(text) ? text : `"${text}"`);
