export { appendLines, type Lines, type Standing } from './append.js';
export { changeText } from './change.js';
export { endsOf, isFile, isFolder, isThere, mayRun, readBytes, readText, shown, statOf, unseen } from './read.js';
export { inScratch } from './scratch.js';
export { decode } from './utf8.js';
export { newFolderProblems, writeNew } from './write-new.js';
export { type NewFile, placeOf, placeProblem, writeFiles } from './write.js';
