import type { Command } from './command.js';

/** A command as it stands in the list; what it works with is loaded when it is called. */
export interface Listed {
  name: string;
  summary: string;
  load: () => Promise<Command>;
}

/** What loads each command. */
const LOADED = {
  start: async () => (await import('./start.js')).startCommand,
  check: async () => (await import('./check.js')).checkCommand,
  labels: async () => (await import('./labels.js')).labelsCommand,
  blend: async () => (await import('./blend.js')).blendCommand,
  reach: async () => (await import('./reach.js')).reachCommand,
  buy: async () => (await import('./buy.js')).buyCommand,
  assess: async () => (await import('./assess.js')).assessCommand,
  sheet: async () => (await import('./sheet.js')).sheetCommand,
  meter: async () => (await import('./meter.js')).meterCommand,
  concentrate: async () => (await import('./concentrate.js')).concentrateCommand,
  season: async () => (await import('./season.js')).seasonCommand,
  page: async () => (await import('./page.js')).pageCommand,
  journal: async () => (await import('./journal.js')).journalCommand,
  schema: async () => (await import('./schema.js')).schemaCommand,
  completion: async () => (await import('./completion.js')).completionCommand,
} satisfies Record<string, Listed['load']>;

/** Every command, in the order a grower meets them. */
export const COMMANDS: readonly Listed[] = (
  [
    ['start', 'make a bench: from questions, or from labels as printed'],
    ['check', 'read a whole bench: everything that is wrong, and every doubt'],
    ['labels', 'what each label means in mg/L, and what is wrong with it'],
    ['blend', 'the feed to give from your shelf: near, sure, thrifty, with its proof'],
    ['reach', 'what the shelf can and cannot reach, element by element'],
    ['buy', 'what to buy so that every feed can be mixed, with its proof'],
    ['assess', 'what a recipe delivers, or what others’ advice comes to'],
    ['sheet', 'the mixing sheet for the sink: doses, order, readings; as text, page, PDF, label'],
    ['meter', 'judge a reading, rescue a can, weigh a spoon with the pen, check the pen'],
    ['concentrate', 'stock solutions of a feed in one or two bottles'],
    ['season', 'a year of feed: what is fed when, what runs out, what to order; as a calendar too'],
    ['page', 'the same in a browser, offline: one file for a computer or a phone'],
    ['journal', 'what you mixed: stock, cost and readings over time'],
    ['schema', 'the shape of what a command prints with --json, as JSON Schema'],
    ['completion', 'a script that lets your shell complete commands, options and names'],
  ] as const
).map(([name, summary]) => ({ name, summary, load: LOADED[name] }));
