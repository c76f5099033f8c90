import type { Band, Programme } from '../programme/programme.js';
import { figure } from './figures.js';
import { type Block, heading, list, paragraph, section, type Sheet, table } from './sheet.js';
import { ecCap, linearRules } from '../feed/request.js';
import { evidenceSays } from './says/programmes.js';
import { atDoor } from '../door.js';

/** Every programme with its aim for nitrogen and its EC cap; a single one in full, with its evidence. */
export function programmesSheet(programmes: readonly Programme[]): Sheet {
  const [only] = programmes;
  if (programmes.length === 1 && only) return oneProgramme(only);
  const groups = new Map<string, Programme[]>();
  for (const p of programmes)
    groups.set(`${p.plants}\n${p.medium}`, [...(groups.get(`${p.plants}\n${p.medium}`) ?? []), p]);
  const rows = [...groups.values()].map((group) => {
    const aim = (phase: Programme['phase']): string => {
      const nitrogen = group.find((p) => p.phase === phase)?.bands.N;
      return nitrogen?.aim === undefined ? '' : figure(nitrogen.aim);
    };
    const { plants, medium } = group[0]!;
    const cap = ecCapOf(group[0]!);
    return [plants, medium, aim('growth'), aim('bloom'), aim('rest'), cap === null ? '' : figure(cap)];
  });
  return {
    title: 'Programmes at full strength',
    blocks: [
      paragraph('Aim for total nitrogen in each phase, mg/L, and the highest EC, mS/cm.'),
      table(['plants', 'medium', '>growth', '>bloom', '>rest', '>EC'], rows),
      paragraph(
        atDoor({
          typed: 'With --plants, --medium and --phase one programme is shown in full, with its evidence.',
          page: 'Choose plants and a medium, and one programme is shown in full, with its evidence.',
        }),
        'quiet',
      ),
    ],
  };
}

const ecCapOf = (programme: Programme): number | null => ecCap({ programme, rules: [] });

function oneProgramme(programme: Programme): Sheet {
  const end = (value: number | undefined): string => (value === undefined ? '' : figure(value));
  const bands = Object.entries(programme.bands) as [string, Band][];
  const cap = ecCapOf(programme);
  const blocks: Block[] = [
    heading('Bands at full strength, mg/L in the can'),
    table(
      ['', '>least', '>aim', '>most'],
      bands.map(([n, band]) => [n, end(band.min), end(band.aim), end(band.max)]),
    ),
    heading('Rules'),
    list([
      ...linearRules({ programme, rules: [] }).map((rule) => rule.text),
      ...(cap === null ? [] : [`EC <= ${figure(cap)}`]),
    ]),
    ...section('Where the numbers come from', programme.evidence.map(evidenceSays)),
  ];
  return { title: `${programme.plants} in ${programme.medium}, ${programme.phase}`, blocks };
}
