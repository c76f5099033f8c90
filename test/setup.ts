import { beforeEach, expect } from 'vitest';

// a test that ran no expect has shown nothing: a loop over nothing, or a return before the first of them
beforeEach(() => {
  expect.hasAssertions();
});
