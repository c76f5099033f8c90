/**
 * What is asked of a bench, in the words a person types: an option of the command line, a field of a page or a key of a library call. Each
 * is read by the reader of the option of the same name (`atMost` is `--at-most`), so that `15,5 °C` or `1 US gal` means the same everywhere.
 * All are optional; problems name the option.
 */
export interface Wishes {
  /** The feed of the bench; without it, every feed in the order of the file. */
  feed?: string;
  /** Plant group, `phalaenopsis` or `moth orchid`. */
  plants?: string;
  /** `sphagnum`, `bark`, `coir`, `peat`, `clay` or `mounted`. */
  medium?: string;
  /** `growth`, `bloom` or `rest`. */
  phase?: string;
  /** Share of full strength (`80 %`) or total nitrogen (`N 90 mg/L`). */
  strength?: string;
  /** How much is to be mixed, `4 L`, `1 US gal`, or a can of the kit. */
  mix?: string;
  /** Waters of the catalog, or analyses in mg/L: `Ca=40, Mg=11, alkalinity=130`. */
  water?: readonly string[];
  /** Money that the prices are in. */
  currency?: string;
  /** Most ammonium as a share of total nitrogen: `0`, `10 %`. */
  nh4?: string;
  /** Rules of one's own, `Ca >= 3 * Mg`, `EC <= 0.6`. */
  rule?: readonly string[];
  /** Ids of the catalog, as if they stood on the shelf. */
  with?: readonly string[];
  /** Ids of the shelf, as if they were not there. */
  without?: readonly string[];
  /** Of the can, `18 °C`. */
  temperature?: string;
  /** As close as possible to the aims instead of cheapest. */
  closest?: boolean;
  /** Most products; in a purchase, most new ones. */
  atMost?: string;
  /** Everything about what it costs to insist. */
  prices?: boolean;
  /** Share of batches that shall keep every limit, `90 %`. */
  sure?: string;
  /** Every feed of the bench as one overview. */
  all?: boolean;
  /** `1.2 g base + 3 mL kelp in 4 L`, or advice in words. */
  recipe?: string;
  /** The catalog's own products and salts instead of a shelf. */
  catalog?: boolean;
  /** Ids of the products that are meant; without them, all. */
  products?: readonly string[];
  /** Forms that hold one feed only, such as `json`: several feeds are then refused, naming them. */
  oneFeedFor?: readonly string[];

  /** The day on the sheet, `2026-11-25`. */
  date?: string;
  /** What the pen shows in the water alone. */
  readingOfWater?: string;

  /** How much of each feed is used in a week, `10 L`. */
  weekly?: string;
  weeks?: string;
  months?: string;
  /** Buy for 52 weeks. */
  year?: boolean;
  /** Most money for packs. */
  budget?: string;
  /** Ids that may not be bought. */
  ban?: readonly string[];
  /** Ids of which a pack has to be bought. */
  need?: readonly string[];
  /** How long a search may take. */
  seconds?: string;
  /** A product of the shelf that is to be replaced. */
  insteadOf?: string;

  /** One part of each stock in so many parts of feed, `1:100`. */
  ratio?: string;
  /** The same as a dose, `10 mL/L`. */
  dose?: string;
  /** One stock bottle or two. */
  tanks?: string;
  /** How much of each stock to make. */
  jug?: string;
  /** The coldest it gets where the stock stands. */
  coldest?: string;

  /** What the pen showed: `0.46`, `230 ppm`, `2: 0.21`, `end: 0.46`. */
  reading?: readonly string[];
  /** `EC`, or ppm per mS/cm. */
  scale?: string;
  /** Whether the pen corrects for temperature: `yes` or `no`. */
  compensates?: string;
  /** What a check in a standard found. */
  penFactor?: string;
  /** The water measured in the can. */
  measured?: string;
  /** What the can holds to the brim. */
  brim?: string;
  /** A powder that was spooned in, by its id. */
  product?: string;
  /** The spoon, `1/4 tsp`. */
  spoon?: string;
  /** How many level spoons. */
  count?: string;
  /** The reading before the spoons. */
  before?: string;
  /** The reading after them. */
  after?: string;
  /** Whether the bulk density shall be kept on the shelf, which has to hold the product. */
  save?: boolean;
  /** What is written on a standard solution, `1413 µS`. */
  standard?: string;
  /** What the pen shows in it. */
  reads?: string;
}

/** The option of a wish: `atMost` is `--at-most`. */
export const optionOf = (wish: string): string => `--${wish.replace(/[A-Z]/g, (big) => `-${big.toLowerCase()}`)}`;

/** Which of these wishes were made, in the order they were made. */
export function made(wishes: Wishes, among: readonly (keyof Wishes)[]): (keyof Wishes)[] {
  return (Object.keys(wishes) as (keyof Wishes)[]).filter((key) => {
    const said = wishes[key];
    return among.includes(key) && said !== undefined && said !== false && !(Array.isArray(said) && said.length === 0);
  });
}
