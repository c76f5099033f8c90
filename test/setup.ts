import fc from 'fast-check';
import { beforeEach, expect } from 'vitest';

// a counterexample of doubles may be made smaller for ever: what it is by then is told
fc.configureGlobal({ interruptAfterTimeLimit: 60_000, markInterruptAsFailure: true });

// a test that ran no expect has shown nothing: a loop over nothing, or a return before the first of them
beforeEach(() => {
  expect.hasAssertions();
});
