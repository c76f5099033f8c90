import { blends } from './blends.js';
import { conditioning } from './conditioning.js';
import { cycling } from './cycling.js';
import type { Family } from './family.js';
import { hair } from './hair.js';
import { integers } from './integers.js';
import { mixed } from './mixed.js';
import { oddities } from './oddities.js';
import { published } from './published.js';
import { scaling } from './scaling.js';
import { shapes } from './shapes.js';

export const families: Family[] = [
  ...blends,
  ...scaling,
  ...conditioning,
  ...hair,
  ...cycling,
  ...published,
  ...shapes,
  ...oddities,
  ...integers,
  ...mixed,
];
