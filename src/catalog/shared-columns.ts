import type { Column } from './columns.js';

/** Where a row comes from and how well it is supported; closes every file. */
export const SOURCE_COLUMNS: readonly Column[] = [
  { name: 'refs' },
  { name: 'source' },
  { name: 'evidence' },
  { name: 'notes', synonyms: ['note', 'comment', 'comments'] },
];

/** Names of the trade for what labels and water reports state. */
export const ELEMENT_SYNONYMS: ReadonlyMap<string, readonly string[]> = new Map([
  ['N', ['nitrogen', 'total nitrogen', 'total N']],
  ['NO3-N', ['nitrate nitrogen', 'nitric nitrogen', 'nitrate-N', 'N-NO3']],
  ['NH4-N', ['ammoniacal nitrogen', 'ammonium nitrogen', 'ammonia nitrogen', 'ammonium-N', 'N-NH4', 'NH3-N']],
  ['urea-N', ['urea nitrogen', 'ureic nitrogen', 'N-urea']],
  ['other-N', ['other nitrogen', 'other water soluble nitrogen']],
  ['P2O5', ['phosphate', 'available phosphate', 'available P2O5', 'phosphorus pentoxide']],
  ['P', ['phosphorus']],
  ['K2O', ['potash', 'soluble potash', 'soluble K2O', 'potassium oxide']],
  ['K', ['potassium']],
  ['CaO', ['calcium oxide']],
  ['Ca', ['calcium']],
  ['MgO', ['magnesium oxide', 'magnesia']],
  ['Mg', ['magnesium']],
  ['SO3', ['sulfur trioxide', 'sulphur trioxide']],
  ['S', ['sulfur', 'sulphur']],
  ['Na2O', ['sodium oxide']],
  ['Na', ['sodium']],
  ['Cl', ['chlorine', 'chloride']],
  ['SiO2', ['silica', 'silicon dioxide']],
  ['Si', ['silicon']],
  ['Fe', ['iron']],
  ['Mn', ['manganese']],
  ['Zn', ['zinc']],
  ['Cu', ['copper']],
  ['B', ['boron']],
  ['Mo', ['molybdenum']],
  ['Co', ['cobalt']],
  ['Ni', ['nickel']],
]);
