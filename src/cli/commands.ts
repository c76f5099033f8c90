import { assessCommand } from './assess.js';
import { blendCommand } from './blend.js';
import { buyCommand } from './buy.js';
import type { Command } from './command.js';
import { concentrateCommand } from './concentrate.js';
import { labelsCommand } from './labels.js';
import { meterCommand } from './meter.js';
import { reachCommand } from './reach.js';
import { schemaCommand } from './schema.js';
import { sheetCommand } from './sheet.js';

/** Every command, in the order a grower meets them. */
export const COMMANDS: readonly Command[] = [
  labelsCommand,
  blendCommand,
  reachCommand,
  buyCommand,
  assessCommand,
  sheetCommand,
  meterCommand,
  concentrateCommand,
  schemaCommand,
];
