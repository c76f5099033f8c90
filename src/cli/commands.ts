import type { Command } from './command.js';

/** A command as it stands in the list; what it works with is loaded when it is called. */
export interface Listed {
  name: string;
  summary: string;
  load: () => Promise<Command>;
}

/** Every command, in the order a grower meets them. */
export const COMMANDS: readonly Listed[] = [
  {
    name: 'start',
    summary: 'make a bench: from questions, or from labels as printed',
    load: async () => (await import('./start.js')).startCommand,
  },
  {
    name: 'check',
    summary: 'read a whole bench: everything that is wrong, and every doubt',
    load: async () => (await import('./check.js')).checkCommand,
  },
  {
    name: 'labels',
    summary: 'what each label means in mg/L, and what is wrong with it',
    load: async () => (await import('./labels.js')).labelsCommand,
  },
  {
    name: 'blend',
    summary: 'the feed to give from your shelf: near, sure, thrifty, with its proof',
    load: async () => (await import('./blend.js')).blendCommand,
  },
  {
    name: 'reach',
    summary: 'what the shelf can and cannot reach, element by element',
    load: async () => (await import('./reach.js')).reachCommand,
  },
  {
    name: 'buy',
    summary: 'what to buy so that every feed can be mixed, with its proof',
    load: async () => (await import('./buy.js')).buyCommand,
  },
  {
    name: 'assess',
    summary: 'what a recipe delivers, or what others’ advice comes to',
    load: async () => (await import('./assess.js')).assessCommand,
  },
  {
    name: 'sheet',
    summary: 'the mixing sheet for the sink: doses, order, readings; as text, page, PDF, label',
    load: async () => (await import('./sheet.js')).sheetCommand,
  },
  {
    name: 'meter',
    summary: 'judge a reading, rescue a can, weigh a spoon with the pen, check the pen',
    load: async () => (await import('./meter.js')).meterCommand,
  },
  {
    name: 'concentrate',
    summary: 'stock solutions of a feed in one or two bottles',
    load: async () => (await import('./concentrate.js')).concentrateCommand,
  },
  {
    name: 'season',
    summary: 'a year of feed: what is fed when, what runs out, what to order; as a calendar too',
    load: async () => (await import('./season.js')).seasonCommand,
  },
  {
    name: 'page',
    summary: 'the same in a browser, offline: one file for a computer or a phone',
    load: async () => (await import('./page.js')).pageCommand,
  },
  {
    name: 'journal',
    summary: 'what you mixed: stock, cost and readings over time',
    load: async () => (await import('./journal.js')).journalCommand,
  },
  {
    name: 'schema',
    summary: 'the shape of what a command prints with --json, as JSON Schema',
    load: async () => (await import('./schema.js')).schemaCommand,
  },
  {
    name: 'completion',
    summary: 'a script that lets your shell complete commands, options and names',
    load: async () => (await import('./completion.js')).completionCommand,
  },
];
