/** The import rules of the house; each carries its reason. Rooms read left to right, imports only point back. */
const rooms = [
  'units',
  'chemistry',
  'label',
  // the rows of the catalog are typed by the room that resolves them, so programme stands before catalog
  'programme',
  'catalog',
  'can',
  'feed',
  'formulation',
  'why',
  'stock',
  'dose',
  'chance',
  // a feed is given as doses that can be counted on, so blending asks hands and chance
  'blend',
  'advice',
  'purchase',
  'sheet',
  'meter',
  // a year is many feeds, sheets and readings; what it says is reported
  'year',
  'report',
  'desk',
  'files',
  'cli',
  // the page is a client of the desk, as the command line is; neither knows the other
  'page',
];

/** Rooms that put programs together, or read their verdicts; every other room receives answers. */
const solving = ['label', 'formulation', 'why', 'blend', 'purchase', 'dose', 'chance', 'meter'];

const only = (name, comment, target, importers) => ({
  name,
  comment,
  severity: 'error',
  from: { path: '^(src|solver)/', pathNot: importers },
  to: { path: target },
});

module.exports = {
  forbidden: [
    {
      name: 'solver-knows-no-fertilizer',
      comment: 'The solver is a general tool: columns, rows, numbers. It must be usable and testable without the rest.',
      severity: 'error',
      from: { path: '^solver/' },
      to: { path: '^src/' },
    },
    {
      name: 'solver-has-one-door',
      comment:
        'Outsiders use the doors of the solver, so engines cannot be called without the certificate; small/ has a door of its own.',
      severity: 'error',
      from: { path: '^src/' },
      to: { path: '^solver/', pathNot: '^solver/(small/)?index\\.ts$' },
    },
    {
      name: 'few-rooms-solve',
      comment: 'What a label leaves open, blends, doses and remedies are programs; every other room receives answers.',
      severity: 'error',
      // a proof is built from the verdicts themselves
      from: { path: '^src/', pathNot: `^src/(${solving.join('/|')}/|feed/(proof|settled)\\.ts|index\\.ts)` },
      to: { path: '^solver/' },
    },
    {
      name: 'one-door-under-the-ec-cap',
      comment:
        'A feed that is solved on the first linearisation of EC alone may be over its cap: other rooms solve feeds through the door, which brings them under it.',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/formulation/' },
      to: { path: '^src/formulation/', pathNot: '^src/formulation/(index|starting)\\.ts$' },
    },
    only(
      'first-linearisation',
      'Purchases bring their feeds under the caps afterwards, and the nearest feed may miss the cap; nobody else may stand on the first linearisation.',
      '^src/formulation/starting\\.ts$',
      '^src/(purchase/program|why/nearest)\\.ts$',
    ),
    ...rooms.map((room, i) => ({
      name: `${room}-looks-back-only`,
      comment: 'The data flows one way (label → … → report); an import against the stream would make a circle.',
      severity: 'error',
      from: { path: `^src/${room}/` },
      to: {
        path: '^src/',
        pathNot: `^src/((?:problem|wrong-type|door)\\.ts|${rooms
          .slice(0, i + 1)
          .map((r) => `${r}/`)
          .join('|')})`,
      },
    })),
    {
      name: 'page-asks-desk-and-report',
      comment:
        'The page is the desk seen in a browser: it asks there, shows what reports say, and edits texts as catalog does; it touches no disk and no command line.',
      severity: 'error',
      from: { path: '^src/page/' },
      to: { path: '^src/(cli|files)/' },
    },
    {
      name: 'nobody-imports-the-page',
      comment: 'It is a program of its own, built into one file.',
      severity: 'error',
      from: { path: '^(src|solver)/', pathNot: '^src/page/' },
      to: { path: '^src/page/' },
    },
    {
      name: 'no-circles',
      comment: 'A circle between files means that neither can be read alone.',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
    {
      name: 'world-only-at-the-ends',
      comment: 'Files, terminal and clock belong to the command line, so that the core runs in a browser.',
      severity: 'error',
      from: { path: '^(src|solver)/', pathNot: '^src/(cli|files)/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'files-have-one-door',
      comment:
        'What is read and written goes through one room, so that no command can lose a file in a way of its own.',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/files/' },
      to: { path: '^(node:)?fs(/|$)' },
    },
    {
      name: 'files-know-no-fertilizer',
      comment: 'Bytes, locks and folders: what a text means is told elsewhere.',
      severity: 'error',
      from: { path: '^src/files/' },
      to: { path: '^src/', pathNot: '^src/(files/|problem\\.ts)' },
    },
    {
      name: 'tests-go-through-the-desk',
      comment:
        'What a command does is the desk’s: a test of anything else needs no command line, and rebuilds nothing of it.',
      severity: 'error',
      from: { path: '^test/', pathNot: '^test/(abuse|cli|golden|page)/' },
      to: { path: '^(src|test)/cli/' },
    },
    only(
      'one-importer-simplex',
      'Only the wrapper knows how to make this engine safe.',
      'node_modules/javascript-lp-solver',
      '^solver/tableau\\.ts$',
    ),
    only(
      'one-importer-highs',
      'Only the wrapper knows how to make this engine safe.',
      'node_modules/highs',
      '^solver/highs\\.ts$',
    ),
    only(
      'one-importer-mathjs',
      'mathjs is slow to load; one file knows it.',
      'node_modules/mathjs',
      '^(src/units/expression\\.ts$|test/units/)',
    ),
    only(
      'one-importer-stdlib',
      'One file says why these functions are not left to the engine; everybody else takes them from there.',
      'node_modules/@stdlib',
      '^src/units/elementary\\.ts$',
    ),
    only('zod-at-the-door', 'Domain code receives parsed types.', 'node_modules/zod', '^src/(catalog|cli|report)/'),
    only('csv-at-the-door', 'Domain code receives parsed types.', 'node_modules/csv-parse', '^src/(catalog|cli)/'),
    only(
      'yaml-at-the-door',
      'Domain code receives parsed types.',
      'node_modules/yaml',
      '^src/(catalog|cli|page/edit)/',
    ),
    only(
      'view-library-in-the-page',
      'Reports are pure text; only the page has a living view.',
      'node_modules/preact',
      '^src/page/',
    ),
    only('one-importer-idb', 'One file knows how the page keeps a bench.', 'node_modules/idb', '^src/page/keep\\.ts$'),
    only('one-importer-fflate', 'One file knows zips.', 'node_modules/fflate', '^src/page/exchange\\.ts$'),
    only('yargs-in-the-command-line', 'The core has no command line.', 'node_modules/yargs', '^src/cli/'),
    only(
      'labels-close-at-the-door',
      'A label is closed once, where it comes in: no room after the desk may close one again.',
      '^src/label/close\\.ts$',
      '^src/(desk/close-labels|index)\\.ts$',
    ),
  ],
  options: {
    // the parser reads no JSX: the views of the page are held to their imports by test/house.test.ts
    exclude: { path: '\\.tsx$' },
    doNotFollow: { path: 'node_modules' },
    moduleSystems: ['es6'],
    parser: 'swc',
    tsPreCompilationDeps: false,
    enhancedResolveOptions: {
      extensions: ['.ts', '.js', '.json'],
      exportsFields: ['exports'],
      conditionNames: ['import', 'node', 'default'],
    },
  },
};
