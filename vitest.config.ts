import { defineConfig } from 'vitest/config';
import LongestFirst from './test/longest-first.js';

export default defineConfig(({ mode }) => ({
  test: {
    include: ['test/**/*.test.ts'],
    globalSetup: ['test/scratch.ts'],
    setupFiles: ['test/setup.ts'],
    testTimeout: 300_000,
    hookTimeout: 300_000,
    maxWorkers: 2,
    // a worker loads the desk once for all its files, which takes a third of the time; rooms keep no state, and so may tests keep none.
    // What is timed is not to find it warm
    isolate: mode === 'benchmark',
    // a young heap of some room: a twentieth of the time went into sweeping it
    execArgv: ['--max-semi-space-size=64'],
    sequence: { sequencer: LongestFirst },
    reporters: process.env.CI ? ['default', './test/tally.ts'] : ['default'],
  },
}));
