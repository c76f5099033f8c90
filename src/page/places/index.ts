import { buyPlace } from './buy.js';
import { feedPlace } from './feed.js';
import { filesPlace } from './files.js';
import type { PlaceName } from './names.js';
import type { Place } from './place.js';
import { plantsPlace } from './plants.js';
import { shelfPlace } from './shelf.js';
import { sinkPlace } from './sink.js';
import { yearPlace } from './year.js';

export const PLACE: Readonly<Record<PlaceName, Place>> = {
  shelf: shelfPlace,
  plants: plantsPlace,
  feed: feedPlace,
  sink: sinkPlace,
  buy: buyPlace,
  year: yearPlace,
  files: filesPlace,
};
