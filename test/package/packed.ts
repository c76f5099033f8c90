import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export const root = join(import.meta.dirname, '../..');

/** An empty folder into which the packed package has been installed, as a stranger would: from its tarball, without the network. */
export function installed(): string {
  const home = mkdtempSync(join(tmpdir(), 'velamen-packed-'));
  npm(['pack', '--pack-destination', home], root);
  const tarball = join(home, readdirSync(home).find((name) => name.endsWith('.tgz'))!);
  const app = join(home, 'app');
  mkdirSync(app);
  writeFileSync(join(app, 'package.json'), '{ "name": "app", "private": true, "type": "module" }\n');
  npm(['install', '--offline', '--no-audit', '--no-fund', tarball], app);
  return app;
}

function npm(argv: readonly string[], cwd: string): void {
  const shell = process.platform === 'win32';
  execFileSync('npm', argv, {
    cwd,
    shell,
    stdio: ['ignore', 'ignore', 'inherit'],
    env: { ...process.env, npm_config_loglevel: 'error' },
  });
}

/** Runs a script in a folder and gives what it prints. */
export const node = (argv: readonly string[], cwd: string): string =>
  execFileSync(process.execPath, argv, { cwd, encoding: 'utf8' });
