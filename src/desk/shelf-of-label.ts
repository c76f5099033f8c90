import type { PrintedLabel } from '../label/printed-label.js';

/** A printed label as the text of a shelf of one product, `label`, so that it is read and doubted as any row is. */
export function shelfOfLabel({ name, analysis }: PrintedLabel): string {
  const { form, basis, density, percent, derivedFrom } = analysis;
  const cells: [string, string][] = [
    ['id', 'label'],
    ['name', name],
    ['form', form],
    ['basis', basis ?? ''],
    ['density', density === undefined ? '' : String(density)],
    ...Object.entries(percent).map(([column, value]): [string, string] => [column, String(value)]),
    ['derived_from', (derivedFrom ?? []).join('; ')],
  ];
  const quoted = cells.map(([, value]) => `"${value.replaceAll('"', '""')}"`);
  return `${cells.map(([column]) => column).join(',')}\n${quoted.join(',')}\n`;
}
