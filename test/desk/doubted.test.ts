import { describe, expect, it } from 'vitest';
import { blendFeeds } from '../../src/desk/blend.js';
import { mixingSheets } from '../../src/desk/mixing-sheets.js';
import { blendJson } from '../../src/report/json/blend.js';
import { blendSheet } from '../../src/report/blend.js';
import { pageOf } from '../../src/report/sheet-page/page.js';
import { renderText } from '../../src/report/text.js';
import { exampleFiles } from './benches.js';

const { shelf } = exampleFiles('spoons-alone');
const BENCH = `name: any
water: { use: rain }
kit: { spoons: [1 tsp, 1/2 tsp, 1/4 tsp, 1/8 tsp], scale: 0.01 g }
feeds:
  moths: { plants: moth orchids, medium: bark, phase: growth, strength: 75 %, batch: 4 L }
`;

const bench = (edit: (text: string) => string) => ({
  bench: { name: 'bench.yaml', text: BENCH },
  shelf: { name: 'shelf.csv', text: edit(shelf!.text) },
});

describe('a name and a row that contradict each other', () => {
  it('are told in the first lines, with what the name would make of the can and what the feed is without it', async () => {
    const files = bench((text) => text.replace('Sample Base Powder B', 'Sample Base Powder 12-10-29'));
    const { results } = await blendFeeds(files, {});
    const [result] = results;
    const text = renderText(blendSheet(result!), { columns: 400, colour: false, full: false }).split('\n');
    expect(text[2]).toMatch(/^Look at the label first: Sample Base Powder 12-10-29 is in the shelf file with N 6,/);
    expect(text[2]).toMatch(/were the name right, the can would hold N \d+.* Without it: \d\d of 100 cans/);
    expect(JSON.stringify(blendJson(result!, null))).toContain('"doubts":["Look at the label first');
    const [sheet] = (await mixingSheets(files, {})).results;
    expect(sheet!.status).toBe('kept');
    if (sheet!.status === 'kept') expect(pageOf(sheet!).alert[0]).toMatch(/^Look at the label first/);
  }, 60_000);

  it('keep a jar out of a feed that would hurt by the name, where the rest of the shelf makes one', async () => {
    // for its phosphorus five times as much goes in as the name would bear; the other phosphorus is dear
    const text = `id,name,form,basis,formula,N,P2O5,K2O,pack,price
cn,Calcium nitrate,powder,w/w,Ca(NO3)2·4H2O,,,,1 kg,4
kn,Potassium nitrate,powder,w/w,KNO3,,,,1 kg,7
mg,Epsom salt,powder,w/w,MgSO4·7H2O,,,,1 kg,4
mkp,Monopotassium phosphate,powder,w/w,KH2PO4,,,,1 kg,95
bloom,Sample Bloom Powder 0-50-5,powder,w/w,,0,10,5,1 kg,2
`;
    const files = { bench: { name: 'bench.yaml', text: BENCH }, shelf: { name: 'shelf.csv', text } };
    const { results } = await blendFeeds(files, {});
    const [result] = results;
    const given = result!.status === 'made' && 'given' in result! ? result!.given : null;
    expect(given!.doubts!.used).toBe(false);
    expect(given!.plan.items.map(({ product }) => product.id)).not.toContain('bloom');
    expect(renderText(blendSheet(result!), { columns: 400, colour: false, full: false })).toContain(
      'This feed is made without it, for were the name right',
    );
  }, 60_000);

  it('are no doubt where label and name agree, or where the figures are those of a formula', async () => {
    const { results } = await blendFeeds(
      bench((text) => text),
      {},
    );
    const [result] = results;
    expect(result!.status === 'made' && 'given' in result! ? result!.given.doubts : null).toBeUndefined();
  }, 60_000);
});
