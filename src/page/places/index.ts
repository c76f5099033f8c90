import { feedPlace } from './feed.js';
import { filesPlace } from './files.js';
import type { PlaceName } from './names.js';
import type { Place } from './place.js';

export const PLACE: Readonly<Record<PlaceName, Place>> = { feed: feedPlace, files: filesPlace };
