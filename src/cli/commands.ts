import type { Command } from './command.js';
import { schemaCommand } from './schema.js';

/** Every command, in the order a grower meets them. */
export const COMMANDS: readonly Command[] = [schemaCommand];
