import { blends } from './blends.js';
import { cycling } from './cycling.js';
import type { Family } from './family.js';
import { hair } from './hair.js';
import { integers } from './integers.js';
import { oddities } from './oddities.js';
import { scaling } from './scaling.js';
import { shapes } from './shapes.js';

export const families: Family[] = [...blends, ...scaling, ...hair, ...cycling, ...shapes, ...oddities, ...integers];
