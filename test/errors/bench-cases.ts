import type { Case } from './say.js';

/** Benches. */
export const BENCH_CASES: readonly Case[] = [
  [
    'bench',
    'water: rain\nfeeds: [moss, bark]\n',
    [
      'feeds-not-keys: bench.yaml:2 (feeds): found a list; expected feeds by name. Write feeds: { moss: { plants: pleurothallid, medium: sphagnum } }.',
    ],
  ],
  [
    'bench',
    'name: no water\n',
    [
      'key-missing: bench.yaml:1 (water): found no water; expected a water, such as { use: rain }. Add water to the file.',
    ],
  ],
  [
    'bench',
    'water: rain\nfeeds:\n  moss: { plants: phal }\n',
    [
      'key-missing: bench.yaml:3 (feeds.moss.medium): found no medium; expected a medium, such as sphagnum. Add medium to feeds.moss.',
    ],
  ],
  [
    'bench',
    'water: rain\npen: EC\npen: 500\n',
    ['key-twice: bench.yaml:3: found a key given twice: "pen: 500"; expected each key once. Keep the one you mean.'],
  ],
  [
    'bench',
    'water: rain\nkit:\n  spoon: 1 tsp\n',
    ['key-unknown: bench.yaml:3 (kit.spoon): found key "spoon"; expected a key of kit. Did you mean spoons?'],
  ],
  [
    'bench',
    'water: rain\nkit: { dropper: 20 }\n',
    [
      'kit: bench.yaml:2 (kit.dropper): found "20"; expected from 1 to 200 drops/mL, such as 20 drops/mL. Write 20 drops/mL, or what you have.',
    ],
  ],
  [
    'bench',
    'water: rain\nkit: { scale: 5 mL }\n',
    [
      'kit: bench.yaml:2 (kit.scale): found "5 mL"; expected the step of a scale from 0.1 mg to 100 g, such as 0.01 g. Write 0.01 g, or what you have.',
    ],
  ],
  [
    'bench',
    'water: rain\nfeeds:\n  moss: { plants: phalenopsis, medium: moss }\n',
    [
      'name-unknown: bench.yaml:3 (feeds.moss.plants): found "phalenopsis"; expected a plant group. Did you mean phalaenopsis?',
    ],
  ],
  [
    'bench',
    'water: sea\n',
    ['name-unknown: bench.yaml:1 (water): found "sea"; expected a water of the catalog. Known: rain, hard-tap.'],
  ],
  [
    'bench',
    'water: rain\npen: { scale: 5000 }\n',
    [
      'pen-scale: bench.yaml:2 (pen.scale): found "5000"; expected EC, or ppm per mS/cm from 400 to 1000. Look on the pen or in its leaflet: most show EC, or ppm on the 500, 640 or 700 scale.',
    ],
  ],
  [
    'bench',
    'water: rain\nkit: { scale: 0.01 g ± 2 mL }\n',
    [
      'kit: bench.yaml:2 (kit.scale): found "0.01 g ± 2 mL"; expected how far the scale is off from 0.1 mg to 100 g, such as 0.01 g ± 0.02 g. Write 0.01 g ± 0.02 g, or what you have.',
    ],
  ],
  [
    'bench',
    'water: rain\nkit: { syringe: 5 mL by 10 mL }\n',
    [
      'kit: bench.yaml:2 (kit.syringe): found "5 mL by 10 mL"; expected a smallest mark of 0.001 mL or more, no larger than the syringe, such as 5 mL by 0.2 mL. Write 5 mL by 0.2 mL, or what you have.',
    ],
  ],
  [
    'bench',
    'water: rain\nkit: { cans: [1 gal] }\n',
    [
      'amount: bench.yaml:2 (kit.cans.1): found "gal"; expected which one: US gal or imperial gal. Write US gal or imperial gal.',
    ],
  ],
  [
    'bench',
    'water: rain\nkit: { spoons: [1 tsp, 2/2 tsp] }\n',
    ['spoon-twice: bench.yaml:2 (kit.spoons.2): found "2/2 tsp"; expected each spoon once. Take one of them out.'],
  ],
  [
    'bench',
    'water: rain\nfeeds:\n  moss: { plants: phal, medium: moss, strength: 80 }\n',
    [
      'strength: bench.yaml:3 (feeds.moss.strength): found "80"; expected 80 % or "N: 90 mg/L". Say which: 80 %, or "N: 80 mg/L"?',
    ],
  ],
  [
    'bench',
    'water: rain\nfeeds:\n  moss: { plants: phal, medium: moss, strength: strong }\n',
    [
      'strength: bench.yaml:3 (feeds.moss.strength): found "strong"; expected 80 % or "N: 90 mg/L". Write for example 80 % or "N: 90 mg/L".',
    ],
  ],
  [
    'bench',
    'water: rain\nfeeds:\n  moss: { plants: phal, medium: moss, strength: 800 % }\n',
    [
      'strength: bench.yaml:3 (feeds.moss.strength): found "800 %"; expected a strength from 1 to 500 %, or N from 1 to 2000 mg/L. Write for example 80 % or "N: 90 mg/L".',
    ],
  ],
  [
    'bench',
    'water: rain\nfeeds:\n  moss: { plants: [phal], medium: moss }\n',
    [
      'value-wrong-kind: bench.yaml:3 (feeds.moss.plants): found a list; expected a plant group, such as phalaenopsis. Write plants as a plant group, such as phalaenopsis.',
    ],
  ],
  [
    'bench',
    'water: rain\nfeeds:\n  moss: { plants: phal, medium: moss, batch: 4 kg }\n',
    [
      'volume: bench.yaml:3 (feeds.moss.batch): found "4 kg"; expected a volume from 100 mL to 30000 L. Write for example 4 L or 1 US gal.',
    ],
  ],
  [
    'bench',
    'water: rain\nfeeds:\n  moss: { plants: phal, medium: moss, batch: 1 gal }\n',
    [
      'amount: bench.yaml:3 (feeds.moss.batch): found "gal"; expected which one: US gal or imperial gal. Write US gal or imperial gal.',
    ],
  ],
  [
    'bench',
    'water: { name: butt }\n',
    [
      'water-empty: bench.yaml:1 (water): found a water without use and without an analysis; expected the name of a water, or an analysis in mg/L. Write use: rain, or what your supplier states, such as Ca: 40.',
    ],
  ],
  [
    'bench',
    'water: 7\n',
    [
      'water-kind: bench.yaml:1 (water): found "7"; expected the name of a water, or an analysis. Write water: { use: rain }.',
    ],
  ],
  [
    'bench',
    'water: []\n',
    ['water-none: bench.yaml:1 (water): found an empty list; expected at least one water. Write water: { use: rain }.'],
  ],
  [
    'bench',
    'currency: EUR\nwater: { use: rain, price_per_litre: 0.02 USD }\n',
    [
      'price-currency: bench.yaml:2 (water.price_per_litre): found "0.02 USD"; expected a price in EUR. Write what it is in EUR.',
    ],
  ],
  [
    'bench',
    'water: { use: rain, price: 1, price_per_litre: 2 }\n',
    [
      'water-price: bench.yaml:1 (water.price): found price and price_per_litre; expected one of them. Keep price_per_litre.',
    ],
  ],
  [
    'bench',
    'water: [rain, rainwater]\n',
    [
      'water-twice: bench.yaml:1 (water.2): found "rain" again; expected each water once. Give each of your own waters a name of its own.',
    ],
  ],
  [
    'bench',
    'water: { use: rain, Ca: 40 }\n',
    [
      'water-use: bench.yaml:1 (water): found use with Ca; expected one name under use, or an analysis. Write several waters as a list: water: [{ use: rain }, { use: soft-tap }].',
    ],
  ],
  [
    'bench',
    'water: { use: [rain, hard] }\n',
    [
      'water-use: bench.yaml:1 (water): found a list under use; expected one name under use, or an analysis. Write several waters as a list: water: [{ use: rain }, { use: soft-tap }].',
    ],
  ],
  [
    'bench',
    'water: rain\nfeeds:\n  moss: { plants: phalaenopsis, medium: sphagnum, rules: ["NH4 < 0,1 * N", "Ca > 40"] }\n',
    [
      'decimal-comma: bench.yaml:3 (feeds.moss.rules.1): found "0,1"; expected a decimal point. Read as 0.1.',
      'rule-strict: bench.yaml:3 (feeds.moss.rules.1): found "NH4 < 0,1 * N"; expected <= or >=. Read < as <=: a limit includes its bound.',
      'rule-strict: bench.yaml:3 (feeds.moss.rules.2): found "Ca > 40"; expected <= or >=. Read > as >=: a limit includes its bound.',
    ],
  ],
  [
    'bench',
    'water: *butt\n',
    [
      'yaml-alias: bench.yaml: found an alias (*name) without an end or without its anchor; expected anchors before their aliases, few of each. Write the value out.',
    ],
  ],
  [
    'bench',
    'rain\n',
    [
      'yaml-not-a-map: bench.yaml:1: found text without keys; expected keys such as `water:` and `feeds:`. Begin with `name:`, `water:` and `feeds:`, one to a line.',
    ],
  ],
  [
    'bench',
    'water: rain\nkit: scale\n',
    [
      'yaml-not-keys: bench.yaml:2 (kit): found "scale"; expected keys: spoons, scale, syringe, dropper, cans. Write kit as keys with values.',
    ],
  ],
  [
    'bench',
    'water: rain\nname: strength: 80 %\n',
    [
      'yaml-syntax: bench.yaml:2: found "name: strength: 80 %"; expected YAML. Put quotes around a value that holds a colon: strength: "N: 90 mg/L".',
    ],
  ],
  [
    'bench',
    'water: rain\n\tpen: EC\n',
    ['yaml-syntax: bench.yaml:2: found "pen: EC"; expected YAML. Indent with spaces, not with a tab.'],
  ],
  [
    'bench',
    'water: { NO3: 12, HCO3: 120 }\n',
    [
      'key-unknown: bench.yaml:1 (water.NO3): found key "NO3"; expected a key of water. Write it as NO3-N (nitrate × 0.226).',
      'key-unknown: bench.yaml:1 (water.HCO3): found key "HCO3"; expected a key of water. Write it as alkalinity (mg/L CaCO3 = bicarbonate × 0.820).',
      'water-empty: bench.yaml:1 (water): found a water without use and without an analysis; expected the name of a water, or an analysis in mg/L. Write use: rain, or what your supplier states, such as Ca: 40.',
    ],
  ],
  [
    'bench',
    'water: rain\nseason: { hemisphere: west }\n',
    [
      'hemisphere: bench.yaml:2 (season.hemisphere): found "west"; expected north or south. Say which half of the world you grow in.',
    ],
  ],
  [
    'bench',
    'water: rain\nseason: { light: [1, 2, 3] }\n',
    [
      'twelve: bench.yaml:2 (season.light): found 3 figures; expected twelve figures, January first, from 0 to 200000. Write for example "3, 4, 6, 8, 9, 10, 10, 9, 7, 5, 3, 3".',
    ],
  ],
  [
    'bench',
    'water: rain\nseason: { temperature: "15 15 15 15 15 15 15 15 15 15 15 60" }\n',
    [
      'twelve: bench.yaml:2 (season.temperature): found "60"; expected twelve figures, January first, from 0 to 40 °C. Write for example "16, 16, 17, 19, 21, 23, 24, 24, 22, 19, 17, 16".',
    ],
  ],
  [
    'bench',
    'water: rain\nfeeds:\n  moss: { plants: phalaenopsis, medium: sphagnum, pots: 2.5 }\n',
    [
      'pots: bench.yaml:3 (feeds.moss.pots): found "2.5"; expected a whole number of pots from 1 to 100000. Write for example 24.',
    ],
  ],
  [
    'bench',
    'water: rain\nfeeds:\n  moss: { plants: phalaenopsis, medium: sphagnum, months: [Dec, Jan] }\n',
    [
      'months-not-keys: bench.yaml:3 (feeds.moss.months): found a list; expected months with what is fed in them. Write months: { Dec: rest, Jan: none }.',
    ],
  ],
  [
    'bench',
    'water: rain\nfeeds:\n  moss:\n    plants: phalaenopsis\n    medium: sphagnum\n    months: { Dezember: rest, Jan: none, January: rest, Feb: "rest, bloom", Mar: [], Apr: { N: 90 } }\n',
    [
      'month: bench.yaml:6 (feeds.moss.months.Dezember): found "Dezember"; expected a month, Jan to Dec. Did you mean december?',
      'month-twice: bench.yaml:6 (feeds.moss.months.January): found "January"; expected each month once. Keep the one you mean.',
      'month-twice: bench.yaml:6 (feeds.moss.months.Feb): found "rest, bloom"; expected each thing once. Keep the one you mean.',
      'month-empty: bench.yaml:6 (feeds.moss.months.Mar): found ""; expected none, or a phase (growth, bloom, rest), a strength or litres a week. Write for example Dec: rest, or Jan: none.',
      'value-wrong-kind: bench.yaml:6 (feeds.moss.months.Apr): found keys and values; expected words. Write none, or a phase, strength or litres.',
    ],
  ],
];
