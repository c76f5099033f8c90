/** A table that is no file of the bench: what is for sale, or another shelf; without a byte-order mark. */
export interface Table {
  name: string;
  text: string;
}
