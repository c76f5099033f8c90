/** Everything a command may touch of the world besides files, so that a test can run it in-process. */
export interface Io {
  stdout: (text: string) => void;
  stderr: (text: string) => void;
  env: Record<string, string | undefined>;
  /** Absolute folder that relative paths start from. */
  cwd: string;
  /** True where stdout is a terminal. */
  isTTY: boolean;
  /** Width of the terminal, if any. */
  columns?: number;
  now: () => Date;
  /** Asks the person at the terminal: a line, or as a block all until an empty one; null where they left. Absent where nobody is there. */
  ask?: (text: string, block: boolean) => Promise<string | null>;
  /** Real paths of the files that were read; none of them is ever written over by an answer. */
  inputs: Set<string>;
}

/** How text is set; what is of the whole report alone is left out unless `full`. */
export interface TextSetting {
  columns: number;
  colour: boolean;
  full: boolean;
}

/** For this terminal: 80 columns at most, colour only where it is welcome. */
export function textOptions(io: Io): Omit<TextSetting, 'full'> {
  const columns = io.isTTY ? Math.min(80, Math.max(40, io.columns ?? 80)) : 80;
  return { columns, colour: io.isTTY && !io.env.NO_COLOR && io.env.TERM !== 'dumb' };
}

/** For a file. */
export const IN_A_FILE: Omit<TextSetting, 'full'> = { columns: 80, colour: false };
