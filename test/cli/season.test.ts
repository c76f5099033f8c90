import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { folder, velamen } from './world.js';

const MOSS = 'season --bench examples/moss-without-ammonium --from 2026-12-01'.split(' ');
