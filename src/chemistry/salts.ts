import { formula, nutrientsPerGram } from './formula.js';
import { NUTRIENTS, type Nutrient } from './nutrients.js';
import { nearest } from '../problem.js';
import { plain, spellings } from './salt-names.js';

/** A substance that labels name as a source. */
export interface Salt {
  name: string;
  formula: string;
  /** Nutrients in it, nitrogen by form and as N. */
  holds: ReadonlySet<Nutrient>;
}

/** The substance of a common name (`potassium nitrate`, `monopotassium phosphate`, `Epsom salt`, `iron EDTA`), or undefined. */
export function saltNamed(name: string): Salt | undefined {
  for (const spelling of spellings(name)) {
    const salt = BY_NAME.get(spelling);
    if (salt) return salt;
  }
  return undefined;
}

/** The substances of a `derived from` list and the names that are not understood (kelp, hydrolysate …). */
export function saltsOf(names: readonly string[]): { known: Salt[]; unknown: string[] } {
  const known: Salt[] = [];
  const unknown: string[] = [];
  for (const name of names.flatMap(namesIn)) {
    const salt = saltNamed(name);
    if (salt) known.push(salt);
    else unknown.push(name);
  }
  return { known, unknown };
}

/** The name that a misspelt one is nearest to: `potassium nitrate` for "potasium nitrate"; undefined where none is within a sixth of its letters. */
export function nearestSalt(name: string): string | undefined {
  const written = plain(name);
  const near = nearest(written, BY_NAME.keys(), 1, 1 / 6)[0];
  // a longer name of which the wanted is a part would be a guess at random
  return near === undefined || near.length > written.length + MISSING ? undefined : near;
}

/** Letters that a misspelt name may lack. */
const MISSING = 2;

/** Labels print commas and `and`: such a name is taken apart where that makes a substance of a part. */
function namesIn(name: string): string[] {
  if (saltNamed(name)) return [name];
  const parts = name
    .split(/[,;]|\band\b|&/i)
    .map((part) => part.trim())
    .filter(Boolean);
  return parts.some((part) => saltNamed(part)) ? parts : [name];
}

/** Every substance that we know, each once. */
export function allSalts(): readonly Salt[] {
  return ALL;
}

/**
 * Names as printed under `derived from`; the first is the one we print. Chelates are taken as their usual sodium salts, and
 * "calcium nitrate" may be the double salt with ammonium, as it is sold to growers (common practice, no source).
 */
const TABLE: readonly [formula: string, ...names: string[]][] = [
  ['KNO3', 'potassium nitrate', 'nitrate of potash', 'saltpeter', 'saltpetre', 'potassium nitrate prill'],
  ['Ca(NO3)2·4H2O', 'calcium nitrate', 'calcium nitrate tetrahydrate', 'nitrate of lime'],
  ['Ca(NO3)2', 'calcium nitrate anhydrous', 'anhydrous calcium nitrate'],
  [
    '5Ca(NO3)2·NH4NO3·10H2O',
    'calcium ammonium nitrate',
    'ammonium calcium nitrate',
    'calcium ammonium nitrate double salt',
    'calcium nitrate double salt',
    'horticultural calcium nitrate',
    'ammonium calcium nitrate double salt',
    'ammoniated calcium nitrate',
  ],
  ['Mg(NO3)2·6H2O', 'magnesium nitrate', 'magnesium nitrate hexahydrate', 'nitrate of magnesia'],
  ['NaNO3', 'sodium nitrate', 'nitrate of soda', 'chile saltpeter'],
  ['NH4NO3', 'ammonium nitrate'],
  ['(NH4)2SO4', 'ammonium sulfate', 'sulfate of ammonia', 'diammonium sulfate'],
  ['(NH4)2SO4·2NH4NO3', 'ammonium sulfate nitrate', 'ammonium nitrate sulfate'],
  ['NH4Cl', 'ammonium chloride'],
  ['NH4HCO3', 'ammonium bicarbonate'],
  ['NH3', 'ammonia', 'anhydrous ammonia', 'aqua ammonia', 'ammonium hydroxide'],
  ['CO(NH2)2', 'urea', 'carbamide'],
  ['CO(NH2)2·H3PO4', 'urea phosphate'],
  ['C6H14N4O2', 'isobutylidene diurea', 'ibdu'],
  ['C3H8N4O2', 'methylene urea', 'methylene ureas', 'methylene diurea', 'urea formaldehyde', 'ureaform'],
  ['NH4H2PO4', 'ammonium phosphate', 'ammonium phosphates'],
  ['NH4H2PO4', 'monoammonium phosphate', 'ammonium dihydrogen phosphate', 'map', 'monobasic ammonium phosphate'],
  ['(NH4)2HPO4', 'diammonium phosphate', 'dap', 'dibasic ammonium phosphate', 'diammonium hydrogen phosphate'],
  ['(NH4)3HP2O7', 'ammonium polyphosphate', 'ammonium polyphosphates'],
  ['KH2PO4', 'potassium phosphate', 'potassium phosphates'],
  [
    'KH2PO4',
    'monopotassium phosphate',
    'mkp',
    'potassium dihydrogen phosphate',
    'monobasic potassium phosphate',
    'mono potassium phosphate',
    'potassium phosphate monobasic',
  ],
  ['K2HPO4', 'dipotassium phosphate', 'dkp', 'dibasic potassium phosphate', 'dipotassium hydrogen phosphate'],
  ['NaH2PO4', 'sodium phosphate'],
  ['NaH2PO4', 'monosodium phosphate', 'sodium dihydrogen phosphate'],
  ['Na2HPO4', 'disodium phosphate', 'disodium hydrogen phosphate'],
  ['H3PO4', 'phosphoric acid', 'orthophosphoric acid'],
  ['K4P2O7', 'potassium polyphosphate', 'tetrapotassium pyrophosphate', 'potassium pyrophosphate'],
  ['KH2PO3', 'potassium phosphite', 'monopotassium phosphite'],
  ['Ca3(PO4)2', 'tricalcium phosphate', 'calcium phosphate'],
  [
    'Ca(H2PO4)2·H2O',
    'monocalcium phosphate',
    'triple superphosphate',
    'calcium dihydrogen phosphate',
    'monobasic calcium phosphate',
  ],
  ['Ca(H2PO4)2·H2O·2CaSO4', 'superphosphate', 'single superphosphate'],
  ['CaHPO4·2H2O', 'dicalcium phosphate', 'calcium hydrogen phosphate', 'dibasic calcium phosphate'],
  ['MgHPO4·3H2O', 'magnesium phosphate'],
  ['K2SO4', 'potassium sulfate', 'sulfate of potash'],
  ['KCl', 'potassium chloride', 'muriate of potash'],
  ['K2CO3', 'potassium carbonate'],
  ['KHCO3', 'potassium bicarbonate', 'potassium hydrogen carbonate'],
  ['KOH', 'potassium hydroxide', 'caustic potash'],
  ['K2SiO3', 'potassium silicate', 'silicate of potash', 'potassium metasilicate'],
  ['Na2SiO3', 'sodium silicate', 'sodium metasilicate'],
  ['CaSiO3', 'calcium silicate', 'wollastonite'],
  ['H4SiO4', 'orthosilicic acid', 'silicic acid', 'monosilicic acid'],
  ['SiO2', 'silicon dioxide', 'silica'],
  ['K3C6H5O7·H2O', 'potassium citrate', 'tripotassium citrate'],
  ['K2S2O3', 'potassium thiosulfate'],
  ['(NH4)2S2O3', 'ammonium thiosulfate'],
  ['K2SO4·2MgSO4', 'sulfate of potash magnesia', 'potassium magnesium sulfate', 'langbeinite'],
  ['MgSO4·7H2O', 'magnesium sulfate', 'epsom salt', 'epsom salts', 'magnesium sulfate heptahydrate', 'bitter salt'],
  ['MgSO4·H2O', 'kieserite', 'magnesium sulfate monohydrate'],
  ['MgCl2·6H2O', 'magnesium chloride', 'magnesium chloride hexahydrate'],
  ['MgCO3', 'magnesium carbonate', 'magnesite'],
  ['MgO', 'magnesium oxide', 'magnesia'],
  ['Mg(OH)2', 'magnesium hydroxide'],
  ['CaMg(CO3)2', 'dolomite', 'dolomitic lime', 'dolomitic limestone', 'calcium magnesium carbonate'],
  ['CaCl2·2H2O', 'calcium chloride', 'calcium chloride dihydrate'],
  ['CaSO4·2H2O', 'calcium sulfate', 'gypsum', 'calcium sulfate dihydrate'],
  ['CaCO3', 'calcium carbonate', 'limestone', 'lime', 'calcite', 'chalk'],
  ['CaO', 'calcium oxide', 'quicklime'],
  ['Ca(OH)2', 'calcium hydroxide', 'hydrated lime', 'slaked lime'],
  ['Ca(CH3COO)2·H2O', 'calcium acetate'],
  ['Mg(CH3COO)2·4H2O', 'magnesium acetate'],
  ['CH3COOK', 'potassium acetate'],
  ['Ca3(C6H5O7)2·4H2O', 'calcium citrate'],
  ['CaC10H12N2O8Na2', 'calcium edta', 'calcium disodium edta'],
  ['MgC10H12N2O8Na2', 'magnesium edta', 'magnesium disodium edta'],
  ['NaCl', 'sodium chloride', 'salt', 'common salt'],
  ['Na2SO4', 'sodium sulfate'],
  ['NaHCO3', 'sodium bicarbonate', 'baking soda'],
  ['Na2CO3', 'sodium carbonate', 'soda ash'],
  ['NaOH', 'sodium hydroxide', 'caustic soda'],
  ['Na2H2C10H12N2O8·2H2O', 'disodium edta', 'sodium edta'],
  ['HNO3', 'nitric acid'],
  ['H2SO4', 'sulfuric acid'],
  ['HCl', 'hydrochloric acid', 'muriatic acid'],
  ['C6H8O7', 'citric acid', 'citric acid anhydrous'],
  ['CH3COOH', 'acetic acid'],
  ['S', 'sulfur', 'elemental sulfur'],
  ['H3BO3', 'boric acid', 'orthoboric acid'],
  ['Na2B4O7·10H2O', 'borax', 'sodium borate', 'sodium tetraborate'],
  ['Na2B8O13·4H2O', 'disodium octaborate', 'disodium octaborate tetrahydrate', 'sodium octaborate'],
  ['C2H8BNO3', 'boron ethanolamine', 'monoethanolamine borate'],
  ['FeSO4·7H2O', 'iron sulfate', 'ferrous sulfate', 'ferrous sulfate heptahydrate', 'green vitriol'],
  ['Fe2(SO4)3', 'ferric sulfate'],
  ['Fe(NH4)2(SO4)2·6H2O', 'ferrous ammonium sulfate', 'iron ammonium sulfate'],
  ['Fe(NO3)3·9H2O', 'iron nitrate', 'ferric nitrate'],
  ['Fe2O3', 'iron oxide', 'ferric oxide'],
  ['FeC10H15N2O7', 'iron hedta'],
  ['FeC20H20N2O6Na', 'iron eddhma'],
  ['FeCl3·6H2O', 'iron chloride', 'ferric chloride'],
  [
    'FeC10H12N2O8Na',
    'iron edta',
    'ferric edta',
    'sodium ferric edta',
    'ferric sodium edta',
    'iron sodium edta',
    'sodium iron edta',
  ],
  ['FeC14H18N3O10Na2', 'iron dtpa', 'ferric dtpa', 'sodium ferric dtpa', 'iron sodium dtpa', 'disodium ferric dtpa'],
  ['FeC18H16N2O6Na', 'iron eddha', 'ferric eddha', 'sodium ferric eddha', 'iron sodium eddha'],
  ['FeC6H5O7', 'iron citrate', 'ferric citrate'],
  ['MnSO4·H2O', 'manganese sulfate', 'manganous sulfate', 'manganese sulfate monohydrate'],
  ['MnCl2·4H2O', 'manganese chloride', 'manganous chloride'],
  ['Mn(NO3)2·4H2O', 'manganese nitrate'],
  ['MnC10H12N2O8Na2', 'manganese edta', 'manganese disodium edta', 'disodium manganese edta'],
  ['MnC14H18N3O10Na3', 'manganese dtpa'],
  ['MnCO3', 'manganese carbonate'],
  ['MnO', 'manganese oxide', 'manganous oxide'],
  ['ZnSO4·7H2O', 'zinc sulfate', 'zinc sulfate heptahydrate', 'white vitriol'],
  ['ZnSO4·H2O', 'zinc sulfate monohydrate'],
  ['ZnCl2', 'zinc chloride'],
  ['ZnO', 'zinc oxide'],
  ['Zn(NO3)2·6H2O', 'zinc nitrate'],
  ['ZnC10H12N2O8Na2', 'zinc edta', 'zinc disodium edta', 'disodium zinc edta'],
  ['ZnC14H18N3O10Na3', 'zinc dtpa'],
  ['ZnCO3', 'zinc carbonate'],
  ['CuSO4·5H2O', 'copper sulfate', 'cupric sulfate', 'copper sulfate pentahydrate', 'blue vitriol', 'bluestone'],
  ['CuCl2·2H2O', 'copper chloride', 'cupric chloride'],
  ['CuC10H12N2O8Na2', 'copper edta', 'copper disodium edta', 'disodium copper edta'],
  ['CuC14H18N3O10Na3', 'copper dtpa'],
  ['Cu(NO3)2·3H2O', 'copper nitrate', 'cupric nitrate'],
  ['CuO', 'copper oxide', 'cupric oxide'],
  ['Na2MoO4·2H2O', 'sodium molybdate', 'sodium molybdate dihydrate'],
  ['(NH4)6Mo7O24·4H2O', 'ammonium molybdate', 'ammonium heptamolybdate', 'ammonium molybdate tetrahydrate'],
  ['H2MoO4·H2O', 'molybdic acid'],
  ['MoO3', 'molybdenum trioxide'],
  ['CoSO4·7H2O', 'cobalt sulfate'],
  ['CoCl2·6H2O', 'cobalt chloride'],
  ['Co(NO3)2·6H2O', 'cobalt nitrate'],
  ['CoC10H12N2O8Na2', 'cobalt edta'],
  ['NiSO4·6H2O', 'nickel sulfate'],
  ['NiCl2·6H2O', 'nickel chloride'],
  ['C2H5NO2', 'glycine'],
  ['Ca(C2H4NO2)2', 'calcium glycinate'],
];

const BY_NAME: Map<string, Salt> = new Map(
  TABLE.flatMap(([text, first, ...others]) => {
    const alike = () => (first === 'calcium nitrate' ? holdsOf('5Ca(NO3)2·NH4NO3·10H2O') : []);
    let holds: Salt['holds'] | undefined;
    const salt: Salt = {
      name: first!,
      formula: text,
      // a shelf names a few of them
      get holds() {
        holds ??= new Set([...holdsOf(text), ...alike()]);
        return holds;
      },
    };
    return [first!, ...others, text].map((name): [string, Salt] => [plain(name), salt]);
  }),
);
for (const salt of new Set(BY_NAME.values())) {
  const dry = plain(salt.formula.replace(/(?:·\d*H2O)+$/, ''));
  if (!BY_NAME.has(dry)) BY_NAME.set(dry, salt);
}
const ALL: readonly Salt[] = [...new Set(BY_NAME.values())];

function holdsOf(text: string): ReadonlySet<Nutrient> {
  const mg = nutrientsPerGram(formula(text));
  return new Set(NUTRIENTS.filter((nutrient) => mg[nutrient] > 0));
}
