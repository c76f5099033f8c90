import type { Finding } from './examine.js';

/** No verdict may be wrong, one in a hundred may be uncertified, none may take longer than this. */
export const MOST_UNCERTIFIED = 0.01;
export const MOST_MILLISECONDS = 3000;

export interface Tally {
  programs: number;
  optimal: number;
  infeasible: number;
  unbounded: number;
  uncertified: number;
  wrong: number;
  slowest: number;
  engines: Record<string, number>;
  plainWrong: number;
  byTolerance: number;
  /** Judged by HiGHS alone. */
  withoutExact: number;
}

export function tally(findings: readonly Finding[]): Tally {
  const count = (test: (finding: Finding) => boolean) => findings.filter(test).length;
  const engines: Record<string, number> = {};
  for (const { engine } of findings) if (engine !== undefined) engines[engine] = (engines[engine] ?? 0) + 1;
  return {
    programs: findings.length,
    optimal: count(({ verdict }) => verdict === 'optimal'),
    infeasible: count(({ verdict }) => verdict === 'infeasible'),
    unbounded: count(({ verdict }) => verdict === 'unbounded'),
    uncertified: count(({ verdict }) => verdict === 'uncertified'),
    wrong: count(({ fault }) => fault !== undefined),
    slowest: findings.reduce((most, { milliseconds }) => Math.max(most, milliseconds), 0),
    engines,
    plainWrong: count(({ plainFault }) => plainFault !== undefined),
    byTolerance: count((finding) => finding.byTolerance === true),
    withoutExact: count(({ truth }) => truth === 'unknown'),
  };
}

/** What a run misses of its aims; empty where it keeps them all. */
export function missed({ programs, wrong, uncertified, slowest }: Tally): string[] {
  return [
    ...(programs > 0 ? [] : ['no programs']),
    ...(wrong === 0 ? [] : [`${wrong} wrong`]),
    ...(uncertified <= MOST_UNCERTIFIED * programs ? [] : [`${uncertified} of ${programs} uncertified`]),
    ...(slowest <= MOST_MILLISECONDS ? [] : [`${Math.round(slowest)} ms for one program`]),
  ];
}

const HEAD = ['family', 'programs', 'optimal', 'infeasible', 'unbounded', 'uncertified', 'wrong', 'slowest ms'];

/** One line a family, one for all, engines and the faults below. */
export function table(findings: readonly Finding[]): string {
  const families = [...new Set(findings.map(({ family }) => family))];
  const engines = [...new Set(findings.flatMap(({ engine }) => engine ?? []))].sort();
  const line = (name: string, t: Tally) => [
    name,
    ...[t.programs, t.optimal, t.infeasible, t.unbounded, t.uncertified, t.wrong, Math.round(t.slowest)].map(String),
    ...engines.map((engine) => String(t.engines[engine] ?? 0)),
    String(t.byTolerance),
    String(t.plainWrong),
    String(t.withoutExact),
  ];
  const lines = [
    [...HEAD, ...engines, 'by tolerance', 'plain HiGHS wrong', 'judged by HiGHS alone'],
    ...families.map((name) => line(name, tally(findings.filter(({ family }) => family === name)))),
    line('all', tally(findings)),
  ];
  const widths = lines[0]!.map((_, k) => Math.max(...lines.map((cells) => cells[k]!.length)));
  return lines
    .map((cells) => cells.map((cell, k) => (k === 0 ? cell.padEnd(widths[k]!) : cell.padStart(widths[k]!))).join('  '))
    .join('\n');
}

/** The findings that somebody has to look at. */
export function trouble(findings: readonly Finding[]): string[] {
  return findings
    .filter(
      ({ fault, verdict, milliseconds }) =>
        fault !== undefined || verdict === 'uncertified' || milliseconds > MOST_MILLISECONDS,
    )
    .map(({ family, number, verdict, truth, fault, why, milliseconds }) => {
      const said = fault ? `WRONG: ${fault}` : verdict === 'uncertified' ? `uncertified, is ${truth}: ${why}` : 'slow';
      return `${family} #${number}: ${said} (${Math.round(milliseconds)} ms)`;
    });
}
