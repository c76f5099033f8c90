import type { Family } from './family.js';
import { hair } from './hair.js';
import { integers } from './integers.js';
import { scaling } from './scaling.js';

export const families: Family[] = [...scaling, ...hair, ...integers];
