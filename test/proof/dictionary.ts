/**
 * A simplex dictionary in whole numbers: every basic variable is Σ entries · nonbasic / denominator. Entries are minors
 * of the program, so that each division in a pivot leaves no remainder (integer-preserving elimination, J. Edmonds 1967,
 * E. H. Bareiss 1968). No right side: variables, rows among them, have bounds, and nonbasic ones stand at a value.
 */
export class Dictionary {
  /** Variable of each column of the dictionary, and of each of its rows. */
  readonly nonbasic: number[];
  readonly basic: number[];
  readonly entries: bigint[][];
  readonly cost: bigint[];
  denominator = 1n;
  /** Per variable: columns of the program first, then its rows. */
  readonly lower: (bigint | undefined)[];
  readonly upper: (bigint | undefined)[];
  /** Per variable; of use while it is nonbasic. */
  readonly at: bigint[];
  /** Per row of the dictionary: the value of its basic variable, times the denominator. */
  values: bigint[] = [];
  pivots = 0;

  constructor(
    from:
      | Dictionary
      | { entries: bigint[][]; cost: bigint[]; lower: (bigint | undefined)[]; upper: (bigint | undefined)[] },
  ) {
    this.entries = from.entries.map((row) => [...row]);
    this.cost = [...from.cost];
    this.lower = [...from.lower];
    this.upper = [...from.upper];
    if (from instanceof Dictionary) {
      this.nonbasic = [...from.nonbasic];
      this.basic = [...from.basic];
      this.denominator = from.denominator;
      this.at = [...from.at];
    } else {
      this.nonbasic = from.cost.map((_, j) => j);
      this.basic = from.entries.map((_, i) => from.cost.length + i);
      this.at = this.lower.map((low, v) => low ?? this.upper[v] ?? 0n);
    }
    this.refresh();
  }

  /** Puts nonbasic variables back onto bounds that have moved, and works out the basic ones. */
  refresh(): void {
    for (const v of this.nonbasic) {
      const [low, high] = [this.lower[v], this.upper[v]];
      if (low !== undefined && this.at[v]! < low) this.at[v] = low;
      if (high !== undefined && this.at[v]! > high) this.at[v] = high;
    }
    const at = this.nonbasic.map((v) => this.at[v]!);
    this.values = this.entries.map((row) => dot(row, at));
  }

  /** Makes the basic variable of row `r` nonbasic at `value`, in exchange for the nonbasic one of column `s`. */
  pivot(r: number, s: number, value: bigint): void {
    const pivotRow = this.entries[r]!;
    const p = pivotRow[s]!;
    const d = this.denominator;
    const exchange = (row: bigint[]) => {
      const factor = row[s]!;
      for (let j = 0; j < row.length; j += 1) {
        if (j === s) continue;
        const own = row[j]!;
        const other = pivotRow[j]!;
        if (factor === 0n || other === 0n) {
          if (own !== 0n) row[j] = (own * p) / d;
        } else row[j] = (own * p - factor * other) / d;
      }
    };
    this.entries.forEach((row, i) => {
      if (i !== r) exchange(row);
    });
    exchange(this.cost);
    for (let j = 0; j < pivotRow.length; j += 1) pivotRow[j] = j === s ? d : -pivotRow[j]!;
    this.denominator = p;
    if (p < 0n) this.negate();
    const leaving = this.basic[r]!;
    this.basic[r] = this.nonbasic[s]!;
    this.nonbasic[s] = leaving;
    this.at[leaving] = value;
    this.pivots += 1;
    this.refresh();
  }

  /** The value of a variable, times the denominator. */
  valueOf(variable: number): bigint {
    const r = this.basic.indexOf(variable);
    return r === -1 ? this.at[variable]! * this.denominator : this.values[r]!;
  }

  /** Σ cost · variables, times the denominator. */
  objective(): bigint {
    return dot(
      this.cost,
      this.nonbasic.map((v) => this.at[v]!),
    );
  }

  private negate(): void {
    this.denominator = -this.denominator;
    for (const row of [...this.entries, this.cost]) for (let j = 0; j < row.length; j += 1) row[j] = -row[j]!;
  }
}

function dot(a: readonly bigint[], b: readonly bigint[]): bigint {
  let sum = 0n;
  for (let j = 0; j < a.length; j += 1) if (a[j] !== 0n && b[j] !== 0n) sum += a[j]! * b[j]!;
  return sum;
}
