/** g/L or mL/L of each shelf product (same order) and litres per litre of each water. */
export interface Amounts {
  products: number[];
  waters: number[];
}
