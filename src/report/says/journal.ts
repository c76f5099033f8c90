import { atDoor } from '../../door.js';
import type { Drift } from '../../year/journal/drift.js';
import type { PotStands } from '../../year/journal/results.js';
import { formatNumber } from '../../units/index.js';
import { figure } from '../figures.js';
import { volumeText } from '../volume.js';
import { onPen, penUnit } from './on-pen.js';

/** Whether readings moved, and what to do about it. */
export function driftSays({ verdict, none, pen, jars, feed, share, since, standards }: Drift): string {
  if (verdict === 'none') return `No drift: readings stay where they were (${hundred(none)}).`;
  const by = `${figure(100 * Math.abs(share))} % ${share < 0 ? 'lower' : 'higher'} since ${since!.date} (entry ${since!.entry})`;
  const cans = feed === null ? 'Cans' : `Cans of ${feed}`;
  switch (verdict) {
    case 'pen':
      return atDoor({
        typed: `The pen drifted: it reads ${by} (${hundred(pen)}). Calibrate it; until then --pen-factor ${formatNumber(1 / (1 + share), 4)}, or what velamen meter --standard says.`,
        page: `The pen drifted: it reads ${by} (${hundred(pen)}). Calibrate it; until then multiply what it shows by ${formatNumber(1 / (1 + share), 4)}, or check it in Plants.`,
      });
    case 'jars':
      return standards > 0
        ? `${cans} read ${by}, the pen in its standard does not (${hundred(jars)}): a powder that drew water, a new pack, another spoon or another water. ${WEIGH}, and look at what was opened then.`
        : `${cans} read ${by}, and other cans do not (${hundred(jars)}): a powder that drew water, a new pack or another spoon. ${WEIGH}, and look at what was opened then.`;
    case 'either':
      return atDoor({
        typed: `Cans read ${by}; whether it is the pen or the jars, nothing tells yet. Read the pen in its standard: velamen journal add --standard "1413 µS" --reads …`,
        page: `Cans read ${by}; whether it is the pen or the jars, nothing tells yet. Read the pen in its standard: Plants, below the pen.`,
      });
    default:
      return verdict satisfies never;
  }
}

const hundred = (share: number): string => `${Math.min(99, Math.round(100 * share))} of 100`;

/** How a pot stands and what to do, as the pen of the bench shows it. @param scale ppm per mS/cm; null of a pen that shows EC */
export function potSays(pot: PotStands, scale: number | null): string {
  const { standing, runOff, fed, buildUp, goOnAt } = pot;
  if (standing === 'not known' || fed === null)
    return `Run-off reads ${onPen(runOff, scale)} ${penUnit(scale)}; what it is fed is not known${atDoor({ typed: ' (--fed)', page: '' })}.`;
  const times = `Run-off reads ${onPen(runOff, scale)} ${penUnit(scale)}, ${figure(buildUp!)} × what it is fed (${onPen(fed, scale)})`;
  if (standing === 'go on') return `${times}: go on feeding.`;
  if (standing === 'look again')
    return `${times}: a little is building up. Water plainly once, and read again at the watering after.`;
  return `${times}: salts build up. Flush ${waterSays(pot)}, let it drain, read what runs out last, and feed again once it reads ${onPen(goOnAt!, scale)} or less; else flush once more.`;
}

function waterSays({ flushLitres, potVolumes, holds, medium }: PotStands): string {
  if (potVolumes === null)
    return medium === 'mounted' ? 'it: water it plainly until nothing salty runs off' : 'with plain water';
  const times = `${figure(potVolumes)} × what the empty pot holds`;
  return flushLitres === null
    ? `with ${times} of plain water`
    : `with ${volumeText(flushLitres)} of plain water (${times}, ${volumeText(holds!)})`;
}

const WEIGH = atDoor({
  typed: 'Weigh ten level spoons (velamen meter --weigh)',
  page: 'Weigh ten level spoons (Shelf, beside the jar)',
});
