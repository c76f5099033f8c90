import { feedPlace } from './feed.js';
import { filesPlace } from './files.js';
import type { PlaceName } from './names.js';
import type { Place } from './place.js';
import { plantsPlace } from './plants.js';
import { shelfPlace } from './shelf.js';
import { sinkPlace } from './sink.js';

export const PLACE: Readonly<Record<PlaceName, Place>> = {
  shelf: shelfPlace,
  plants: plantsPlace,
  feed: feedPlace,
  sink: sinkPlace,
  files: filesPlace,
};
