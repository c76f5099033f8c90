/** Published objects whose fields have changed since the first; the shapes hold the same ids, and a test holds them together. */
const VERSIONS: Readonly<Record<string, number>> = { blend: 3, buy: 2, frontier: 2, substitutes: 2 };

/** `velamen.blend/3`: what a command's --json object calls itself, refused or not. */
export const schemaId = (command: string): string => `velamen.${command}/${VERSIONS[command] ?? 1}`;
