import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const outdir = mkdtempSync(join(tmpdir(), 'velamen-process-'));
const cli = join(outdir, 'cli.js');

beforeAll(() => {
  execFileSync(process.execPath, [join(root, 'build.mjs'), '--no-types', '--to', outdir]);
});
afterAll(() => rmSync(outdir, { recursive: true, force: true }));

const shell = (line: string) => {
  const { status, stdout, stderr } = spawnSync('sh', ['-c', line], {
    cwd: root,
    encoding: 'utf8',
    env: { ...process.env, CLI: cli, NODE: process.execPath },
  });
  return { status, stdout, stderr };
};

describe('the real process', () => {
  it.runIf(existsSync('/dev/full'))('says so where its output cannot be written', () => {
    const full = shell('"$NODE" "$CLI" labels --catalog potassium-nitrate > /dev/full');
    expect(full.status).toBe(2);
    expect(full.stderr).toContain('the output: found no room left on the disk');
    expect(full.stderr).not.toContain('ENOSPC');
  });

  it.runIf(existsSync('/dev/full'))('leaves its exit code where a refusal cannot be told', () => {
    expect(shell('"$NODE" "$CLI" blend --plnats fern 2> /dev/full').status).toBe(2);
  });

  it('finds its catalog, writes to both streams and leaves its exit code', () => {
    expect(shell('"$NODE" "$CLI" labels --catalog potassium-nitrate')).toMatchObject({ status: 0, stderr: '' });
    const refused = shell('"$NODE" "$CLI" blend --plnats fern');
    expect(refused).toMatchObject({ status: 2, stdout: '' });
    expect(refused.stderr).toContain('Did you mean --plants?');
    expect(shell('"$NODE" "$CLI" blend --bench examples/what-the-shelf-reaches --feed moth-orchids').status).toBe(3);
  });

  it('does not mind a reader that closes early', () => {
    const ran = shell('{ "$NODE" "$CLI" blend --programmes --json; echo "exit $?" >&2; } | head -n 1');
    expect(ran).toEqual({ status: 0, stdout: '{\n', stderr: 'exit 0\n' });
  });

  it('prints no escapes into a pipe', () => {
    expect(shell('"$NODE" "$CLI" blend --bench examples/moss-without-ammonium').stdout).not.toContain('\u001b');
  });
});
