import type { Reporter, TestModule } from 'vitest/node';

/** Closes a run with one plain line that any CI can read. */
export default class Tally implements Reporter {
  onTestRunEnd(modules: ReadonlyArray<TestModule>): void {
    let passed = 0;
    let failed = 0;
    let skipped = 0;
    for (const module of modules) {
      if (module.state() === 'failed' && [...module.children.allTests()].length === 0) failed += 1;
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state === 'passed') passed += 1;
        else if (state === 'failed') failed += 1;
        else skipped += 1;
      }
    }
    const tail = skipped > 0 ? `, ${skipped} skipped` : '';
    process.stdout.write(`\n${passed} passed, ${failed} failed${tail}\n`);
  }
}
