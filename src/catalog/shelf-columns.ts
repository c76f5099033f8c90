import { ANALYSIS_COLUMNS } from '../label/index.js';
import type { Column } from './columns.js';
import { ELEMENT_SYNONYMS, SOURCE_COLUMNS } from './shared-columns.js';

/** The columns of a shelf, a market or the salts. */
export const SHELF_COLUMNS: readonly Column[] = [
  { name: 'id', required: true },
  { name: 'name', synonyms: ['product'] },
  { name: 'form', required: true },
  { name: 'basis' },
  ...ANALYSIS_COLUMNS.map((name) => ({ name, synonyms: ELEMENT_SYNONYMS.get(name) ?? [], unit: '%' })),
  { name: 'formula' },
  { name: 'purity', unit: '%' },
  { name: 'density', unit: 'g/mL' },
  { name: 'bulk_density', unit: 'g/mL' },
  { name: 'derived_from' },
  { name: 'on_hand', synonyms: ['stock', 'in stock', 'left'] },
  { name: 'pack', synonyms: ['pack size', 'size', 'package'] },
  { name: 'price', synonyms: ['cost', 'pack price'] },
  { name: 'max_rate', synonyms: ['maximum rate', 'label rate'] },
  { name: 'ec', synonyms: ['EC of 1 g/L', 'EC of 1 mL/L'], unit: 'mS/cm' },
  { name: 'kind' },
  ...SOURCE_COLUMNS,
];
